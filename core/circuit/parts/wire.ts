import type { Quantity } from '../../netlist/index.ts'
import type { Span, Token } from '../../netlist/tree.ts'
import { measureForm, quantityAsTyped } from '../forms.ts'
import { type Context, kind } from '../kind.ts'
import { lawAlways, WIRE } from '../laws.ts'
import type { TerminalId, Wire } from '../model.ts'

/** Wires: conductors between terminals, with the colour the sheet gives them. */

const clauses = { gauge: measureForm('gauge', '10 AWG'), length: measureForm('metres', '3 ft') }

/** Terminals in the order typed, each joined to the next. */
export const wireKind = kind({
  word: 'wire',
  title: 'Wire',
  example: 'wire BU TF.1 PB.1 M.4',
  named: 'no',
  round: 3,
  bare: true,
  clauses,
  children: {},
  read(line, to) {
    const places: Token[] = []
    for (const token of line.bare) {
      if (isWords(token)) places.push(token)
      else to.tell('stray-mark', token, token.text, 'Leave a space between terminals; a `run` takes `>` between parts.')
    }
    const [first] = places
    const coloured = first !== undefined && isColour(first, to)
    const wire = wireOf(line.clauses, coloured ? colourOf(first, to) : undefined)
    const ends = coloured ? places.slice(1) : places
    if (ends.length < 2 && !line.told) to.tell('one-end-only', line.head, 'wire', 'wire BK supply.L1 CS.A')
    let last: TerminalId | undefined
    for (const token of ends) {
      const terminal = to.findTerminal({ text: token.text, at: token })
      if (terminal !== undefined && last !== undefined) join(last, terminal, token, wire, to)
      last = terminal
    }
  },
})

/** Wires between places in a row: in at a part's first terminal, out at its second; a colour may stand before a place. */
export const runKind = kind({
  word: 'run',
  title: 'Run',
  example: 'run RD CS.C > OT > F1 > BU/WH TF > H1 > M.1',
  named: 'no',
  round: 3,
  bare: true,
  clauses,
  children: {},
  read(line, to) {
    const hops = splitAtArrows(line.bare, line.head)
    let colour: Colour | undefined
    let out: TerminalId | undefined
    for (const [at, { tokens, arrow }] of hops.entries()) {
      const words = tokens.filter((token) => {
        if (!isWords(token)) to.tell('stray-mark', token, token.text, 'Put `>` between the places of a run.')
        return isWords(token)
      })
      const [first] = words
      const coloured = first !== undefined && (words.length > 1 || hops.length < 2) && isColour(first, to)
      const [place, extra] = coloured ? words.slice(1) : words
      if (coloured) colour = colourOf(first, to)
      if (extra) to.tell('no-arrow', extra, extra.text)
      else if (hops.length < 2 && !line.told) {
        to.tell('one-end-only', line.head, 'run', 'run RD CS.C > OT > H1')
      }
      if (!place) {
        if (hops.length > 1) to.tell('no-place', arrow)
        out = undefined
        continue
      }
      const through = to.findThrough({ text: place.text, at: place })
      if (through && out !== undefined) join(out, through[0], place, wireOf(line.clauses, colour), to)
      // A run that begins at a terminal leaves from it, also where it is one half of a pin.
      out = at === 0 && through && place.text.includes('.') ? through[0] : through?.[1]
    }
  },
})

const isWords = ({ kind }: Token): boolean => kind === 'word' || kind === 'string'

interface Hop {
  readonly tokens: readonly Token[]
  /** The mark before it, of the first the one behind it: where to say that nothing stands there. */
  readonly arrow: Span
}

function splitAtArrows(tokens: readonly Token[], head: Span): readonly Hop[] {
  const arrows = tokens.filter((token) => token.kind === '>')
  const hops: { tokens: Token[]; arrow: Span }[] = [{ tokens: [], arrow: arrows[0] ?? head }]
  for (const token of tokens) {
    if (token.kind === '>') hops.push({ tokens: [], arrow: token })
    else hops.at(-1)?.tokens.push(token)
  }
  return hops
}

/** Colour codes of IEC 60757 (from memory, confidence high). */
export const COLOURS: readonly string[] = [
  'BK',
  'BN',
  'RD',
  'OG',
  'YE',
  'GN',
  'BU',
  'VT',
  'GY',
  'WH',
  'PK',
  'GD',
  'TQ',
  'SR',
  'GNYE',
]

/** What stands before the terminals of a wire is a colour if it has no dot, unless a part or a splice is called so. */
function isColour({ text }: Token, to: Context): boolean {
  return !text.includes('.') && (!to.isPlace(text) || COLOURS.includes(text) || to.colourOf(text) !== undefined)
}

type Colour = Pick<Wire, 'colour' | 'iec'>

/**
 * The colour as typed, with what its letters stand for where the sheet uses its own. Letters that neither it nor
 * IEC 60757 knows are kept, and told.
 */
function colourOf(token: Token, to: Context): Colour {
  const meanings = token.text.split('/').map((letters) => ({ letters, meaning: to.colourOf(letters) }))
  const unknown = meanings.find(({ letters, meaning }) => meaning === undefined && !COLOURS.includes(letters))
  if (unknown) to.tell('unknown-colour', token, unknown.letters || token.text, COLOURS)
  const iec = meanings.map(({ letters, meaning }) => meaning ?? letters)
  const painted = iec.join('/')
  const all = iec.every((letters) => COLOURS.includes(letters))
  return { colour: token.text, ...(all && painted !== token.text && { iec: painted }) }
}

interface WireClauses {
  readonly gauge?: Quantity
  readonly length?: Quantity
}

const wireOf = ({ gauge, length }: WireClauses, colour: Colour = {}): Wire => ({
  ...colour,
  ...(gauge && { gauge: quantityAsTyped(gauge) }),
  ...(length && { length: quantityAsTyped(length) }),
})

export function join(a: TerminalId, b: TerminalId, at: Span, wire: Wire, to: Context): void {
  if (a === b) {
    to.tell('wire-to-itself', at, a)
    return
  }
  const id = `${a}~${b}`
  to.wire({
    id,
    part: '',
    name: id,
    role: 'wire',
    ends: [a, b],
    laws: lawAlways(WIRE),
    figure: { kind: 'wire' },
    note: '',
    wire,
    at: { from: at.from, to: at.to },
  })
}
