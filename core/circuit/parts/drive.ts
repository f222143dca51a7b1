import { phraseThenNameForm } from '../forms.ts'
import { kind } from '../kind.ts'
import { followSense } from '../needs.ts'

/** What a motor turns: drum, blower. */
export const driveKind = kind({
  word: 'drive',
  title: 'Drive',
  example: 'drive drum turned by M belt',
  named: 'thing',
  round: 3,
  bare: true,
  clauses: { turned: phraseThenNameForm('by', 'motor') },
  children: {},
  read(line, to) {
    for (const extra of line.bare) {
      if (extra.text === 'belt') continue
      to.tell(
        'unknown-word',
        extra,
        `“${extra.text}” means nothing in a drive.`,
        'Write `belt` where a belt turns it, or take the word out.',
      )
    }
    const motor = line.clauses.turned && to.findActor(line.clauses.turned.value)
    to.actor({
      name: line.name,
      part: '',
      states: ['still', 'turning'],
      sense: motor ? followSense(motor) : { by: 'nothing' },
    })
  },
})
