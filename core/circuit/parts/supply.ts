import { ratingOf } from '../common/load.ts'
import { partOf } from '../common/part.ts'
import { flagForm, measureForm, nameForm, phraseForm, quantityAsTyped } from '../forms.ts'
import { type Context, kind, type Said } from '../kind.ts'
import { GROUND_OHMS, lawAlways, lawWhen, SOURCE_OHMS } from '../laws.ts'
import type { Element, Law, Pole } from '../model.ts'
import { is } from '../test.ts'

/** A pole as a share of the volts typed, about neutral; `leg`: a breaker opens it. */
interface PoleForm {
  readonly name: string
  readonly re: number
  readonly im?: number
  readonly leg?: true
}
interface System {
  readonly volts: number
  hertz(volts: number): number
  readonly poles: readonly PoleForm[]
}

const usualHertz = () => 60
const N: PoleForm = { name: 'N', re: 0 }
const G: PoleForm = { name: 'G', re: 0 }

/** Kinds of supply by the word that says which. Ground is bonded to neutral at the panel. */
const SYSTEMS = {
  // Two legs of one winding, each half the volts, in opposite phase.
  'split-phase': {
    volts: 240,
    hertz: usualHertz,
    poles: [{ name: 'L1', re: 0.5, leg: true }, { name: 'L2', re: -0.5, leg: true }, N, G],
  },
  // Two legs of a three-phase supply, 120° apart: the volts between them are √3 times those to neutral.
  'two-leg': {
    volts: 208,
    hertz: usualHertz,
    poles: [
      { name: 'L1', re: 1 / Math.sqrt(3), leg: true },
      { name: 'L2', re: -0.5 / Math.sqrt(3), im: -0.5, leg: true },
      N,
      G,
    ],
  },
  'single-phase': {
    volts: 120,
    // Common practice, no source: what has 200 V and more from leg to neutral has 50 Hz.
    hertz: (volts) => (volts < 200 ? 60 : 50),
    poles: [{ name: 'L', re: 1, leg: true }, N, G],
  },
  dc: {
    volts: 24,
    hertz: () => 0,
    poles: [
      { name: '+', re: 1, leg: true },
      { name: '−', re: 0 },
    ],
  },
  // The low side of a transformer elsewhere: R is its hot side, C its common one.
  'class-2': {
    volts: 24,
    hertz: usualHertz,
    poles: [
      { name: 'R', re: 1, leg: true },
      { name: 'C', re: 0 },
    ],
  },
} as const satisfies Readonly<Record<string, System>>

const systems: ReadonlyMap<string, System> = new Map(Object.entries(SYSTEMS))

/** Wires of each cord; one fewer than the supply has poles is a cord without ground. */
const CORDS = { 'two-wire cord': 2, 'three-wire cord': 3, 'four-wire cord': 4, cord: undefined } as const

const clauses = {
  by: phraseForm('cord', 'two-wire cord', 'three-wire cord', 'four-wire cord'),
  'hard-wired': flagForm(),
  without: phraseForm('neutral', 'ground'),
  breaker: measureForm('amps', '30 A'),
  source: measureForm('ohms', '0.05 ohm'),
  ground: measureForm('ohms', '0.1 ohm'),
  area: nameForm('area'),
}

/** Where the unit's power comes from. A further supply has a name: `supply aux dc 12 V`. */
export const supplyKind = kind({
  word: 'supply',
  title: 'Supply',
  example: 'supply split-phase 240 V 60 Hz by cord breaker 30 A area top',
  named: 'shared',
  namedBefore: [...systems.keys()],
  round: 1,
  bare: true,
  ratings: ['volts', 'hertz'],
  clauses,
  children: {},
  read(line, to) {
    const [word, ...extra] = line.bare
    const system = word && systems.get(word.text)
    if (!system) {
      if (word || !line.told) to.tell('unknown-supply', word ?? line.head, word?.text, [...systems.keys()])
      to.lost(line.name)
      return
    }
    for (const token of extra) to.tell('unknown-word', token, token.text, false, Object.keys(clauses))
    const typed = ratingOf(line, 'volts')
    if (typed === undefined && !line.told) to.tell('volts-assumed', line.head, system.volts)
    const volts = typed ?? system.volts
    const title = `${volts} V ${word.text}`
    const { breaker, source, ground } = line.clauses
    const forms = polesWired(line, word.text, system, to)
    const poles = forms.map(
      ({ name, re, im = 0 }): Pole => ({
        terminal: `${line.name}.${name}`,
        behind: `behind ${line.name === 'supply' ? name : `${line.name}.${name}`}`,
        re: re * volts,
        im: im * volts,
        name,
      }),
    )
    const breakerName = line.name === 'supply' ? 'breaker' : `${line.name}-breaker`
    const idOf = (name: string) => `${line.name}:${name}`
    const sources = poles.map((pole, i): Element => {
      const ohms = pole.name === 'G' ? (ground?.si ?? GROUND_OHMS) : (source?.si ?? SOURCE_OHMS)
      const law: Law = { kind: 'path', ohms }
      return {
        id: idOf(pole.name),
        part: line.name,
        name: pole.name,
        role: 'source',
        ends: [pole.behind, pole.terminal],
        laws: breaker && forms[i]?.leg ? lawWhen(is(breakerName, ['on']), law) : lawAlways(law),
        figure: { kind: 'source' },
        note: '',
        at: line.head,
      }
    })
    to.supply({
      name: line.name,
      title,
      hertz: hertzOf(line, system, volts, to),
      poles,
      ...(breaker && { breaker: breaker.si }),
    })
    to.part(partOf({ ...line, label: line.label || title }, to), sources)
    if (breaker) {
      const legs = forms.filter((pole) => pole.leg).map((pole) => idOf(pole.name))
      to.actor({
        name: breakerName,
        part: line.name,
        states: ['on', 'tripped'],
        sense: { by: 'current', elements: legs, amps: breaker.si },
      })
    }
  },
})

type SupplyLine = Said<typeof clauses, Record<never, never>>

/** The poles that come in: all but those the line is `without`, and with one wire fewer in its cord all but ground. */
function polesWired(line: SupplyLine, word: string, system: System, to: Context): readonly PoleForm[] {
  const { by, without } = line.clauses
  const absent = without === 'neutral' ? 'N' : without === 'ground' ? 'G' : undefined
  const poles = system.poles.filter((pole) => pole.name !== absent)
  if (absent !== undefined && poles.length === system.poles.length)
    to.tell('no-such-pole', line.head, word, without ?? '')
  const wires = by && CORDS[by]
  const bare = poles.filter((pole) => pole.name !== 'G')
  if (wires === undefined || wires === poles.length) return poles
  if (wires === bare.length) return bare
  to.tell('cord-does-not-fit', line.head, word, by ?? '')
  return poles
}

/** Direct current has no hertz. */
function hertzOf(line: SupplyLine, system: System, volts: number, to: Context): number {
  const usual = system.hertz(volts)
  const typed = line.ratings.find((r) => r.quantity.quantity === 'hertz')
  if (typed && usual === 0) to.tell('wrong-quantity', typed.at, quantityAsTyped(typed.quantity), [], [])
  return usual === 0 ? 0 : (typed?.quantity.si ?? usual)
}
