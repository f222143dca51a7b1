import { loadRatings, ratingOf } from '../common/load.ts'
import { addPart, element, pairName } from '../common/part.ts'
import { coreWindingFigure } from '../figures.ts'
import { flagForm, nameForm, quantityAsTyped } from '../forms.ts'
import { type Children, type Context, kind, type SaidChild } from '../kind.ts'
import { inductive, lawAlways, resistance } from '../laws.ts'

/** Common practice, no source: a small transformer's volts sink by about a tenth from no load to its rated load. */
const SINKS_BY = 0.1
/** The VA of the usual control transformer of a furnace, where the line does not say; common practice, no source. */
const USUAL_VA = 40
/** A primary is at work from seven tenths of its rated current. */
const WORKS = 0.7

const children = {
  primary: { named: false, tags: true, ratings: ['volts', 'ohms'], clauses: {} },
  secondary: {
    named: false,
    tags: true,
    bare: true,
    ratings: [...loadRatings, 'voltamperes'],
    clauses: { loaded: flagForm() },
  },
} as const satisfies Children

type SecondaryLine = Extract<SaidChild<typeof children>, { readonly word: 'secondary' }>

/**
 * A primary that takes its VA, and secondaries that are sources of their own: each as many volts at no load as the
 * primary's volts give, behind the resistance of its winding. What a secondary carries is not added to the primary.
 */
export const transformerKind = kind({
  word: 'transformer',
  title: 'Transformer',
  example:
    'transformer T1 "Control transformer" 40 VA area rear\n  primary 1-2 120 V 30 ohm\n  secondary 3-4 24 V 2 ohm',
  named: 'shared',
  round: 2,
  ratings: ['voltamperes'],
  clauses: { area: nameForm('area') },
  children,
  read(line, to) {
    const primaries = line.children.flatMap((c) => (c.word === 'primary' ? [c] : []))
    const secondaries = line.children.flatMap((c) => (c.word === 'secondary' ? [c] : []))
    const [primary, ...more] = primaries
    for (const second of more) to.tell('second-winding', second.head, line.name)
    if ((!primary || secondaries.length === 0) && !line.told) {
      to.tell('no-windings', line.head, line.name, primary ? 'secondary' : 'primary')
    }
    const typed = ratingOf(line, 'voltamperes')
    if (typed === undefined && !line.told) to.tell('va-assumed', line.head, line.name, USUAL_VA)
    const va = typed ?? USUAL_VA
    for (const c of [...primaries, ...secondaries]) {
      const [tags, second] = c.tags
      if (!tags && !c.told) to.tell('no-tags', c.head, `${line.name}:${c.word}`, c.word)
      if (second) to.tell('one-pair-only', second.at, `${line.name}:${c.word}`)
      if (ratingOf(c, 'volts') === undefined && !c.told) to.tell('winding-volts', c.head, line.name, c.word)
    }
    const volts = primary && ratingOf(primary, 'volts')
    const [tags] = primary?.tags ?? []
    if (!primary || !tags) {
      addPart(line, to, [])
      return
    }
    const dc = ratingOf(primary, 'ohms')
    const winding = element(line, to, tags, {
      name: 'primary',
      role: 'load',
      laws: volts === undefined ? [] : lawAlways(inductive(volts ** 2 / va, dc ?? (SINKS_BY / 2) * (volts ** 2 / va))),
      figure: coreWindingFigure,
      note: noteOf(primary),
      load: { volts: volts ?? 0, works: WORKS, weak: 0.8 },
    })
    const sources = secondaries.flatMap((c) => {
      const [own] = c.tags
      const rated = ratingOf(c, 'volts')
      if (!own || rated === undefined || volts === undefined) return []
      const amps = ratingOf(c, 'amps') ?? (ratingOf(c, 'voltamperes') ?? va) / rated
      const ohms = ratingOf(c, 'ohms') ?? (SINKS_BY * rated) / amps
      const force = c.clauses.loaded ? rated + amps * ohms : rated
      return [
        {
          ...element(line, to, own, {
            name: secondaryName(c, pairName(own), secondaries.length, to),
            role: 'source',
            laws: lawAlways(resistance(ohms)),
            figure: coreWindingFigure,
            note: noteOf(c),
          }),
          coupled: { primary: winding.id, ratio: force / volts, amps },
        },
      ]
    })
    addPart(line, to, [winding, ...sources])
  },
})

/** The name on its line; else `secondary` where it is the only one, and its tags where there are several. */
function secondaryName(c: SecondaryLine, pair: string, count: number, to: Context): string {
  const [name, ...extra] = c.bare
  for (const token of extra) to.tell('unknown-word', token, token.text, true, ['loaded'])
  return name?.text ?? (count === 1 ? 'secondary' : pair)
}

function noteOf(c: Pick<SecondaryLine, 'ratings'>): string {
  const volts = c.ratings.find((r) => r.quantity.quantity === 'volts')
  return volts ? quantityAsTyped(volts.quantity) : ''
}
