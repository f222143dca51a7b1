import type { Context, Word } from '../kind.ts'
import type { Sense, Temperature } from '../model.ts'
import type { AnyLine } from './contact.ts'

/** A temperature that the line must give; told when it is absent. */
export function needs<W extends string>(
  line: Pick<AnyLine, 'name' | 'head'> & { readonly clauses: { readonly [K in W]?: { readonly value: Temperature } } },
  to: Context,
  word: W,
  example: string,
): Temperature | undefined {
  const given = line.clauses[word]
  if (!given) {
    to.tell(
      'no-temperature',
      line.head,
      `${line.name} does not say at what temperature it ${word}.`,
      `Add \`${word} ${example}\` with the value from the sheet or the body of the part.`,
    )
  }
  return given?.value
}

/** Senses its zone; without a zone or a temperature nothing ever moves it. */
export function heatSense(to: Context, zone: Word | undefined, up: Temperature | undefined, down?: Temperature): Sense {
  const name = zone && to.findName('zone', zone)
  if (name === undefined || !up) return { by: 'nothing' }
  return { by: 'heat', zone: name, up, ...(down && { down }) }
}
