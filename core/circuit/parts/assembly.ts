import { partOf } from '../common/part.ts'
import { nameForm } from '../forms.ts'
import { kind } from '../kind.ts'

/**
 * Several parts in one that is replaced as a whole, each on an indented line of its own kind. Their elements and tags are
 * those of the assembly: `FIL:CX` between `FIL.L` and `FIL.N`.
 */
export const assemblyKind = kind({
  word: 'assembly',
  title: 'Assembly',
  example: 'assembly FIL "Line filter" area rear',
  named: 'shared',
  round: 2,
  holds: true,
  clauses: { area: nameForm('area') },
  children: {},
  read: (line, to) => void to.part(partOf(line, to), []),
})
