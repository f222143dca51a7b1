import { ohmText, ratingOf } from '../common/load.ts'
import { addPart, element, onePair, pairName } from '../common/part.ts'
import { bodyFigure } from '../figures.ts'
import { conditionForm, nameForm } from '../forms.ts'
import { kind } from '../kind.ts'
import { lawWhen, resistance } from '../laws.ts'
import { NEVER } from '../test.ts'

/** Common practice, no source: wet laundry between two bars reads from some ten kilohms up to a megohm. */
const USUAL_OHMS = 100_000

const figure = bodyFigure(12, { d: 'M-12 -14V14M12 -14V14', style: 'blade' }, { d: 'M-4 -5V5M4 -5V5', style: 'thin' })

/** Two bars in the drum that wet laundry bridges: open, or a resistance while the control says that it is wet. */
export const moistureBarsKind = kind({
  word: 'moisture-bars',
  title: 'Moisture bars',
  example: 'moisture-bars MB "Moisture bars" 1-2 100 kohm when laundry=wet area rear',
  named: 'shared',
  round: 2,
  tags: true,
  ratings: ['ohms'],
  clauses: { when: conditionForm, area: nameForm('area') },
  children: {},
  read(line, to) {
    const { when } = line.clauses
    if (!when && !line.told) to.tell('no-condition', line.head, line.name, 'when laundry=wet')
    const ohms = ratingOf(line, 'ohms') ?? USUAL_OHMS
    const tags = onePair(line, to)
    addPart(line, to, [
      element(line, to, tags, {
        name: pairName(tags),
        role: 'passive',
        laws: lawWhen(when ? to.test(when) : NEVER, resistance(ohms)),
        figure,
        note: `${ohmText(ohms)} wet`,
      }),
    ])
  },
})
