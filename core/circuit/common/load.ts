import type { Quantity, QuantityName } from '../../netlist/index.ts'
import { measureForm, nameForm, quantityAsTyped, worksFromForm } from '../forms.ts'
import type { Context, SaidLine } from '../kind.ts'
import { lawAlways, resistance } from '../laws.ts'
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
const wattText = (watts: number): string => `${Number(watts.toPrecision(4))} W`

interface Rated {
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
function ratedOf(line: LoadLine, to: Context): Rated | undefined {
  const volts = line.clauses.at?.si ?? ratingOf(line, 'volts')
  const [watts, amps, ohms] = [ratingOf(line, 'watts'), ratingOf(line, 'amps'), ratingOf(line, 'ohms')]
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
  return { volts, ohms: working, dc: ohms ?? working, note: watts === undefined ? ohmText(working) : wattText(watts) }
}

export interface LoadForm {
  readonly figure: Figure
  /** The share of its rated current from which it works, unless the line says. */
  readonly works: number
  /** Below this share it works but is weak. */
  readonly weak: number
}

/** A part that is one load between two tags. */
export function loadPart(line: LoadLine, to: Context, it: LoadForm): void {
  addPart(line, to, [loadElement(line, to, it)])
}

/** The load between the tags of its line, rated as the line says. */
export function loadElement(line: LoadLine, to: Context, it: LoadForm): Element {
  const volts = line.ratings.find((r) => r.quantity.quantity === 'volts')
  if (line.clauses.at && volts) {
    to.tell('rating-twice', volts.at, quantityAsTyped(volts.quantity), 'volts')
  }
  const rated = ratedOf(line, to)
  const works = line.clauses.works ?? it.works
  const tags = onePair(line, to)
  return element(line, to, tags, {
    name: pairName(tags),
    role: 'load',
    laws: rated ? lawAlways(resistance(rated.ohms, rated.dc)) : [],
    figure: it.figure,
    note: rated?.note ?? '',
    load: { volts: rated?.volts ?? 0, works, weak: Math.max(works, it.weak) },
  })
}
