import { loadClauses, loadPart, loadRatings } from '../common/load.ts'
import { bodyFigure } from '../figures.ts'
import { kind } from '../kind.ts'
import { anyLoad } from '../needs.ts'

const WORKS = 0.7

const figure = bodyFigure(
  17,
  { d: 'M-17 0a17 17 0 1 0 34 0a17 17 0 1 0 -34 0z', style: 'paper' },
  { d: 'M-7 7V-7L0 3L7 -7V7', style: 'line' },
)

/** A drain or circulation pump: a small motor with one winding, which turns as soon as it is fed. */
export const pumpKind = kind({
  word: 'pump',
  title: 'Pump',
  example: 'pump DP "Drain pump" 120 V 1.1 A 14 ohm area rear',
  named: 'shared',
  round: 2,
  tags: true,
  ratings: loadRatings,
  clauses: loadClauses,
  children: {},
  read(line, to) {
    const works = line.clauses.works ?? WORKS
    const fed = anyLoad(
      loadPart(line, to, { figure, works, weak: 0.8, wound: true }).map((e) => e.id),
      works,
    )
    to.actor({
      name: line.name,
      part: line.name,
      states: ['at-rest', 'at-speed'],
      sense: { by: 'needs', to: fed, stay: fed, hums: true },
    })
  },
})
