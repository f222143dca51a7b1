import { ohmText, ratingOf } from '../common/load.ts'
import { addPart, element, onePair, pairName } from '../common/part.ts'
import { resistorFigure } from '../figures.ts'
import { nameForm } from '../forms.ts'
import { kind } from '../kind.ts'
import { lawAlways, resistance } from '../laws.ts'

/** A resistor in the way of a load: it is passed through, it does no work that anyone asks for. */
export const resistorKind = kind({
  word: 'resistor',
  title: 'Resistor',
  example: 'resistor R1 "Timer resistor" 4.7 kohm area top',
  named: 'shared',
  round: 2,
  tags: true,
  ratings: ['ohms', 'watts'],
  clauses: { area: nameForm('area') },
  children: {},
  read(line, to) {
    const ohms = ratingOf(line, 'ohms')
    if (ohms === undefined && !line.told) to.tell('no-ohms', line.head, line.name)
    const tags = onePair(line, to)
    const body = element(line, to, tags, {
      name: pairName(tags),
      role: 'passive',
      laws: ohms === undefined ? [] : lawAlways(resistance(ohms)),
      figure: resistorFigure,
      note: ohms === undefined ? '' : ohmText(ohms),
    })
    addPart(line, to, [body])
  },
})
