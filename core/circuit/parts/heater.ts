import { heaterFigure } from '../figures.ts'
import { measureForm, nameForm, worksFromForm } from '../forms.ts'
import { kind } from '../kind.ts'
import { loadPart } from './load.ts'

/** A heating element: works from a fifth of its rated current, weak under four fifths. */
export const heaterKind = kind({
  word: 'heater',
  title: 'Heating element',
  example: 'heater H1 "Heating element" 5400 W at 240 V area rear',
  named: 'part',
  round: 2,
  ratings: ['watts', 'ohms', 'volts', 'amps'],
  clauses: { at: measureForm('volts', '240 V'), works: worksFromForm, area: nameForm('area') },
  children: {},
  read: (line, to) => loadPart(line, 'heater', to, { figure: heaterFigure, works: 0.2, weak: 0.8 }),
})
