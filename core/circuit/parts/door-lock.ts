import { actedContact, actedContactForm } from '../common/acted.ts'
import { loadClauses, loadElement, loadRatings } from '../common/load.ts'
import { addPart } from '../common/part.ts'
import { heaterFigure } from '../figures.ts'
import { phraseThenMeasureForm } from '../forms.ts'
import { type Children, kind } from '../kind.ts'
import { anyLoad } from '../needs.ts'

/** Common practice, no source: wax and bimetal locks lock after a few seconds and free a minute or two after power. */
const LOCKS_AFTER = 3
const FREES_AFTER = 60
const WORKS = 0.5

const children = { contact: actedContactForm('locked', 'free') } as const satisfies Children

/** A lock worked by a small heater, wax or PTC: it locks some seconds after it is fed, and frees some seconds after. */
export const doorLockKind = kind({
  word: 'door-lock',
  title: 'Door lock',
  example: 'door-lock DL "Door lock" L-N 120 V 1.2 kohm locks after 3 s frees after 60 s area rear',
  named: 'shared',
  round: 2,
  tags: true,
  ratings: loadRatings,
  clauses: {
    ...loadClauses,
    locks: phraseThenMeasureForm('after', 'minutes', '3 s'),
    frees: phraseThenMeasureForm('after', 'minutes', '60 s'),
  },
  children,
  read(line, to) {
    const { locks, frees, works = WORKS } = line.clauses
    const heater = loadElement(line, to, { figure: heaterFigure, works: WORKS, weak: 0.8 })
    const contacts = line.children.flatMap((c) => actedContact(line, c, to, ['free', 'locked'], 'door'))
    const fed = anyLoad(
      addPart(line, to, [heater, ...contacts]).flatMap((e) => (e.role === 'load' ? [e.id] : [])),
      works,
    )
    to.actor({
      name: line.name,
      part: line.name,
      states: ['free', 'locked'],
      sense: {
        by: 'needs',
        to: fed,
        stay: fed,
        toSeconds: locks ? locks.si * 60 : LOCKS_AFTER,
        backSeconds: frees ? frees.si * 60 : FREES_AFTER,
      },
    })
  },
})
