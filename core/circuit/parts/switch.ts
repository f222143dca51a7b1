import { contactPart } from '../common/contact.ts'
import { conditionForm, nameForm } from '../forms.ts'
import { kind } from '../kind.ts'

/** A contact that something a person sets, or another part, opens and closes: door, belt, selector. */
export const switchKind = kind({
  word: 'switch',
  title: 'Switch',
  example: 'switch BS "Belt switch" C-NO when drum=turning area rear',
  named: 'shared',
  round: 2,
  tags: true,
  clauses: { when: conditionForm, area: nameForm('area') },
  children: {},
  read: (line, to) => contactPart(line, to, 'door'),
})
