import { lower } from '../common/heat.ts'
import { ratingOf } from '../common/load.ts'
import { addPart, element, onePair, pairName } from '../common/part.ts'
import { contactFigure } from '../figures.ts'
import { differenceForm, nameForm, phraseThenNameForm } from '../forms.ts'
import { type Context, kind, type SaidChild } from '../kind.ts'
import { CONTACT, lawWhen } from '../laws.ts'
import type { HeatPoint, Temperature } from '../model.ts'
import { standsIn } from '../needs.ts'
import { temperatureText, temperatureWord } from '../temperature.ts'
import { both, is, NEVER } from '../test.ts'

/** Common practice, no source: the bulb of an oven closes again 10 to 15 °C below where it opened. */
const DIFFERENCE = { C: 12, F: 20 } as const

const children = {
  at: { named: false, bare: true, ratings: ['celsius'], clauses: {} },
} as const

/**
 * A contact that opens at the temperature its control is set to. Positions that are temperatures (`180C`, `350F`) say so
 * themselves, an indented `at broil 290 C` says it of others, and at a position without one the contact is open.
 */
export const ovenThermostatKind = kind({
  word: 'oven-thermostat',
  title: 'Oven thermostat',
  example: 'oven-thermostat BT "Oven thermostat" set by temp differential 12 C zone box area top',
  named: 'shared',
  round: 2,
  tags: true,
  clauses: {
    set: phraseThenNameForm('by', 'control'),
    differential: differenceForm('12 C'),
    zone: nameForm('zone'),
    area: nameForm('area'),
  },
  children,
  read(line, to) {
    const { set, differential, zone } = line.clauses
    if (!set && !line.told) to.tell('no-control', line.head, line.name)
    const control = set && to.findControl(set)
    const opensAt = new Map<string, Temperature>()
    for (const position of control?.positions ?? []) {
      const itself = temperatureWord(position)
      if (itself) opensAt.set(position, itself)
    }
    for (const child of line.children) {
      for (const [position, opens] of positionsAt(line.name, child, to)) {
        if (!control || control.positions.includes(position.text)) opensAt.set(position.text, opens)
        else to.tell('unknown-position', position, control.name, position.text, control.positions)
      }
    }
    if (control && opensAt.size === 0 && !line.told) to.tell('no-set-points', line.head, line.name, control.name)
    const difference = differential ? { C: differential, F: differential * 1.8 } : DIFFERENCE
    const heated = zone && to.findName('zone', zone)
    const points = [...opensAt].map(
      ([position, up]): HeatPoint => ({ when: standsIn(set?.text ?? '', [position]), up, down: lower(up, difference) }),
    )
    const tags = onePair(line, to)
    const contact = element(line, to, tags, {
      name: pairName(tags),
      role: 'contact',
      laws: lawWhen(set ? both(is(set.text, [...opensAt.keys()]), is(line.name, ['cold'])) : NEVER, CONTACT),
      figure: contactFigure('heat'),
      note: rangeText([...opensAt.values()]),
    })
    addPart(line, to, [contact])
    to.actor({
      name: line.name,
      part: line.name,
      states: ['cold', 'hot'],
      sense: heated === undefined || points.length === 0 ? { by: 'nothing' } : { by: 'heat', zone: heated, points },
    })
  },
})

type AtLine = SaidChild<typeof children>

/** The positions of a line `at warm, keep 80 C`, each with its temperature. */
function positionsAt(part: string, child: AtLine, to: Context) {
  const opens = child.ratings.find((r) => r.quantity.quantity === 'celsius')?.quantity
  const positions = child.bare.filter((token) => token.kind !== ',')
  if (!child.told && (!opens || positions.length === 0 || ratingOf(child, 'celsius') === undefined)) {
    to.tell('set-point-form', child.head, part)
  }
  if (!opens) return []
  const up: Temperature = { value: opens.value, unit: opens.unit === 'F' ? 'F' : 'C' }
  return positions.map((position) => [position, up] as const)
}

/** `opens 150 °C to 250 °C`. */
function rangeText(opens: readonly Temperature[]): string {
  const [first] = opens
  const last = opens.at(-1)
  if (!first || !last) return ''
  return first === last
    ? `opens ${temperatureText(first)}`
    : `opens ${temperatureText(first)} to ${temperatureText(last)}`
}
