import type { Context, SaidLine, Word } from '../kind.ts'
import type { Sense, Temperature } from '../model.ts'
import { ANYWAY } from '../needs.ts'

/** A temperature that the line must give; told when it is absent. */
export function needs<W extends string>(
  line: Pick<SaidLine, 'name' | 'head' | 'told'> & { readonly clauses: { readonly [K in W]?: Temperature } },
  to: Context,
  word: W,
  example: string,
): Temperature | undefined {
  const given = line.clauses[word]
  if (!given && !line.told) to.tell('no-temperature', line.head, line.name, word, example)
  return given
}

/** Senses its zone; without a zone or a temperature nothing ever moves it. */
export function heatSense(to: Context, zone: Word | undefined, up: Temperature | undefined, down?: Temperature): Sense {
  const name = zone && to.findName('zone', zone)
  if (name === undefined || !up) return { by: 'nothing' }
  return { by: 'heat', zone: name, points: [{ when: ANYWAY, up, ...(down && { down }) }] }
}
