import { flagForm, phraseThenNameForm } from '../forms.ts'
import { kind } from '../kind.ts'
import { bothNeeds, standsIn } from '../needs.ts'

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
    const belt = line.clauses.belt && beltOf(line.name)
    if (belt !== undefined) to.actor({ name: belt, part: '', states: ['whole', 'broken'], sense: { by: 'nothing' } })
    const turns = motor === undefined ? [] : standsIn(motor, ['at-rest'], true)
    const needs = belt === undefined ? turns : bothNeeds(turns, standsIn(belt, ['whole']))
    to.actor({
      name: line.name,
      part: '',
      states: ['still', 'turning'],
      sense: motor === undefined ? { by: 'nothing' } : { by: 'needs', to: needs, stay: needs },
    })
  },
})

/** The actor that the belt of a drive is: no line can give its name. */
export const beltOf = (drive: string): string => `${drive}-belt`
