import { loadClauses, loadPart, loadRatings } from '../common/load.ts'
import { timerMotorFigure } from '../figures.ts'
import { nameForm } from '../forms.ts'
import { kind } from '../kind.ts'

/** The small motor that turns a dial on: advances from seven tenths of its rated current. */
export const timerMotorKind = kind({
  word: 'timer-motor',
  title: 'Timer motor',
  example: 'timer-motor TM "Timer motor" 120 V 3 W advances dial area top',
  named: 'shared',
  round: 2,
  tags: true,
  ratings: loadRatings,
  clauses: { ...loadClauses, advances: nameForm('control') },
  children: {},
  read(line, to) {
    const control = line.clauses.advances && to.findControl(line.clauses.advances)
    loadPart(line, to, {
      figure: timerMotorFigure,
      works: 0.7,
      weak: 0.8,
      ...(control && { advances: control.name }),
    })
  },
})
