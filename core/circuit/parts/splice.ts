import { nameForm } from '../forms.ts'
import { kind } from '../kind.ts'

/** A joint of several wires: a terminal with a name of its own. */
export const spliceKind = kind({
  word: 'splice',
  title: 'Splice',
  example: 'splice S1 "White joint" area rear',
  named: 'part',
  round: 2,
  clauses: { area: nameForm('area') },
  children: {},
  read(line, to) {
    const area = to.findArea(line.clauses.area?.value)
    const part = {
      name: line.name,
      kind: 'splice',
      label: line.label,
      at: line.at,
      ...(area !== undefined && { area }),
    }
    to.part(part, [], [line.name])
  },
})
