import { contactFigure } from '../figures.ts'
import { nameForm, temperatureForm } from '../forms.ts'
import { kind } from '../kind.ts'
import { CONTACT } from '../ohms.ts'
import { celsius, temperatureText } from '../temperature.ts'
import { is } from '../test.ts'
import { addPart, element, lawWhen, onePair, pairName } from './contact.ts'
import { heatSense, needs } from './heat.ts'

/** A contact that heat opens, or closes, and cold puts back. Closes on rise when it opens below where it closes. */
export const thermostatKind = kind({
  word: 'thermostat',
  title: 'Thermostat',
  example: 'thermostat OT "Operating thermostat" opens 68 C closes 57 C zone exhaust area rear',
  named: 'part',
  round: 2,
  clauses: { opens: temperatureForm, closes: temperatureForm, zone: nameForm('zone'), area: nameForm('area') },
  children: {},
  read(line, to) {
    const opens = needs(line, to, 'opens', '68 C')
    const closes = needs(line, to, 'closes', '57 C')
    const onRise = opens !== undefined && closes !== undefined && celsius(closes) > celsius(opens)
    const tags = onePair(line, to)
    const contact = element(line, to, tags, {
      name: pairName(tags),
      role: 'contact',
      laws: lawWhen(is(line.name, [onRise ? 'hot' : 'cold']), CONTACT),
      figure: contactFigure(onRise ? 'open' : 'closed', 'heat'),
      note: opens && closes ? (onRise ? `closes ${temperatureText(closes)}` : `opens ${temperatureText(opens)}`) : '',
    })
    addPart(line, 'thermostat', to, [contact])
    to.actor({
      name: line.name,
      part: line.name,
      states: ['cold', 'hot'],
      sense: onRise
        ? heatSense(to, line.clauses.zone?.value, closes, opens)
        : heatSense(to, line.clauses.zone?.value, opens, closes),
    })
  },
})
