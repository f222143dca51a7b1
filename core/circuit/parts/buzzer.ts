import { loadClauses, loadPart, loadRatings } from '../common/load.ts'
import { bodyFigure } from '../figures.ts'
import { kind } from '../kind.ts'

const figure = bodyFigure(14, { d: 'M-14 6V0a14 16 0 0 1 28 0V6z', style: 'paper' })

/** A buzzer: heard from half of its rated current. */
export const buzzerKind = kind({
  word: 'buzzer',
  title: 'Buzzer',
  example: 'buzzer BZ "End buzzer" 120 V 3 W area top',
  named: 'shared',
  round: 2,
  tags: true,
  ratings: loadRatings,
  clauses: loadClauses,
  children: {},
  read: (line, to) => void loadPart(line, to, { figure, works: 0.5, weak: 0.8 }),
})
