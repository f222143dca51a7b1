import { addPart, element, pairName } from '../common/part.ts'
import { bodyFigure } from '../figures.ts'
import { nameForm } from '../forms.ts'
import { kind } from '../kind.ts'
import { lawWhen, resistance } from '../laws.ts'
import { NEVER } from '../test.ts'

/** Common practice, no source: a flame carries a few microamps at 120 V. */
const FLAME_OHMS = 40e6

const figure = bodyFigure(
  16,
  { d: 'M-16 0H4', style: 'line' },
  { d: 'M16 0H14C14 -12 6 -10 8 -16C0 -10 -2 -6 4 0C0 6 6 12 14 6z', style: 'thin' },
)

/** A rod in a flame, by which a board knows that it burns: from the rod to the burner, unless tags say otherwise. */
export const flameRodKind = kind({
  word: 'flame-rod',
  title: 'Flame rod',
  example: 'flame-rod FR "Flame rod" senses B area rear',
  named: 'shared',
  round: 2,
  tags: true,
  clauses: { senses: nameForm('burner'), area: nameForm('area') },
  children: {},
  read(line, to) {
    const { senses } = line.clauses
    if (!senses && !line.told) to.tell('no-flame', line.head, line.name)
    const [tags = { pair: ['1', 'chassis'] as const, at: line.head }, second] = line.tags
    if (second) to.tell('one-pair-only', second.at, line.name)
    const lit = senses && to.test({ clauses: [{ of: senses, states: [{ text: 'lit', at: senses.at }] }] })
    addPart(line, to, [
      element(line, to, tags, {
        name: pairName(tags),
        role: 'passive',
        laws: lawWhen(lit ?? NEVER, resistance(FLAME_OHMS)),
        figure,
        note: '',
      }),
    ])
  },
})
