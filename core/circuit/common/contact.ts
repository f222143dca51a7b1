import { contactFigure } from '../figures.ts'
import type { Condition, Context } from '../kind.ts'
import { CONTACT, lawWhen } from '../laws.ts'
import type { Driver } from '../model.ts'
import { NEVER } from '../test.ts'
import { addPart, element, onePair, type PartLine, pairName } from './part.ts'

/** A part with one contact under a `when`. Without one it is told and never closes. */
export function contactPart(
  line: PartLine & { readonly clauses: { readonly when?: Condition } },
  to: Context,
  by: Driver,
): void {
  const tags = onePair(line, to)
  const { when } = line.clauses
  if (!when && !line.told) to.tell('no-condition', line.head, line.name, 'when door=shut')
  const contact = element(line, to, tags, {
    name: pairName(tags),
    role: 'contact',
    laws: lawWhen(when ? to.test(when) : NEVER, CONTACT),
    figure: contactFigure(by),
  })
  addPart(line, to, [contact])
}
