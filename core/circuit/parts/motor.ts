import { ohmText, ratingOf } from '../common/load.ts'
import { addPart, element } from '../common/part.ts'
import { capacitorFigure, contactFigure, windingFigure } from '../figures.ts'
import { measureForm, nameForm, phraseForm } from '../forms.ts'
import { type Children, type Context, kind, type Said, type SaidChild, type Tags } from '../kind.ts'
import { CONTACT, lawAlways, lawWhen } from '../laws.ts'
import type { Element, Law, Needs } from '../model.ts'
import { anyLoad, bothNeeds } from '../needs.ts'
import { is, NEVER } from '../test.ts'
import { faradText } from './capacitor.ts'

/** Common practice, no source: a small single-phase motor runs at a power factor near 0.6 and starts near 0.7. */
const RUN_FACTOR = 0.6
const START_FACTOR = 0.7
/** Starting amps over running amps where the sheet is silent; common practice, no source. */
const START_RATIO = 4.5

/** The share of its rated current from which a winding pulls. */
const WORKS = 0.7
/** A winding behind a run capacitor carries a small part of what it would carry alone; common practice, no source. */
const AUX_WORKS = 0.01

const clauses = { start: measureForm('amps', '22 A'), area: nameForm('area') }
const children = {
  winding: { named: true, tags: true, bare: true, ratings: ['ohms', 'amps'], clauses: {} },
  capacitor: { named: false, tags: true, ratings: ['farads', 'volts'], clauses: {} },
  overload: { named: false, tags: true, ratings: ['amps'], clauses: {} },
  contact: { named: true, tags: true, clauses: { closed: phraseForm('at speed', 'at rest') } },
} as const satisfies Children

type MotorLine = Said<typeof clauses, typeof children>
type MotorChild = SaidChild<typeof children>
type OwnPart = Extract<MotorChild, { readonly word: 'capacitor' | 'overload' }>
type WindingLine = Extract<MotorChild, { readonly word: 'winding' }>
type ContactLine = Extract<MotorChild, { readonly word: 'contact' }>

/**
 * A motor: main windings are its loads, one for each speed; start windings, and aux windings behind a run capacitor,
 * bring it up; its speed opens and closes contacts; an overload of its own opens when its current stays too high.
 */
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
      if (c.word === 'winding') return [windings(c, tags)]
      if (c.word === 'contact') return [speedContact(line, c, tags, to)]
      return [c.word === 'capacitor' ? runCapacitor(line, c, tags, to) : overload(line, tags, to)]
    })
    if (!line.told && !line.children.some((c) => c.word === 'winding' && isMain(c.name))) {
      to.tell('no-winding', line.head, line.name)
    }
    const kept = addPart(line, to, elements)
    const pulled = (role: Element['role']): Needs =>
      kept.filter((e) => e.role === role).flatMap((e) => (e.load ? anyLoad([e.id], e.load.works) : []))
    const [run, start] = [pulled('load'), pulled('passive')]
    to.actor({
      name: line.name,
      part: line.name,
      states: ['at-rest', 'at-speed'],
      sense: { by: 'needs', to: start.length > 0 ? bothNeeds(run, start) : run, stay: run, hums: true },
    })
    const name = overloadName(line)
    const opened = kept.flatMap((e) => (e.laws.some((l) => l.when.flat().some((c) => c.of === name)) ? [e.id] : []))
    if (opened.length > 0) {
      const amps = overloadAmps(line)
      to.actor({
        name,
        part: line.name,
        states: ['closed', 'tripped'],
        sense: amps === undefined ? { by: 'nothing' } : { by: 'current', elements: opened, amps },
      })
    }
  },
})

/** `main`, and several of them as `main high`, `main low`. */
const isMain = (name: string): boolean => name.startsWith('main')
const isAux = (name: string): boolean => name.startsWith('aux')

/** `main`; `main-high` of `main high`. */
function windingName(c: WindingLine, to: Context): string {
  const [which, ...extra] = c.bare.filter((token) => token.kind === 'word')
  for (const token of extra) to.tell('unknown-word', token, token.text, true, [])
  return which ? `${c.name}-${which.text}` : c.name
}

const ownName = (c: MotorChild): string => (c.word === 'winding' || c.word === 'contact' ? c.name : c.word)

function runCapacitor(line: MotorLine, c: OwnPart, tags: Tags, to: Context): Element {
  const farads = ratingOf(c, 'farads')
  if (farads === undefined && !c.told) to.tell('no-farads', c.head, `${line.name}:capacitor`)
  return element(line, to, tags, {
    name: 'capacitor',
    role: 'passive',
    laws: farads === undefined ? [] : lawAlways({ kind: 'capacitance', farads }),
    figure: capacitorFigure,
    note: farads === undefined ? '' : faradText(farads),
  })
}

/** The actor of its overload. */
const overloadName = (line: MotorLine): string => `${line.name}:overload`

/** Amps of its overload: its own, else those of the motor at its fastest. */
function overloadAmps(line: MotorLine): number | undefined {
  const given = line.children.find((c) => c.word === 'overload')
  const windings = line.children.flatMap((c) => (c.word === 'winding' ? [ratingOf(c, 'amps') ?? 0] : []))
  const most = Math.max(ratingOf(line, 'amps') ?? 0, ...windings)
  return (given && ratingOf(given, 'amps')) ?? (most > 0 ? most : undefined)
}

/** A contact that the motor's own current opens, with a state of its own. */
function overload(line: MotorLine, tags: Tags, to: Context): Element {
  return element(line, to, tags, {
    name: 'overload',
    role: 'contact',
    laws: lawWhen(is(overloadName(line), ['closed']), CONTACT),
    figure: contactFigure('heat'),
    note: 'overload',
  })
}

/** The tags of an indented line; told when it has none, or more than two. */
function tagsOf(line: MotorLine, c: MotorChild, to: Context): Tags | undefined {
  const [tags, second] = c.tags
  const id = `${line.name}:${ownName(c)}`
  if (!tags && !c.told) to.tell('no-tags', c.head, id, `${c.word} ${c.name}`.trim())
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
    const name = windingName(c, to)
    const note = dc === undefined ? '' : ohmText(dc)
    if (isAux(c.name)) {
      const ohms = dc ?? (rated ? rated.volts / rated.amps : undefined)
      return element(line, to, tags, {
        name,
        role: 'passive',
        laws: ohms === undefined ? [] : lawAlways({ kind: 'impedance', re: ohms, im: ohms, dc: ohms }),
        figure: windingFigure,
        note,
        load: { volts: rated?.volts ?? 0, works: AUX_WORKS, weak: AUX_WORKS },
      })
    }
    // Windings of one motor start in proportion to their resistance; a start winding has more of it.
    const share = dc !== undefined && mainOhms !== undefined ? dc / mainOhms : 1
    const still =
      rated && startAmps !== undefined ? impedance((rated.volts / startAmps) * share, START_FACTOR, dc) : undefined
    const amps = ratingOf(c, 'amps') ?? rated?.amps
    const moving = main ? rated && amps && impedance(rated.volts / amps, factor, dc, 0) : still
    return element(line, to, tags, {
      name,
      role: main ? 'load' : 'passive',
      laws: [
        ...(moving ? lawWhen(is(line.name, ['at-speed']), moving) : []),
        ...(still ? lawWhen(is(line.name, ['at-rest']), still) : []),
      ],
      figure: windingFigure,
      note,
      load: { volts: rated?.volts ?? 0, works: WORKS, weak: 0.8 },
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
