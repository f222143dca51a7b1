import { addPart, element, onePair, pairName } from '../common/part.ts'
import { contactFigure } from '../figures.ts'
import { nameForm, phraseThenNameForm } from '../forms.ts'
import { kind } from '../kind.ts'
import { CONTACT, lawWhen } from '../laws.ts'
import { is, NEVER } from '../test.ts'
import { beltOf } from './drive.ts'

/** A contact that the belt of a drive keeps closed by its pull, turning or not, until it breaks. */
export const beltSwitchKind = kind({
  word: 'belt-switch',
  title: 'Belt switch',
  example: 'belt-switch BW "Belt switch" closed by drum area rear',
  named: 'shared',
  round: 2,
  tags: true,
  clauses: { closed: phraseThenNameForm('by', 'drive'), area: nameForm('area') },
  children: {},
  read(line, to) {
    const { closed } = line.clauses
    if (!closed && !line.told) to.tell('no-condition', line.head, line.name, 'closed by drum')
    const belt = closed && beltOf(closed.text)
    if (closed && belt !== undefined) {
      to.later(() => {
        if (to.findMover(closed) && !to.isMover(belt)) to.tell('no-belt', closed.at, closed.text)
      })
    }
    const tags = onePair(line, to)
    addPart(line, to, [
      element(line, to, tags, {
        name: pairName(tags),
        role: 'contact',
        laws: lawWhen(belt === undefined ? NEVER : is(belt, ['whole']), CONTACT),
        figure: contactFigure('door'),
      }),
    ])
  },
})
