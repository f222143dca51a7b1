import { resistorFigure } from '../figures.ts'
import { nameForm } from '../forms.ts'
import { kind } from '../kind.ts'
import { resistance } from '../ohms.ts'
import { addPart, element, lawAlways, onePair, pairName } from './contact.ts'
import { ohmText, ratingOf } from './load.ts'

/** A resistor in the way of a load: it is passed through, it does no work that anyone asks for. */
export const resistorKind = kind({
  word: 'resistor',
  title: 'Resistor',
  example: 'resistor R1 "Timer resistor" 4.7 kohm area console',
  named: 'part',
  round: 2,
  ratings: ['ohms', 'watts'],
  clauses: { area: nameForm('area') },
  children: {},
  read(line, to) {
    const ohms = ratingOf(line, 'ohms')
    if (ohms === undefined) {
      to.tell('no-ohms', line.head, `${line.name} has no resistance.`, 'Add it with its unit: `4.7 kohm`.')
    }
    const tags = onePair(line, to)
    const body = element(line, to, tags, {
      name: pairName(tags),
      role: 'passive',
      laws: ohms === undefined ? [] : lawAlways(resistance(ohms)),
      figure: resistorFigure,
      note: ohms === undefined ? '' : ohmText(ohms),
    })
    addPart(line, 'resistor', to, [body])
  },
})
