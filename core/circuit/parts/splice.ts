import { partOf } from '../common/part.ts'
import { nameForm } from '../forms.ts'
import { kind } from '../kind.ts'

/** A joint of several wires: a terminal with a name of its own. */
export const spliceKind = kind({
  word: 'splice',
  title: 'Splice',
  example: 'splice S1 "White joint" area rear',
  named: 'shared',
  round: 2,
  clauses: { area: nameForm('area') },
  children: {},
  read: (line, to) => void to.part(partOf(line, to), [], [line.name]),
})
