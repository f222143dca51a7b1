import { phraseThenNameForm } from '../forms.ts'
import { kind } from '../kind.ts'
import { followSense } from '../needs.ts'

/** What a blower moves. */
export const airflowKind = kind({
  word: 'airflow',
  title: 'Airflow',
  example: 'airflow duct moved by M',
  named: 'shared',
  round: 3,
  clauses: { moved: phraseThenNameForm('by', 'motor') },
  children: {},
  read(line, to) {
    const motor = line.clauses.moved && to.findMotor(line.clauses.moved)
    to.actor({
      name: line.name,
      part: '',
      states: ['still', 'moving'],
      sense: motor === undefined ? { by: 'nothing' } : followSense(motor),
    })
  },
})
