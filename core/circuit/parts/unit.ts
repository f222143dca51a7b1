import { textForm } from '../forms.ts'
import { kind } from '../kind.ts'

/** What the circuit is of. */
export const unitKind = kind({
  word: 'unit',
  title: 'Unit',
  example: 'unit "Bench dryer, electric" model "demo only" sheet "inside the rear panel"',
  named: 'no',
  once: true,
  round: 1,
  clauses: { model: textForm('"the model plate"'), sheet: textForm('"inside the rear panel"') },
  children: {},
  read: ({ label, clauses: { model, sheet } }, to) =>
    to.unit({ title: label, ...(model !== undefined && { model }), ...(sheet !== undefined && { sheet }) }),
})
