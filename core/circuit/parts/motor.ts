import { contactFigure, windingFigure } from '../figures.ts'
import { measureForm, nameForm, phraseForm } from '../forms.ts'
import { child, kind, type SaidChild } from '../kind.ts'
import type { Element, ElementId, Law } from '../model.ts'
import { anyLoad, bothNeeds } from '../needs.ts'
import { CONTACT } from '../ohms.ts'
import { is } from '../test.ts'
import { addPart, element, lawWhen } from './contact.ts'
import { ohmText, ratingOf } from './load.ts'

/** Common practice, no source: a small single-phase motor runs at a power factor near 0.6 and starts near 0.7. */
const RUN_FACTOR = 0.6
const START_FACTOR = 0.7
/** Starting amps over running amps where the sheet is silent; common practice, no source. */
const START_RATIO = 4.5

/** The share of its rated current from which a winding pulls. */
const WORKS = 0.7

const ids = (elements: readonly Element[]): readonly ElementId[] => elements.map((e) => e.id)

const children = {
  winding: child({ named: true, ratings: ['ohms', 'amps', 'volts', 'watts'], clauses: {} }),
  contact: child({ named: true, clauses: { closed: phraseForm('at speed', 'at rest') } }),
}

/** A motor: main windings are its loads, start windings bring it up, and its speed opens and closes contacts. */
export const motorKind = kind({
  word: 'motor',
  title: 'Motor',
  example: 'motor M "Drive motor" 120 V 5 A start 22 A area drum',
  named: 'part',
  round: 2,
  ratings: ['volts', 'amps', 'watts'],
  clauses: { start: measureForm('amps', '22 A'), area: nameForm('area') },
  children,
  read(line, to) {
    const volts = ratingOf(line, 'volts')
    const amps = ratingOf(line, 'amps')
    if (!volts || !amps) {
      to.tell(
        'no-rating',
        line.head,
        `${line.name} needs its volts and amps.`,
        'Add both from its label: `120 V 5 A`; `start 22 A` too where it is known.',
      )
    }
    const speed = (states: readonly string[]) => is(line.name, states)
    const running =
      volts && amps ? impedance(volts / amps, powerFactor(volts, amps, ratingOf(line, 'watts')), 0) : undefined
    const startAmps = line.clauses.start?.value.si ?? (amps ?? 0) * START_RATIO
    const mainOhms = line.children
      .filter((c) => c.word === 'winding' && isMain(c))
      .map((c) => ratingOf(c, 'ohms'))
      .find((o) => o !== undefined)

    const elements: Element[] = []
    const run: Element[] = []
    const start: Element[] = []
    for (const c of line.children) {
      const [tags] = c.tags
      if (!tags || c.name === '') {
        to.tell(
          'winding-form',
          c.head,
          `This ${c.word} of ${line.name} has no ${tags ? 'name' : 'tags'}.`,
          `Write \`${c.word} ${c.name || 'main'} 4-5\` with the tags of its ends.`,
        )
        continue
      }
      if (c.word === 'contact') {
        const rest = c.clauses.closed?.value === 'at rest'
        if (!c.clauses.closed) {
          to.tell(
            'no-condition',
            c.head,
            `${line.name}:${c.name} does not say when it is closed.`,
            'Add `closed at speed` or `closed at rest`.',
          )
        }
        elements.push(
          element(line, to, tags, {
            name: c.name,
            role: 'contact',
            laws: c.clauses.closed ? lawWhen(speed([rest ? 'at-rest' : 'at-speed']), CONTACT) : [],
            figure: contactFigure(rest ? 'closed' : 'open', 'speed'),
            note: c.clauses.closed?.value ?? '',
          }),
        )
        continue
      }
      const dc = ratingOf(c, 'ohms')
      // Windings of one motor start in proportion to their resistance; a start winding has more of it.
      const share = dc && mainOhms ? dc / mainOhms : 1
      const still = volts && startAmps ? impedance((volts / startAmps) * share, START_FACTOR, dc ?? 0) : undefined
      const main = isMain(c)
      const moving = main ? running && { ...running, dc: dc ?? running.re } : still
      const winding = element(line, to, tags, {
        name: c.name,
        role: main ? 'load' : 'passive',
        laws: [
          ...(moving ? lawWhen(speed(['at-speed']), moving) : []),
          ...(still ? lawWhen(speed(['at-rest']), still) : []),
        ],
        figure: windingFigure,
        note: dc === undefined ? '' : ohmText(dc),
        load: { volts: volts ?? 0, works: WORKS, weak: 0.8 },
      })
      elements.push(winding)
      if (main) run.push(winding)
      else start.push(winding)
    }
    if (run.length === 0) {
      to.tell(
        'no-winding',
        line.head,
        `${line.name} has no main winding, so nothing can run it.`,
        'Add an indented line `winding main 4-5 2.4 ohm`.',
      )
    }
    addPart(line, 'motor', to, elements)
    to.actor({
      name: line.name,
      part: line.name,
      states: ['at-rest', 'at-speed'],
      sense: {
        by: 'needs',
        to:
          start.length > 0 ? bothNeeds(anyLoad(ids(run), WORKS), anyLoad(ids(start), WORKS)) : anyLoad(ids(run), WORKS),
        stay: anyLoad(ids(run), WORKS),
        hums: true,
      },
    })
  },
})

/** `main`, and several of them as `main_high`, `main_low`. */
const isMain = (c: SaidChild<typeof children>): boolean => /^main/.test(c.name)

const powerFactor = (volts: number, amps: number, watts: number | undefined): number =>
  watts ? Math.min(1, watts / (volts * amps)) : RUN_FACTOR

/** Ohms at line frequency from magnitude and power factor; never less resistive than the copper alone. */
function impedance(magnitude: number, factor: number, dc: number): Law & { kind: 'impedance' } {
  const re = Math.min(magnitude, Math.max(dc, magnitude * factor))
  return { kind: 'impedance', re, im: Math.sqrt(magnitude ** 2 - re ** 2), dc: dc || re }
}
