import type { Quantity, QuantityName } from '../../netlist/index.ts'
import { measureForm, nameForm, quantityAsTyped, worksFromForm } from '../forms.ts'
import type { Context, SaidLine } from '../kind.ts'
import { inductive, lawAlways, resistance } from '../laws.ts'
import type { Element, Figure } from '../model.ts'
import { addPart, element, onePair, type PartLine, pairName } from './part.ts'

/** What loads have in common: ratings, and the resistance and working share that follow from them. */

/** Clauses of a part that is one load. */
export const loadClauses = { at: measureForm('volts', '240 V'), works: worksFromForm, area: nameForm('area') }
export const loadRatings = ['watts', 'amps', 'ohms', 'volts'] as const satisfies readonly QuantityName[]

export type LoadLine = PartLine &
  Pick<SaidLine, 'ratings'> & { readonly clauses: { readonly at?: Quantity; readonly works?: number } }

/** The rating of that quantity in its SI unit, if the line gives one. */
export const ratingOf = (line: Pick<SaidLine, 'ratings'>, quantity: QuantityName): number | undefined =>
  line.ratings.find((r) => r.quantity.quantity === quantity)?.quantity.si

/** `10.7 Ω`, `4.7 kΩ`: three figures, as a person would read it aloud. */
export function ohmText(ohms: number): string {
  const [n, unit] = ohms >= 1e6 ? [ohms / 1e6, 'MΩ'] : ohms >= 1e3 ? [ohms / 1e3, 'kΩ'] : [ohms, 'Ω']
  return `${Number(n.toPrecision(3))} ${unit}`
}
const ampText = (amps: number): string => `${Number(amps.toPrecision(3))} A`
const wattText = (watts: number): string => `${Number(watts.toPrecision(4))} W`

export interface Rated {
  readonly volts: number
  /** While it works. */
  readonly ohms: number
  /** To direct current, with the part cold: what a meter shows. */
  readonly dc: number
  readonly note: string
}

/**
 * Volts and working ohms from whichever ratings are given: W and V, A and V, or ohms (then V only says when it works).
 * Ohms beside W or A are those that a meter shows. Tells and gives `undefined` when they do not determine it.
 */
export function ratedOf(
  line: Pick<SaidLine, 'name' | 'head' | 'told' | 'ratings'> & { readonly clauses: { readonly at?: Quantity } },
  to: Context,
  usualVolts?: number,
): Rated | undefined {
  const typed = line.clauses.at?.si ?? ratingOf(line, 'volts')
  if (typed === undefined && usualVolts !== undefined && !line.told) {
    to.tell('part-volts-assumed', line.head, line.name, usualVolts)
  }
  const volts = typed ?? usualVolts
  const watts = ratingOf(line, 'watts') ?? ratingOf(line, 'voltamperes')
  const [amps, ohms] = [ratingOf(line, 'amps'), ratingOf(line, 'ohms')]
  const working =
    volts === undefined
      ? undefined
      : watts !== undefined
        ? volts ** 2 / watts
        : amps !== undefined
          ? volts / amps
          : ohms
  if (volts === undefined || working === undefined) {
    if (!line.told) to.tell(volts === undefined ? 'no-volts' : 'no-rating', line.head, line.name)
    return undefined
  }
  const note = watts !== undefined ? wattText(watts) : amps !== undefined ? ampText(amps) : ohmText(working)
  return { volts, ohms: working, dc: ohms ?? working, note }
}

/** What a part that is one load is like; `works` and `weak` are shares of its rated current. */
export interface LoadForm {
  readonly figure: Figure
  readonly works: number
  readonly weak: number
  /** Taken where the line gives no volts. */
  readonly usualVolts?: number
  /** Its rating beyond the ohms of its wire is reactance. */
  readonly wound?: true
  readonly holds?: number
  readonly advances?: string
}

/** A part that is one load between two tags. Returns its element. */
export function loadPart(line: LoadLine, to: Context, it: LoadForm): readonly Element[] {
  return addPart(line, to, [loadElement(line, to, it)])
}

/** The element of a part that is one load, and perhaps contacts. */
export function loadElement(line: LoadLine, to: Context, it: LoadForm): Element {
  const volts = line.ratings.find((r) => r.quantity.quantity === 'volts')
  if (line.clauses.at && volts) {
    to.tell('rating-twice', volts.at, quantityAsTyped(volts.quantity), 'volts')
  }
  const rated = ratedOf(line, to, it.usualVolts)
  const works = line.clauses.works ?? it.works
  const tags = onePair(line, to)
  const law = it.wound ? inductive : resistance
  return element(line, to, tags, {
    name: pairName(tags),
    role: 'load',
    laws: rated ? lawAlways(law(rated.ohms, rated.dc)) : [],
    figure: it.figure,
    note: rated?.note ?? '',
    load: {
      volts: rated?.volts ?? 0,
      works,
      weak: Math.max(works, it.weak),
      ...(it.holds !== undefined && { holds: Math.min(works, it.holds) }),
      ...(it.advances !== undefined && { advances: it.advances }),
    },
  })
}
