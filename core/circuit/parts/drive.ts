import { flagForm, phraseThenNameForm } from '../forms.ts'
import { kind } from '../kind.ts'
import { followSense } from '../needs.ts'

/** What a motor turns: drum, blower. */
export const driveKind = kind({
  word: 'drive',
  title: 'Drive',
  example: 'drive drum turned by M belt',
  named: 'shared',
  round: 3,
  clauses: { turned: phraseThenNameForm('by', 'motor'), belt: flagForm() },
  children: {},
  read(line, to) {
    const motor = line.clauses.turned && to.findMotor(line.clauses.turned)
    to.actor({
      name: line.name,
      part: '',
      states: ['still', 'turning'],
      sense: motor === undefined ? { by: 'nothing' } : followSense(motor),
    })
  },
})
