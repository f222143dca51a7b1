import { addPart, element, pairName } from '../common/part.ts'
import { contactFigure } from '../figures.ts'
import { conditionForm, nameForm, tagForm, tagOf } from '../forms.ts'
import { kind } from '../kind.ts'
import { CONTACT, lawWhen } from '../laws.ts'
import type { Element, Test } from '../model.ts'
import { NEVER, negate } from '../test.ts'

const clauses = { to: tagForm, when: conditionForm, else: tagForm, area: nameForm('area') }

/** One blade that closes to one of two sides: `C to NO when door=shut else NC`. */
export const changeoverKind = kind({
  word: 'changeover',
  title: 'Changeover',
  example: 'changeover DS "Door switch" C to NO when door=shut else NC area top',
  named: 'shared',
  round: 2,
  bare: true,
  clauses,
  children: {},
  read(line, to) {
    const [first, ...extra] = line.bare
    const common = first && tagOf(first)
    const { to: one, when, else: other } = line.clauses
    const takes = Object.keys(clauses)
    if (extra[0]) to.tell('unknown-word', extra[0], extra[0].text, false, takes)
    const lacks =
      common === undefined
        ? 'which tag its blade hangs on'
        : !one
          ? 'where its blade goes'
          : !when
            ? 'when its blade goes there'
            : !other
              ? 'where its blade goes otherwise'
              : undefined
    if (lacks !== undefined && !line.told) {
      to.tell('changeover-form', common === undefined && first ? first : line.head, line.name, lacks)
    }
    const test = when && to.test(when)
    const side = (tag: string, closed: Test, throwOf?: string): Element => {
      const tags = { pair: [common ?? '', tag] as const, at: first ?? line.head }
      return element(line, to, tags, {
        name: pairName(tags),
        role: 'contact',
        laws: lawWhen(closed, CONTACT),
        figure: contactFigure('door'),
        ...(throwOf !== undefined && { throwOf }),
      })
    }
    const sides: Element[] = []
    if (common !== undefined && one) sides.push(side(one.text, test ?? NEVER))
    if (common !== undefined && other) sides.push(side(other.text, test ? negate(test) : NEVER, sides[0]?.id))
    addPart(line, to, sides)
  },
})
