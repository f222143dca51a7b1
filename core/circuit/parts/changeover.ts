import { addPart } from '../common/part.ts'
import { bladeOf, throwsOf } from '../common/throws.ts'
import { conditionForm, nameForm, tagForm } from '../forms.ts'
import { kind } from '../kind.ts'

const clauses = { to: tagForm, when: conditionForm, else: tagForm, area: nameForm('area') }

/** One blade that closes to one of two sides: `C to NO when door=shut else NC`. */
export const changeoverKind = kind({
  word: 'changeover',
  title: 'Changeover',
  example: 'changeover DS "Door switch" C to NO when door=shut else NC area top',
  named: 'shared',
  round: 2,
  bare: true,
  clauses,
  children: {},
  read(line, to) {
    const { when } = line.clauses
    const blade = bladeOf(line, to, Object.keys(clauses), when !== undefined, 'C to NO when door=shut else NC')
    addPart(line, to, throwsOf(line, to, blade, when && to.test(when), 'door'))
  },
})
