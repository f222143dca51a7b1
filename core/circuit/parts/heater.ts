import { loadClauses, loadPart, loadRatings } from '../common/load.ts'
import { heaterFigure } from '../figures.ts'
import { kind } from '../kind.ts'

/** A heating element: works from a fifth of its rated current, weak under four fifths. */
export const heaterKind = kind({
  word: 'heater',
  title: 'Heating element',
  example: 'heater H1 "Heating element" 5400 W at 240 V area rear',
  named: 'shared',
  round: 2,
  tags: true,
  ratings: loadRatings,
  clauses: loadClauses,
  children: {},
  read: (line, to) => loadPart(line, to, { figure: heaterFigure, works: 0.2, weak: 0.8 }),
})
