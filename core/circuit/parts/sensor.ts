import { ohmText } from '../common/load.ts'
import { addPart, element, onePair, pairName } from '../common/part.ts'
import { sensorFigure } from '../figures.ts'
import { measureForm, nameForm, numberForm } from '../forms.ts'
import { kind } from '../kind.ts'
import { lawAlways, resistance } from '../laws.ts'

/**
 * A resistance that follows temperature, read by a board: an NTC, whose resistance falls, or an RTD, whose rises. Its
 * ohms are those at 25 °C, and so they are in the circuit.
 */
export const sensorKind = kind({
  word: 'sensor',
  title: 'Temperature sensor',
  example: 'sensor NT "Exhaust sensor" ntc 10 kohm B 3950 zone box area rear',
  named: 'shared',
  round: 2,
  tags: true,
  clauses: {
    ntc: measureForm('ohms', '10 kohm'),
    rtd: measureForm('ohms', '1080 ohm'),
    B: numberForm('3950'),
    zone: nameForm('zone'),
    area: nameForm('area'),
  },
  children: {},
  read(line, to) {
    const { ntc, rtd, B, zone } = line.clauses
    if (zone) to.findName('zone', zone)
    if (ntc && rtd) to.tell('sensor-form', line.head, line.name)
    else if (!ntc && !rtd && !line.told) to.tell('sensor-form', line.head, line.name)
    const ohms = (ntc ?? rtd)?.si
    const tags = onePair(line, to)
    const body = element(line, to, tags, {
      name: pairName(tags),
      role: 'passive',
      laws: ohms === undefined ? [] : lawAlways(resistance(ohms)),
      figure: sensorFigure,
      note: ohms === undefined ? '' : `${ntc ? 'NTC' : 'RTD'} ${ohmText(ohms)}${B === undefined ? '' : `, B ${B}`}`,
    })
    addPart(line, to, [body])
  },
})
