import type { QuantityName } from '../../netlist/index.ts'
import type { Context, Rating } from '../kind.ts'
import type { Figure } from '../model.ts'
import { resistance } from '../ohms.ts'
import { type AnyLine, addPart, element, lawAlways, onePair, pairName } from './contact.ts'

/** What loads have in common: ratings, and the resistance and working share that follow from them. */

export interface RatedLine extends AnyLine {
  readonly ratings: readonly Rating[]
}

/** The rating of that quantity in its SI unit, if the line gives one. */
export const ratingOf = (line: { readonly ratings: readonly Rating[] }, quantity: QuantityName): number | undefined =>
  line.ratings.find((r) => r.quantity.quantity === quantity)?.quantity.si

/** `10.7 Ω`, `4.7 kΩ`: three figures, as a person would read it aloud. */
export function ohmText(ohms: number): string {
  const [n, unit] = ohms >= 1e6 ? [ohms / 1e6, 'MΩ'] : ohms >= 1e3 ? [ohms / 1e3, 'kΩ'] : [ohms, 'Ω']
  return `${Number(n.toPrecision(3))} ${unit}`
}
export const wattText = (watts: number): string => `${Number(watts.toPrecision(4))} W`

export interface Rated {
  readonly volts: number
  readonly ohms: number
  readonly note: string
}

/**
 * Volts and working ohms from whichever ratings are given: W and V, A and V, or ohms (then V only says when it works).
 * Tells and gives `undefined` when they do not determine it.
 */
export function ratedOf(line: RatedLine, to: Context, at: number | undefined): Rated | undefined {
  const volts = at ?? ratingOf(line, 'volts')
  const watts = ratingOf(line, 'watts')
  const amps = ratingOf(line, 'amps')
  const ohms = ratingOf(line, 'ohms')
  if (volts === undefined || volts === 0) {
    to.tell(
      'no-volts',
      line.head,
      `${line.name} does not say for how many volts it is.`,
      'Add the volts from its label: `5400 W at 240 V`.',
    )
    return undefined
  }
  const working = watts ? volts ** 2 / watts : amps ? volts / amps : ohms
  if (!working) {
    to.tell(
      'no-rating',
      line.head,
      `${line.name} has no watts, amps or ohms, so nothing can be computed for it.`,
      'Add one of them from its label or the sheet: `5400 W at 240 V`.',
    )
    return undefined
  }
  return { volts, ohms: working, note: watts ? wattText(watts) : ohmText(working) }
}

/** A part that is one load between two tags. */
export function loadPart(
  line: RatedLine & {
    readonly clauses: {
      readonly at?: { readonly value: { readonly si: number } }
      readonly works?: { readonly value: number }
    }
  },
  kindWord: string,
  to: Context,
  it: { readonly figure: Figure; readonly works: number; readonly weak: number },
): void {
  const rated = ratedOf(line, to, line.clauses.at?.value.si)
  const works = line.clauses.works?.value ?? it.works
  const tags = onePair(line, to)
  const body = element(line, to, tags, {
    name: pairName(tags),
    role: 'load',
    laws: rated ? lawAlways(resistance(rated.ohms)) : [],
    figure: it.figure,
    note: rated?.note ?? '',
    load: { volts: rated?.volts ?? 0, works, weak: Math.max(works, it.weak) },
  })
  addPart(line, kindWord, to, [body])
}
