import { addPart, element, onePair, pairName } from '../common/part.ts'
import { bladeOf, throwsOf } from '../common/throws.ts'
import { contactFigure } from '../figures.ts'
import { conditionForm, nameForm, phraseThenNameForm, tagForm } from '../forms.ts'
import { kind } from '../kind.ts'
import { CONTACT, lawWhen } from '../laws.ts'
import type { Driver } from '../model.ts'
import { NEVER } from '../test.ts'

/**
 * Switches that water or air works: two tags, or one blade between two sides. They close `when water=full`, by
 * what a control says, or `closed by duct`, as soon as what moves them is away from rest.
 */

const clauses = {
  to: tagForm,
  when: conditionForm,
  closed: phraseThenNameForm('by', 'drive or airflow'),
  else: tagForm,
  area: nameForm('area'),
}

const sensedSwitch = (word: string, title: string, example: string, by: Driver) =>
  kind({
    word,
    title,
    example,
    named: 'shared',
    round: 2,
    tags: true,
    bare: true,
    clauses,
    children: {},
    read(line, to) {
      const { when, closed, to: one, else: other } = line.clauses
      const test = when ? to.test(when) : closed && to.away(closed)
      if (when && closed) to.tell('two-conditions', line.head, line.name)
      if (one || other || line.bare.length > 0) {
        const blade = bladeOf(line, to, Object.keys(clauses), test !== undefined, 'C to NO when water=full else NC')
        addPart({ ...line, tags: [] }, to, throwsOf(line, to, blade, test, by))
        return
      }
      if (!test && !line.told) to.tell('no-condition', line.head, line.name, 'when water=full')
      const tags = onePair(line, to)
      addPart(line, to, [
        element(line, to, tags, {
          name: pairName(tags),
          role: 'contact',
          laws: lawWhen(test ?? NEVER, CONTACT),
          figure: contactFigure(by),
        }),
      ])
    },
  })

export const levelSwitchKind = sensedSwitch(
  'level-switch',
  'Level switch',
  'level-switch LV "Water level switch" C to F when tub=full else E area top',
  'float',
)
export const pressureSwitchKind = sensedSwitch(
  'pressure-switch',
  'Pressure switch',
  'pressure-switch PS "Air pressure switch" closed by duct area rear',
  'pressure',
)
export const sailSwitchKind = sensedSwitch(
  'sail-switch',
  'Sail switch',
  'sail-switch SS "Sail switch" closed by duct area rear',
  'flow',
)
