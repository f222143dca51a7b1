import { ratingOf } from '../common/load.ts'
import { measureForm, nameForm, textForm } from '../forms.ts'
import { kind } from '../kind.ts'

/** A place in the unit that must be opened to reach parts. */
export const areaKind = kind({
  word: 'area',
  title: 'Area',
  example: 'area top "Top lid" 4 min\narea rear "Rear panel" 8 min after top refit 8 min tool "1/4 in nut driver"',
  named: 'own',
  round: 1,
  ratings: ['minutes'],
  clauses: { after: nameForm('area'), refit: measureForm('minutes', '8 min'), tool: textForm('"nut driver"') },
  children: {},
  read(line, to) {
    const { after, refit, tool } = line.clauses
    const outer = after && to.findName('area', after)
    to.area(
      {
        name: line.name,
        label: line.label,
        minutes: ratingOf(line, 'minutes') ?? 0,
        ...(outer !== undefined && { after: outer }),
        ...(refit && { refit: refit.si }),
        ...(tool !== undefined && { tool }),
      },
      after?.at,
    )
  },
})
