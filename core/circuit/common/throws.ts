import { contactFigure } from '../figures.ts'
import { tagOf } from '../forms.ts'
import type { Context, SaidLine, Tags, Word } from '../kind.ts'
import { CONTACT, lawWhen } from '../laws.ts'
import type { Driver, Element, Test } from '../model.ts'
import { NEVER, negate } from '../test.ts'
import { element, pairName } from './part.ts'

/** A line with the form `C to NO … else NC`. */
export type ThrowsLine = Pick<SaidLine, 'name' | 'head' | 'bare' | 'told'> & {
  readonly clauses: { readonly to?: Word; readonly else?: Word }
}

/** What of a changeover's blade a line says. */
export interface Blade {
  /** The tag it hangs on, and where it is typed. */
  readonly hinge?: string
  readonly at: Tags['at']
}

/**
 * The hinge of a line, told where it is none. `takes` are the words of the line; `says` whether it says when the blade
 * goes to its first side, and `form` how the whole is written.
 */
export function bladeOf(line: ThrowsLine, to: Context, takes: readonly string[], says: boolean, form: string): Blade {
  const [first, ...extra] = line.bare
  const hinge = first && tagOf(first)
  if (extra[0]) to.tell('unknown-word', extra[0], extra[0].text, false, takes)
  const { to: one, else: other } = line.clauses
  const lacks =
    hinge === undefined
      ? 'which tag its blade hangs on'
      : !one
        ? 'where its blade goes'
        : !says
          ? 'when its blade goes there'
          : !other
            ? 'where its blade goes otherwise'
            : undefined
  if (lacks !== undefined && !line.told) {
    to.tell('changeover-form', hinge === undefined && first ? first : line.head, line.name, lacks, form)
  }
  return { at: first ?? line.head, ...(hinge !== undefined && { hinge }) }
}

/** Both sides of one blade; `first` is when it stands at the side after `to`. Without it neither ever closes. */
export function throwsOf(
  line: ThrowsLine,
  to: Context,
  { hinge, at }: Blade,
  first: Test | undefined,
  by: Driver,
  note = '',
): readonly Element[] {
  if (hinge === undefined) return []
  const side = (tag: string, closed: Test, throwOf?: string): Element => {
    const tags = { pair: [hinge, tag] as const, at }
    return element(line, to, tags, {
      name: pairName(tags),
      role: 'contact',
      laws: lawWhen(closed, CONTACT),
      figure: contactFigure(by),
      note,
      ...(throwOf !== undefined && { throwOf }),
    })
  }
  const { to: one, else: other } = line.clauses
  const sides: Element[] = []
  if (one) sides.push(side(one.text, first ?? NEVER))
  if (other) sides.push(side(other.text, first ? negate(first) : NEVER, sides[0]?.id))
  return sides
}
