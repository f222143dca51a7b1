import { contactFigure } from '../figures.ts'
import { conditionForm, nameForm, tagForm } from '../forms.ts'
import { kind } from '../kind.ts'
import { CONTACT } from '../ohms.ts'
import { negate } from '../test.ts'
import { addPart, element, lawWhen } from './contact.ts'

/** One blade that closes to one of two sides: `C to NO when door=shut else NC`. */
export const changeoverKind = kind({
  word: 'changeover',
  title: 'Changeover',
  example: 'changeover SW "Door switch" C to NO when door=shut else NC',
  named: 'part',
  round: 2,
  bare: true,
  clauses: { to: tagForm, when: conditionForm, else: tagForm, area: nameForm('area') },
  children: {},
  read(line, to) {
    const [common] = line.bare
    const { to: first, when, else: other } = line.clauses
    if (!common || !first || !when || !other) {
      to.tell(
        'changeover-form',
        line.head,
        `${line.name} does not say where its blade goes.`,
        'Write the common tag and both sides: `C to NO when door=shut else NC`.',
      )
      return addPart(line, 'changeover', to, [])
    }
    const test = to.test(when.value)
    const side = (tag: string, laws: ReturnType<typeof lawWhen>, rest: 'open' | 'closed', throwOf?: string) =>
      element(
        line,
        to,
        { pair: [common.text, tag], at: { from: common.from, to: common.to } },
        {
          name: `${common.text}-${tag}`,
          role: 'contact',
          laws,
          figure: contactFigure(rest, 'door'),
          ...(throwOf !== undefined && { throwOf }),
        },
      )
    const closed = to.holdsAtRest(test)
    const one = side(first.value.text, lawWhen(test, CONTACT), closed ? 'closed' : 'open')
    const two = side(other.value.text, lawWhen(negate(test), CONTACT), closed ? 'open' : 'closed', one.id)
    addPart(line, 'changeover', to, [one, two])
  },
})
