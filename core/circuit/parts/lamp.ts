import { loadClauses, loadPart, loadRatings } from '../common/load.ts'
import { lampFigure } from '../figures.ts'
import { kind } from '../kind.ts'

/** A lamp: seen from half of its rated current. */
export const lampKind = kind({
  word: 'lamp',
  title: 'Lamp',
  example: 'lamp LP "Drum lamp" 15 W at 120 V area rear',
  named: 'shared',
  round: 2,
  tags: true,
  ratings: loadRatings,
  clauses: loadClauses,
  children: {},
  read: (line, to) => loadPart(line, to, { figure: lampFigure, works: 0.5, weak: 0.8 }),
})
