import { heatSense, needs } from '../common/heat.ts'
import { addPart, element, onePair, pairName } from '../common/part.ts'
import { contactFigure } from '../figures.ts'
import { nameForm, temperatureForm } from '../forms.ts'
import { kind } from '../kind.ts'
import { CONTACT, lawWhen } from '../laws.ts'
import { celsius, temperatureText } from '../temperature.ts'
import { is } from '../test.ts'

/** A contact that heat opens, or closes, and cold puts back. Closes on rise when it opens below where it closes. */
export const thermostatKind = kind({
  word: 'thermostat',
  title: 'Thermostat',
  example: 'thermostat OT "Operating thermostat" opens 68 C closes 57 C zone box area rear',
  named: 'shared',
  round: 2,
  tags: true,
  clauses: { opens: temperatureForm, closes: temperatureForm, zone: nameForm('zone'), area: nameForm('area') },
  children: {},
  read(line, to) {
    const opens = needs(line, to, 'opens', '68 C')
    const closes = needs(line, to, 'closes', '57 C')
    const difference = opens && closes ? celsius(closes) - celsius(opens) : undefined
    if (difference === 0) to.tell('same-temperature', line.head, line.name)
    const onRise = difference !== undefined && difference > 0
    const [up, down] = onRise ? [closes, opens] : [opens, closes]
    const tags = onePair(line, to)
    const contact = element(line, to, tags, {
      name: pairName(tags),
      role: 'contact',
      laws: lawWhen(is(line.name, [onRise ? 'hot' : 'cold']), CONTACT),
      figure: contactFigure('heat'),
      note: up ? `${onRise ? 'closes' : 'opens'} ${temperatureText(up)}` : '',
    })
    addPart(line, to, [contact])
    to.actor({
      name: line.name,
      part: line.name,
      states: ['cold', 'hot'],
      sense: heatSense(to, line.clauses.zone, up, down),
    })
  },
})
