import { heatContact, heatSense, swingOf } from '../common/heat.ts'
import { addPart, onePair } from '../common/part.ts'
import { nameForm, temperatureForm } from '../forms.ts'
import { kind } from '../kind.ts'

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
    const swing = swingOf(line, to)
    addPart(line, to, [heatContact(line, to, onePair(line, to), swing)])
    to.actor({
      name: line.name,
      part: line.name,
      states: ['cold', 'hot'],
      sense: heatSense(to, line.clauses.zone, swing.up, swing.down),
    })
  },
})
