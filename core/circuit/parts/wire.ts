import { measureForm } from '../forms.ts'
import { type Context, kind, type Said } from '../kind.ts'
import type { TerminalId, Wire } from '../model.ts'
import { WIRE } from '../ohms.ts'
import type { Span, Token } from '../../netlist/tree.ts'
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
    const colour = first && isColour(first) ? first.text : undefined
    let last: TerminalId | undefined
    let count = 0
    for (const token of colour === undefined ? line.bare : line.bare.slice(1)) {
      if (token.kind !== 'word' && token.kind !== 'string') {
        to.tell('stray-mark', token, `“${token.text}” does not belong in a wire.`, 'Leave a space between terminals; a `run` takes `>` between parts.')
        continue
      }
      count++
      const terminal = to.findTerminal({ text: token.text, at: token })
      if (terminal !== undefined && last !== undefined) join(last, terminal, token, wireOf(line, colour), to)
      last = terminal
    }
    if (count < 2) {
      to.tell('one-end-only', line.head, 'A wire joins at least two terminals.', 'Write both ends: `wire BK supply.L1 CS.A`.')
    }
  },
})

/** Wires between parts in a row: in at a part's first terminal, out at its second. */
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
    let colour: string | undefined
    let out: TerminalId | undefined
    let hops = 0
    let expectHop = true
    for (const token of line.bare) {
      if (token.kind === '>') {
        if (expectHop) to.tell('stray-mark', token, 'There is nothing before this `>`.', 'Write a part or a terminal between two `>`.')
        expectHop = true
      } else if (expectHop && isColour(token)) colour = token.text
      else if (!expectHop) {
        to.tell('no-arrow', token, `There is no \`>\` before “${token.text}”.`, 'Put `>` between the parts of a run; `wire` takes terminals with spaces.')
      } else {
        expectHop = false
        hops++
        const through = to.findThrough({ text: token.text, at: token })
        if (through && out !== undefined) join(out, through[0], token, wireOf(line, colour), to)
        out = through?.[1]
      }
    }
    if (expectHop && hops > 0) {
      to.tell('stray-mark', line.head, 'The run ends with `>`.', 'Write where it goes, or take the last `>` out.')
    } else if (hops < 2) {
      to.tell('one-end-only', line.head, 'A run goes through at least two places.', 'Write them with `>` between: `run RD CS.C > OT > H1`.')
    }
  },
})

/** Colour letters as on the sheet: two or more capitals, with a stripe after `/`; a terminal has a dot. */
const isColour = (token: Token): boolean => token.kind === 'word' && /^[A-Z]{1,4}(\/[A-Z]{1,4})?$/.test(token.text)

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
