import { ratingOf } from '../common/load.ts'
import { addPart, element, pairName } from '../common/part.ts'
import { contactFigure, heaterFigure } from '../figures.ts'
import { nameForm, phraseThenNameForm } from '../forms.ts'
import { type Children, type Context, kind, type Said, type Tags } from '../kind.ts'
import { CONTACT, lawAlways, lawWhen, resistance } from '../laws.ts'
import type { Element, Test } from '../model.ts'
import { ANYWAY, anyLoad } from '../needs.ts'
import { is } from '../test.ts'

/** Its own heater, at line volts: common practice, no source. Nothing is asked of it but that it warms when fed. */
const HEATER = { ohms: 8000, volts: 240, works: 0.4 }
/** Where its own bimetal moves: common practice, no source; inside the part, so that nobody reads it. */
const OPENS = { value: 90, unit: 'C' } as const
const CLOSES = { value: 70, unit: 'C' } as const

const clauses = {
  turned: phraseThenNameForm('by', 'control'),
  full: phraseThenNameForm('at', 'position'),
  area: nameForm('area'),
}
const children = {
  cycles: { named: false, tags: true, clauses: {} },
  switches: { named: false, tags: true, clauses: {} },
  pilot: { named: false, tags: true, clauses: {} },
  heater: { named: false, tags: true, ratings: ['ohms'], clauses: {} },
} as const satisfies Children

/**
 * The switch of a surface unit. Both legs close when it is turned on; its own small heater, fed with the unit, opens one
 * of them again and again below full heat. Unless its lines say otherwise: `cycles L1-H1`, `switches L2-H2`, `pilot L1-P`.
 */
export const energyRegulatorKind = kind({
  word: 'energy-regulator',
  title: 'Surface-unit switch, cycling',
  example: 'energy-regulator ER "Left front" turned by knob full at high area top',
  named: 'shared',
  round: 2,
  clauses,
  children,
  read(line, to) {
    const { turned } = line.clauses
    const control = turned && to.findControl(turned)
    if (!turned && !line.told) to.tell('no-control', line.head, line.name)
    const off = control?.positions.includes('off') ? 'off' : control?.normally
    const on = control?.positions.filter((p) => p !== off) ?? []
    const full = fullOf(line, on, to)
    const knob = turned?.text ?? ''
    const turnedOn = is(knob, on)
    const cold = { of: line.name, in: ['cold'] }
    const cycling: Test = [
      [{ of: knob, in: on.filter((p) => p !== full) }, cold],
      ...(full === undefined ? [] : is(knob, [full])),
    ]
    const contact = (tags: Tags, when: Test, note: string): Element =>
      element(line, to, tags, {
        name: pairName(tags),
        role: 'contact',
        laws: lawWhen(when, CONTACT),
        figure: contactFigure('dial'),
        note,
      })
    const [cycles, switches, pilot] = tagsOf(line, to)
    const heaterLine = line.children.find((c) => c.word === 'heater')
    const between = heaterLine?.tags[0] ?? betweenOuts(cycles, switches)
    if (!between && !line.told) to.tell('no-bimetal', line.head, line.name)
    const heater =
      between &&
      element(line, to, between, {
        name: 'heater',
        role: 'passive',
        laws: lawAlways(resistance((heaterLine && ratingOf(heaterLine, 'ohms')) ?? HEATER.ohms)),
        figure: heaterFigure,
        note: 'bimetal',
        load: { volts: HEATER.volts, works: HEATER.works, weak: HEATER.works },
      })
    const kept = addPart({ ...line, tags: [] }, to, [
      ...(cycles ? [contact(cycles, cycling, 'cycles')] : []),
      ...(switches ? [contact(switches, turnedOn, '')] : []),
      ...(pilot ? [contact(pilot, turnedOn, 'pilot')] : []),
      ...(heater ? [heater] : []),
    ])
    // Inside the part: no name that a line can give is the same.
    const zone = `${line.name}:inside`
    const warmer = kept.flatMap((e) => (e.name === 'heater' ? [e.id] : []))
    to.zone({ name: zone, warmsWith: anyLoad(warmer, HEATER.works), inside: true })
    to.actor({
      name: line.name,
      part: line.name,
      states: ['cold', 'hot'],
      sense: { by: 'heat', zone, points: [{ when: ANYWAY, up: OPENS, down: CLOSES }] },
    })
  },
})

type RegulatorLine = Said<typeof clauses, typeof children>

/** The position at which it never cycles: as typed, else `high`, else the last. */
function fullOf(line: RegulatorLine, on: readonly string[], to: Context): string | undefined {
  const { full, turned } = line.clauses
  if (full && turned && on.length > 0 && !on.includes(full.text)) {
    to.tell('unknown-position', full.at, turned.text, full.text, on)
    return undefined
  }
  return full?.text ?? (on.includes('high') ? 'high' : on.at(-1))
}

/** Tags of its contacts that cycle, switch and light the pilot; the usual ones where no line gives any. */
function tagsOf(line: RegulatorLine, to: Context): readonly (Tags | undefined)[] {
  const usual = (pair: Tags['pair']): Tags => ({ pair, at: line.head })
  if (line.children.every((c) => c.word === 'heater')) {
    return [usual(['L1', 'H1']), usual(['L2', 'H2']), usual(['L1', 'P'])]
  }
  return (['cycles', 'switches', 'pilot'] as const).map((word) => {
    const child = line.children.find((c) => c.word === word)
    const [tags, second] = child?.tags ?? []
    if (child && !tags && !child.told) to.tell('no-tags', child.head, `${line.name}:${word}`, word)
    if (second) to.tell('one-pair-only', second.at, `${line.name}:${word}`)
    return tags
  })
}

/** Across what both contacts feed. */
const betweenOuts = (one: Tags | undefined, other: Tags | undefined): Tags | undefined =>
  one && other && { pair: [one.pair[1], other.pair[1]], at: one.at }
