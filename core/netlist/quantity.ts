import { nearest } from './nearest.ts'
import { problem } from './problems.ts'
import type { Problem, Span, Token } from './tree.ts'

/** mm² of American wire gauge `n`: 36 steps of a constant ratio from gauge 36 (0.005 in) to 0000 (0.46 in). ASTM B258. */
function squareMillimetres(gauge: number): number {
  const diameter = 0.127 * 92 ** ((36 - gauge) / 39)
  return (Math.PI / 4) * diameter ** 2
}

/** What each unit measures, and a value of it in the unit its quantity is named after. */
const units = {
  V: ['volts', (n) => n],
  mV: ['volts', (n) => n / 1e3],
  A: ['amps', (n) => n],
  mA: ['amps', (n) => n / 1e3],
  uA: ['amps', (n) => n / 1e6],
  W: ['watts', (n) => n],
  kW: ['watts', (n) => n * 1e3],
  VA: ['voltamperes', (n) => n],
  kVA: ['voltamperes', (n) => n * 1e3],
  ohm: ['ohms', (n) => n],
  kohm: ['ohms', (n) => n * 1e3],
  Mohm: ['ohms', (n) => n * 1e6],
  uF: ['farads', (n) => n / 1e6],
  nF: ['farads', (n) => n / 1e9],
  pF: ['farads', (n) => n / 1e12],
  Hz: ['hertz', (n) => n],
  C: ['celsius', (n) => n],
  F: ['celsius', (n) => ((n - 32) * 5) / 9],
  s: ['minutes', (n) => n / 60],
  min: ['minutes', (n) => n],
  h: ['minutes', (n) => n * 60],
  mm: ['metres', (n) => n / 1e3],
  cm: ['metres', (n) => n / 1e2],
  m: ['metres', (n) => n],
  in: ['metres', (n) => n * 0.0254],
  ft: ['metres', (n) => n * 0.3048],
  AWG: ['gauge', squareMillimetres],
  mm2: ['gauge', (n) => n],
  deg: ['degrees', (n) => n],
  '%': ['share', (n) => n / 100],
} as const satisfies Record<string, readonly [string, (n: number) => number]>

/** A unit as the language writes it; `Ω`, `µF`, `°C` and `mm²` are read as `ohm`, `uF`, `C` and `mm2`. */
export type Unit = keyof typeof units
export type QuantityName = (typeof units)[Unit][0]

/** Every unit, for completion and help. */
export const unitWords: readonly Unit[] = Object.keys(units).filter(isUnit)

/** Words people write for units, which are not words of the language; they only find the right one. */
const spelledOut: ReadonlyMap<string, Unit> = new Map(
  Object.entries({
    A: 'amp amps ampere amperes',
    V: 'volt volts vac vdc',
    W: 'watt watts',
    kW: 'kilowatt kilowatts',
    ohm: 'ohms',
    kohm: 'k kilohm kilohms',
    Mohm: 'meg megohm megohms',
    uF: 'mf mfd microfarad microfarads',
    Hz: 'cps hertz',
    C: 'celsius degc',
    F: 'fahrenheit degf',
    s: 'sec secs second seconds',
    min: 'mins minute minutes',
    h: 'hr hrs hour hours',
    m: 'metre metres meter meters',
    in: 'inch inches',
    ft: 'foot feet',
    AWG: 'gauge',
    deg: 'degree degrees',
    '%': 'percent',
  } satisfies Partial<Record<Unit, string>>).flatMap(([unit, words]) =>
    words.split(' ').map((word): [string, Unit] => [word, unit as Unit]),
  ),
)

/** A number with its unit, as typed, and where. */
export interface Quantity extends Span {
  readonly value: number
  readonly unit: Unit
  readonly quantity: QuantityName
  /** The value in the unit its quantity is named after: volts, °C, minutes, metres; 0…1 for a share, mm² for a gauge. */
  readonly si: number
}

/** Whether reading came to a problem instead of a value. */
export function isProblem<T extends Span>(read: T | Problem): read is Problem {
  return 'code' in read
}

/** The number that `word` is, all of it: `3950`, `0.5`, `.5`, `-18`. No exponents. */
export function number(word: string): number | undefined {
  const parts = numberAndRest(word)
  return parts && parts.rest === '' ? parts.value : undefined
}

/** A number, and what is written right behind it, if that could be a unit: `1-2`, `13/14` and `0..240` are no numbers. */
function numberAndRest(word: string): { readonly value: number; readonly rest: string } | undefined {
  const found = /^([+\-−]?)(\d+(?:\.\d*)?|\.\d+)((?:[\p{L}°%²][\p{L}\d²]*)?)$/u.exec(word)
  if (!found) return undefined
  const [, sign = '', digits = '', rest = ''] = found
  const value = Number(digits) * (sign === '' || sign === '+' ? 1 : -1)
  return Number.isFinite(value) ? { value, rest } : undefined
}

/** The unit that `word` writes, if it is one: `kΩ` is `kohm`. */
export function unitOf(word: string): Unit | undefined {
  const plain = word
    .replace(/[\u03a9\u2126]$/, 'ohm')
    .replace(/^[\u00b5\u03bc]/, 'u')
    .replace(/^°(?=[CF]$)/, '')
    .replace(/^mm²$/, 'mm2')
  return isUnit(plain) ? plain : undefined
}

function isUnit(word: string): word is Unit {
  return Object.hasOwn(units, word)
}

/**
 * The quantity that begins at `tokens[at]`: `15 A` or `15A`. Undefined when no number stands there. The result's span covers
 * the tokens that were read, also for a problem: then the number, with its unit where there is a try at one.
 */
export function quantity(tokens: readonly Token[], at = 0): Quantity | Problem | undefined {
  const first = tokens[at]
  if (first?.kind !== 'word') return undefined
  const parts = numberAndRest(first.text)
  if (!parts) return undefined
  const second = tokens[at + 1]
  if (parts.rest !== '') return withUnit(parts.value, parts.rest, first) ?? unknownUnit(parts.rest, first)
  if (second?.kind === ',' && second.gap === 'none') {
    const third = tokens[at + 2]
    if (third?.kind === 'word' && third.gap === 'none' && numberAndRest(third.text)) return decimalComma(tokens, at)
  }
  if (second?.kind !== 'word') return problem('missing-unit', first, first.text)
  const span = { from: first.from, to: second.to }
  const read = withUnit(parts.value, second.text, span)
  if (read) return read
  return meant(second.text) ? unknownUnit(second.text, span) : problem('missing-unit', first, first.text)
}

function withUnit(value: number, word: string, { from, to }: Span): Quantity | undefined {
  const unit = unitOf(word)
  if (unit === undefined) return undefined
  const [name, inItsUnit] = units[unit]
  return { value, unit, quantity: name, si: inItsUnit(value), from, to }
}

/** The unit that somebody means by `word`, where there is no doubt. */
function meant(word: string): Unit | undefined {
  const lower = word.toLowerCase()
  return spelledOut.get(lower) ?? unitWords.find((unit) => unit.toLowerCase() === lower)
}

function unknownUnit(word: string, span: Span): Problem {
  const better = meant(word) ?? nearest(word, unitWords)
  return problem(
    'unknown-unit',
    span,
    word,
    better ? `Write ${better}.` : 'Write a unit such as V, A, W, ohm, C or min.',
  )
}

function decimalComma(tokens: readonly Token[], at: number): Problem {
  const [whole, , decimals, unit] = tokens.slice(at, at + 4)
  const from = whole?.from ?? 0
  const end = unit?.kind === 'word' && unitOf(unit.text) && number(decimals?.text ?? '') !== undefined ? unit : decimals
  return problem('decimal-comma', { from, to: end?.to ?? from }, `${whole?.text},${decimals?.text}`)
}
