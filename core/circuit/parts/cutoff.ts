import { contactFigure } from '../figures.ts'
import { nameForm, temperatureForm } from '../forms.ts'
import { kind } from '../kind.ts'
import { LINK } from '../ohms.ts'
import { temperatureText } from '../temperature.ts'
import { is } from '../test.ts'
import { addPart, element, lawWhen, onePair } from './contact.ts'
import { heatSense, needs } from './heat.ts'

/** A link that heat opens once: thermal fuse, thermal cutoff. */
export const cutoffKind = kind({
  word: 'cutoff',
  title: 'Thermal cutoff',
  example: 'cutoff TF "Thermal fuse" opens 91 C zone exhaust area rear',
  named: 'part',
  round: 2,
  clauses: { opens: temperatureForm, zone: nameForm('zone'), area: nameForm('area') },
  children: {},
  read(line, to) {
    const opens = needs(line, to, 'opens', '178 C')
    const link = element(line, to, onePair(line, to), {
      name: 'link',
      role: 'link',
      laws: lawWhen(is(line.name, ['cold']), LINK),
      figure: contactFigure('closed', 'heat-once'),
      note: opens ? `opens ${temperatureText(opens)}` : '',
    })
    addPart(line, 'cutoff', to, [link])
    to.actor({
      name: line.name,
      part: line.name,
      states: ['cold', 'blown'],
      sense: heatSense(to, line.clauses.zone?.value, opens),
    })
  },
})
