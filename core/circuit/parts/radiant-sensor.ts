import { heatContact, heatSense, lower, swingOf } from '../common/heat.ts'
import { addPart, onePair } from '../common/part.ts'
import { nameForm, temperatureForm } from '../forms.ts'
import { kind } from '../kind.ts'

/**
 * Where the text is silent. Common practice, no source: no sheet says at what temperature a radiant sensor moves, and
 * nothing depends on it but that a glow or a flame opens it and that it closes soon after both are gone.
 */
const OPENS = { value: 200, unit: 'C' } as const
const DIFFERENCE = { C: 50, F: 90 } as const

/** A contact that looks at a glow or a flame: opens while its zone is hot. */
export const radiantSensorKind = kind({
  word: 'radiant-sensor',
  title: 'Radiant sensor',
  example: 'radiant-sensor RS "Radiant sensor" zone box area rear',
  named: 'shared',
  round: 2,
  tags: true,
  clauses: { opens: temperatureForm, closes: temperatureForm, zone: nameForm('zone'), area: nameForm('area') },
  children: {},
  read(line, to) {
    const { opens = OPENS, closes, zone } = line.clauses
    const swing = closes ? swingOf(line, to) : { up: opens, down: lower(opens, DIFFERENCE), onRise: false }
    const contact = heatContact(line, to, onePair(line, to), swing)
    addPart(line, to, [line.clauses.opens || closes ? contact : { ...contact, note: '' }])
    to.actor({
      name: line.name,
      part: line.name,
      states: ['cold', 'hot'],
      sense: heatSense(to, zone, swing.up, swing.down),
    })
  },
})
