import { timerMotorFigure } from '../figures.ts'
import { measureForm, nameForm, worksFromForm } from '../forms.ts'
import { kind } from '../kind.ts'
import { loadPart } from './load.ts'

/** The small motor that turns a dial on: advances from seven tenths of its rated current. */
export const timerMotorKind = kind({
  word: 'timer-motor',
  title: 'Timer motor',
  example: 'timer-motor TM "Timer motor" 120 V 3 W advances dial area console',
  named: 'part',
  round: 2,
  ratings: ['watts', 'ohms', 'volts', 'amps'],
  clauses: {
    at: measureForm('volts', '120 V'),
    advances: nameForm('control'),
    works: worksFromForm,
    area: nameForm('area'),
  },
  children: {},
  read(line, to) {
    if (line.clauses.advances) to.findControl(line.clauses.advances.value)
    loadPart(line, 'timer-motor', to, { figure: timerMotorFigure, works: 0.7, weak: 0.8 })
  },
})
