import { contactPart } from '../common/contact.ts'
import { conditionForm, nameForm } from '../forms.ts'
import { kind } from '../kind.ts'

/** A contact that a finger holds. */
export const buttonKind = kind({
  word: 'button',
  title: 'Push button',
  example: 'button PB "Start switch" 1-2 when start=held area top',
  named: 'shared',
  round: 2,
  tags: true,
  clauses: { when: conditionForm, area: nameForm('area') },
  children: {},
  read: (line, to) => contactPart(line, to, 'push'),
})
