import { heatSense, swingOf } from '../common/heat.ts'
import { addPart } from '../common/part.ts'
import { bladeOf, throwsOf } from '../common/throws.ts'
import { nameForm, tagForm, temperatureForm } from '../forms.ts'
import { kind } from '../kind.ts'
import { temperatureText } from '../temperature.ts'
import { is } from '../test.ts'

const clauses = {
  to: tagForm,
  opens: temperatureForm,
  closes: temperatureForm,
  else: tagForm,
  zone: nameForm('zone'),
  area: nameForm('area'),
}

/** One blade that heat moves: opens to the side after `to` and closes to the one after `else`, and comes back. */
export const changeoverThermostatKind = kind({
  word: 'changeover-thermostat',
  title: 'Changeover thermostat',
  example: 'changeover-thermostat UT "Upper thermostat" C to U opens 60 C closes 54 C else L zone box area top',
  named: 'shared',
  round: 2,
  bare: true,
  clauses,
  children: {},
  read(line, to) {
    const { opens, closes, zone } = line.clauses
    const says = opens !== undefined || closes !== undefined
    const blade = bladeOf(line, to, Object.keys(clauses), says, 'C to U opens 60 C closes 54 C else L')
    const { up, down, onRise } = says ? swingOf(line, to) : { onRise: false }
    const note = up ? `${onRise ? 'closes' : 'opens'} ${temperatureText(up)}` : ''
    addPart(line, to, throwsOf(line, to, blade, is(line.name, [onRise ? 'hot' : 'cold']), 'heat', note))
    to.actor({ name: line.name, part: line.name, states: ['cold', 'hot'], sense: heatSense(to, zone, up, down) })
  },
})
