import { nearest } from '../../netlist/index.ts'
import type { Span, Token } from '../../netlist/tree.ts'
import { measureForm } from '../forms.ts'
import { type Context, kind, type Said } from '../kind.ts'
import type { TerminalId, Wire } from '../model.ts'
import { WIRE } from '../ohms.ts'
import { lawAlways } from './contact.ts'

/** Wires: conductors between terminals, with the colour the sheet gives them. */

const clauses = { gauge: measureForm('gauge', '10 AWG'), length: measureForm('metres', '3 ft') }

/** Terminals in the order typed, each joined to the next. */
export const wireKind = kind({
  word: 'wire',
  title: 'Wire',
  example: 'wire BU DS.NO PB.1 M.6',
  named: 'no',
  round: 3,
  bare: true,
  clauses,
  children: {},
  read(line, to) {
    const [first] = line.bare
    // A terminal has a dot, or is a splice or the chassis: then there is such a terminal.
    const coloured = first?.kind === 'word' && !first.text.includes('.') && !to.hasTerminal(first.text)
    const wire = wireOf(line, coloured ? colourOf(first, to) : undefined)
    const ends = coloured ? line.bare.slice(1) : line.bare
    let last: TerminalId | undefined
    for (const token of ends) {
      if (token.kind !== 'word' && token.kind !== 'string') {
        const hint = 'Leave a space between terminals; a `run` takes `>` between parts.'
        to.tell('stray-mark', token, `“${token.text}” does not belong in a wire.`, hint)
        continue
      }
      const terminal = to.findTerminal({ text: token.text, at: token })
      if (terminal !== undefined && last !== undefined) join(last, terminal, token, wire, to)
      last = terminal
    }
    if (ends.length < 2) {
      const hint = 'Write both ends: `wire BK supply.L1 CS.A`.'
      to.tell('one-end-only', line.head, 'A wire joins at least two terminals.', hint)
    }
  },
})

/** Wires between parts in a row: in at a part's first terminal, out at its second; a colour may stand before a place. */
export const runKind = kind({
  word: 'run',
  title: 'Run',
  example: 'run RD CS.C > OT > HL > BU/WH TC > H1 > M.1',
  named: 'no',
  round: 3,
  bare: true,
  clauses,
  children: {},
  read(line, to) {
    const hops = splitAtArrows(line.bare)
    let colour: string | undefined
    let out: TerminalId | undefined
    for (const [i, hop] of hops.entries()) {
      const [place, ...more] = hop.toReversed()
      if (!place) {
        const at = line.bare.filter((t) => t.kind === '>')[Math.max(0, i - 1)] ?? line.head
        to.tell(
          'stray-mark',
          at,
          'There is nothing on one side of this `>`.',
          'Write a part or a terminal between two `>`.',
        )
        continue
      }
      const [given, extra] = more
      if (extra) {
        const hint = 'Put `>` between the parts of a run; only a colour stands before a place.'
        to.tell('no-arrow', extra, `“${extra.text}” is one word too many here.`, hint)
      }
      if (given) colour = colourOf(given, to)
      const through = to.findThrough({ text: place.text, at: place })
      if (through && out !== undefined) join(out, through[0], place, wireOf(line, colour), to)
      out = through?.[1]
    }
    if (hops.length < 2) {
      const hint = 'Write them with `>` between: `run RD CS.C > OT > H1`.'
      to.tell('one-end-only', line.head, 'A run goes through at least two places.', hint)
    }
  },
})

function splitAtArrows(tokens: readonly Token[]): readonly (readonly Token[])[] {
  const groups: Token[][] = [[]]
  for (const token of tokens) {
    if (token.kind === '>') groups.push([])
    else groups.at(-1)?.push(token)
  }
  return groups
}

/** Colour codes of IEC 60757 (from memory, confidence high). */
const COLOURS = ['BK', 'BN', 'RD', 'OG', 'YE', 'GN', 'BU', 'VT', 'GY', 'WH', 'PK', 'GD', 'TQ', 'SR', 'GNYE']

/** The colour as typed; letters that IEC 60757 does not know are kept, and told, since the sheet may use its own. */
function colourOf(token: Token, to: Context): string {
  for (const letters of token.text.split('/')) {
    if (COLOURS.includes(letters)) continue
    const guess = nearest(letters, COLOURS)
    to.tell(
      'unknown-colour',
      token,
      `“${letters}” is no colour code.`,
      guess ? `Did you mean ${guess}?` : `The codes are ${COLOURS.join(', ')}; a stripe is written as WH/RD.`,
      'warning',
    )
  }
  return token.text
}

type WireLine = Pick<Said<typeof clauses>, 'clauses'>

function wireOf({ clauses: { gauge, length } }: WireLine, colour: string | undefined): Wire {
  return {
    ...(colour !== undefined && { colour }),
    ...(gauge && { gauge: `${gauge.value.value} ${gauge.value.unit}` }),
    ...(length && { length: `${length.value.value} ${length.value.unit}` }),
  }
}

function join(a: TerminalId, b: TerminalId, at: Span, wire: Wire, to: Context): void {
  if (a === b) {
    to.tell('wire-to-itself', at, `This wire begins and ends at ${a}.`, 'Correct one of its ends.')
    return
  }
  to.wire({
    id: `${a}~${b}`,
    part: '',
    name: `${a}~${b}`,
    role: 'wire',
    ends: [a, b],
    laws: lawAlways(WIRE),
    figure: { kind: 'wire' },
    note: '',
    wire,
    at,
  })
}
