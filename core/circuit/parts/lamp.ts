import { lampFigure } from '../figures.ts'
import { measureForm, nameForm, worksFromForm } from '../forms.ts'
import { kind } from '../kind.ts'
import { loadPart } from './load.ts'

/** A lamp: seen from half of its rated current. */
export const lampKind = kind({
  word: 'lamp',
  title: 'Lamp',
  example: 'lamp LP "Drum lamp" 15 W at 120 V area drum',
  named: 'part',
  round: 2,
  ratings: ['watts', 'ohms', 'volts', 'amps'],
  clauses: { at: measureForm('volts', '120 V'), works: worksFromForm, area: nameForm('area') },
  children: {},
  read: (line, to) => loadPart(line, 'lamp', to, { figure: lampFigure, works: 0.5, weak: 0.8 }),
})
