import { ohmText, ratingOf } from '../common/load.ts'
import { addPart, element } from '../common/part.ts'
import { contactFigure, windingFigure } from '../figures.ts'
import { measureForm, nameForm, phraseForm } from '../forms.ts'
import { type Children, type Context, kind, type Said, type SaidChild, type Tags } from '../kind.ts'
import { CONTACT, lawWhen } from '../laws.ts'
import type { Element, Law } from '../model.ts'
import { is, NEVER } from '../test.ts'

/** Common practice, no source: a small single-phase motor runs at a power factor near 0.6 and starts near 0.7. */
const RUN_FACTOR = 0.6
const START_FACTOR = 0.7
/** Starting amps over running amps where the sheet is silent; common practice, no source. */
const START_RATIO = 4.5

const clauses = { start: measureForm('amps', '22 A'), area: nameForm('area') }
const children = {
  winding: { named: true, tags: true, ratings: ['ohms'], clauses: {} },
  contact: { named: true, tags: true, clauses: { closed: phraseForm('at speed', 'at rest') } },
} as const satisfies Children

type MotorLine = Said<typeof clauses, typeof children>
type MotorChild = SaidChild<typeof children>
type WindingLine = Extract<MotorChild, { readonly word: 'winding' }>
type ContactLine = Extract<MotorChild, { readonly word: 'contact' }>

/** A motor: main windings are its loads, start windings bring it up, and its speed opens and closes contacts. */
export const motorKind = kind({
  word: 'motor',
  title: 'Motor',
  example:
    'motor M "Drive motor" 120 V 5 A start 22 A area rear\n  winding main  4-5  2.4 ohm\n  winding start 3-5  3.1 ohm\n  contact heat  1-2  closed at speed',
  named: 'shared',
  round: 2,
  ratings: ['volts', 'amps', 'watts'],
  clauses,
  children,
  read(line, to) {
    const windings = windingMaker(line, to)
    const elements = line.children.flatMap((c) => {
      const tags = tagsOf(line, c, to)
      if (!tags) return []
      return [c.word === 'winding' ? windings(c, tags) : speedContact(line, c, tags, to)]
    })
    if (!line.told && !line.children.some((c) => c.word === 'winding' && isMain(c.name))) {
      to.tell('no-winding', line.head, line.name)
    }
    const kept = addPart(line, to, elements)
    const ids = (role: Element['role']) => kept.filter((e) => e.role === role).map((e) => e.id)
    to.actor({
      name: line.name,
      part: line.name,
      states: ['at-rest', 'at-speed'],
      sense: { by: 'turning', run: ids('load'), start: ids('passive') },
    })
  },
})

/** `main`, and several of them as `main_high`, `main_low`. */
const isMain = (name: string): boolean => name.startsWith('main')

/** The tags of an indented line; told when it has none, or more than two. */
function tagsOf(line: MotorLine, c: MotorChild, to: Context): Tags | undefined {
  const [tags, second] = c.tags
  const id = `${line.name}:${c.name}`
  if (!tags && !c.told) to.tell('no-tags', c.head, id, `${c.word} ${c.name}`)
  if (second) to.tell('one-pair-only', second.at, id)
  return tags
}

function speedContact(line: MotorLine, c: ContactLine, tags: Tags, to: Context): Element {
  const { closed } = c.clauses
  if (!closed && !c.told) to.tell('no-condition', c.head, `${line.name}:${c.name}`, 'closed at speed')
  const state = closed === 'at rest' ? 'at-rest' : 'at-speed'
  return element(line, to, tags, {
    name: c.name,
    role: 'contact',
    laws: lawWhen(closed ? is(line.name, [state]) : NEVER, CONTACT),
    figure: contactFigure('speed'),
    note: closed ?? '',
  })
}

/** Makes windings from the motor's ratings; without volts and amps they carry nothing, which is told. */
function windingMaker(line: MotorLine, to: Context): (c: WindingLine, tags: Tags) => Element {
  const volts = ratingOf(line, 'volts')
  const amps = ratingOf(line, 'amps')
  if ((volts === undefined || amps === undefined) && !line.told) to.tell('no-volts-and-amps', line.head, line.name)
  const rated = volts !== undefined && amps !== undefined ? { volts, amps } : undefined
  const factor = rated ? powerFactor(rated.volts, rated.amps, ratingOf(line, 'watts')) : RUN_FACTOR
  const startAmps = line.clauses.start?.si ?? (rated ? rated.amps * START_RATIO : undefined)
  const mainOhms = line.children
    .flatMap((c) => (c.word === 'winding' && isMain(c.name) ? [ratingOf(c, 'ohms')] : []))
    .find((ohms) => ohms !== undefined)
  return (c, tags) => {
    const main = isMain(c.name)
    const dc = ratingOf(c, 'ohms')
    // Windings of one motor start in proportion to their resistance; a start winding has more of it.
    const share = dc !== undefined && mainOhms !== undefined ? dc / mainOhms : 1
    const still =
      rated && startAmps !== undefined ? impedance((rated.volts / startAmps) * share, START_FACTOR, dc) : undefined
    const moving = main ? rated && impedance(rated.volts / rated.amps, factor, dc, 0) : still
    return element(line, to, tags, {
      name: c.name,
      role: main ? 'load' : 'passive',
      laws: [
        ...(moving ? lawWhen(is(line.name, ['at-speed']), moving) : []),
        ...(still ? lawWhen(is(line.name, ['at-rest']), still) : []),
      ],
      figure: windingFigure,
      note: dc === undefined ? '' : ohmText(dc),
      load: { volts: rated?.volts ?? 0, works: 0.7, weak: 0.8 },
    })
  }
}

const powerFactor = (volts: number, amps: number, watts: number | undefined): number =>
  watts === undefined ? RUN_FACTOR : Math.min(1, watts / (volts * amps))

/** Ohms at line frequency from magnitude and power factor, never less resistive than `least`; `dc` to direct current. */
function impedance(magnitude: number, factor: number, dc: number | undefined, least = dc ?? 0): Law {
  const re = Math.min(magnitude, Math.max(least, magnitude * factor))
  return { kind: 'impedance', re, im: Math.sqrt(magnitude ** 2 - re ** 2), dc: dc ?? re }
}
