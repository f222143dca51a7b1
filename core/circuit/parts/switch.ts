import { conditionForm, nameForm } from '../forms.ts'
import { kind } from '../kind.ts'
import { contactPart } from './contact.ts'

/** A contact that something a person sets, or another part, opens and closes: door, belt, selector. */
export const switchKind = kind({
  word: 'switch',
  title: 'Switch',
  example: 'switch DS "Door switch" C-NO when door=shut area top',
  named: 'part',
  round: 2,
  clauses: { when: conditionForm, area: nameForm('area') },
  children: {},
  read: (line, to) => contactPart(line, to, 'door'),
})
