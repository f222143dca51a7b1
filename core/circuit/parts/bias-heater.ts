import { loadClauses, loadPart, loadRatings } from '../common/load.ts'
import { heaterFigure } from '../figures.ts'
import { nameForm, temperatureForm } from '../forms.ts'
import { kind } from '../kind.ts'
import type { HeatPoint, Temperature } from '../model.ts'
import { anyLoad, bothNeeds } from '../needs.ts'
import { celsius } from '../temperature.ts'

/** Common practice, no source: a bias heater stands across a leg and neutral. */
const USUAL_VOLTS = 120
/** The share of its rated current from which it moves the point of its thermostat. */
const WORKS = 0.5

/** A small heater on the body of a thermostat: while it works, the thermostat moves at a lower temperature. */
export const biasHeaterKind = kind({
  word: 'bias-heater',
  title: 'Bias heater',
  example: 'bias-heater BH "Bias heater" 7 kohm at 120 V lowers OT to 52 C area rear',
  named: 'shared',
  round: 2,
  tags: true,
  ratings: loadRatings,
  clauses: { ...loadClauses, lowers: nameForm('thermostat'), to: temperatureForm },
  children: {},
  read(line, to) {
    const works = line.clauses.works ?? WORKS
    const kept = loadPart(line, to, { figure: heaterFigure, works, weak: 0.8, usualVolts: USUAL_VOLTS })
    const { lowers, to: low } = line.clauses
    if (!line.told && (!lowers || !low)) to.tell('bias-form', line.head, line.name)
    if (!lowers || !low) return
    const working = anyLoad(
      kept.map((e) => e.id),
      works,
    )
    to.changeHeat(lowers, (points) => {
      const [first] = points
      if (!first) return points
      const by = celsius(first.up) - celsius(low)
      const lowered = points.map(
        (p): HeatPoint => ({
          when: bothNeeds(p.when, working),
          up: p === first ? low : lowerBy(p.up, by),
          ...(p.down && { down: lowerBy(p.down, by) }),
        }),
      )
      return [...lowered, ...points]
    })
  },
})

/** A temperature so many °C lower, in the unit it was typed in. */
const lowerBy = ({ value, unit }: Temperature, celsiusLess: number): Temperature => ({
  value: Number((value - (unit === 'F' ? celsiusLess * 1.8 : celsiusLess)).toFixed(1)),
  unit,
})
