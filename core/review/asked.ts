import type { Actor, Circuit, Conditions, Element, ElementId, Setting } from '../circuit/model.ts'
import type { Problem, Span } from '../netlist/tree.ts'
import { blocks } from '../network/index.ts'
import { type Operation, operate, type Settled, type Step, wiringOf } from '../operate/index.ts'
import { driversOf } from '../strings/drivers.ts'
import { freeze, loadsOf } from '../strings/frozen.ts'
import { shortName } from '../strings/index.ts'
import { problem, type ReviewCode, type ReviewWords } from './messages.ts'
import { type Short, shortsOf } from './metal.ts'
import { type Places, placesIn } from './places.ts'
import { rowsOf } from './rows.ts'

/** What every check is asked about: the circuit, and what they share so that it is worked out once. */
export interface Asked {
  readonly circuit: Circuit
  readonly places: Places
  /** It names its model or sheet: meant to be the whole of a unit, where a string typed alone leaves out what it likes. */
  readonly whole: boolean
  /** Every row looked at, operated. */
  readonly rows: readonly Operation[]
  /** No row was left out. */
  readonly allRows: boolean
  /** Loads that have a law, as indices. */
  readonly loads: readonly number[]
  element(i: number): Element
  /** The part's name where that is enough. */
  name(e: Element): string
  /** Loads on in a state. */
  onIn(state: Step | Settled): ReadonlySet<number>
  /** Ends of a source that metal joins in a state. */
  shortsIn(state: Step | Settled): readonly Short[]
  /** The element lies on some way from one pole to another, whatever is closed. */
  liesBetweenPoles(id: ElementId): boolean
  /** Nothing wired moves it: what would is not typed yet. */
  isUnwired(actor: Actor): boolean
  /** The rows again, with actors held in a state. */
  forced(conditions: Conditions): readonly Operation[]
}

/** One thing to look for. */
export type Check = (asked: Asked) => readonly Problem[]

/** `With dial=off door=shut`, for the beginning of a sentence. */
export function settingText(setting: Setting): string {
  const pairs = Object.entries(setting).map(([control, position]) => `${control}=${position}`)
  return pairs.length > 0 ? `With ${pairs.join(' ')}` : 'As it stands'
}

/** A problem where its words stand; at the beginning of the text where that is not known. */
export function found<C extends ReviewCode>(code: C, at: Span | undefined, ...words: ReviewWords[C]): Problem {
  return problem(code, at ?? { from: 0, to: 0 }, ...words)
}

export function ask(circuit: Circuit, text: string, mostRows: number): Asked {
  const wiring = wiringOf(circuit)
  const { rows, all } = rowsOf(circuit, mostRows)
  const element = (i: number): Element => {
    const one = wiring.elements[i]
    if (!one) throw new Error(`Broken promise: element ${i} is one of ${wiring.elements.length}`)
    return one
  }
  const between = once(() => elementsBetweenPoles(circuit))
  const operated = once(() => rows.map((given) => operate(circuit, given)))
  const shorts = new Map<string, readonly Short[]>()
  const on = new WeakMap<Step | Settled, ReadonlySet<number>>()
  const loads = loadsOf(wiring).filter((i) => element(i).laws.length > 0)
  return {
    circuit,
    places: placesIn(text),
    whole: circuit.unit.model !== undefined || circuit.unit.sheet !== undefined,
    get rows() {
      return operated()
    },
    allRows: all,
    loads,
    element,
    name: (e) => shortName(circuit, e),
    onIn(state) {
      const known = on.get(state)
      if (known) return known
      const { setting, conditions, solved } = state
      const frozen = freeze(wiring, { setting, conditions, solved, chatters: [] })
      const set = new Set(loads.filter((i) => frozen.isOn(i)))
      on.set(state, set)
      return set
    },
    shortsIn({ solved }) {
      const state = solved.active.join()
      const ways = shorts.get(state) ?? shortsOf(wiring, solved)
      shorts.set(state, ways)
      return ways
    },
    liesBetweenPoles: (id) => between().has(id),
    isUnwired(actor) {
      if (actor.sense.by === 'nothing') return true
      const drivers = driversOf(circuit, actor)
      return actor.sense.by !== 'heat' && drivers.length > 0 && !drivers.some((id) => between().has(id))
    },
    forced: (conditions) => rows.map((given) => operate(circuit, given, { forced: conditions })),
  }
}

function once<T>(make: () => T): () => T {
  let made: { readonly it: T } | undefined
  return () => {
    made ??= { it: make() }
    return made.it
  }
}

/**
 * Elements that some simple way from one pole to another runs through, were everything closed; a secondary is a source
 * of its own. With all poles drawn together in one node, those are the ones that share a cycle with it.
 */
function elementsBetweenPoles(circuit: Circuit): ReadonlySet<ElementId> {
  const wiring = wiringOf(circuit)
  const poles = circuit.supplies.flatMap((s) => s.poles.filter((p) => p.name !== 'G'))
  const together = wiring.nodeCount
  const own = wiring.elements.flatMap((e, i) => (e.laws.length > 0 && (e.role !== 'source' || e.coupled) ? [i] : []))
  const edges = [
    ...own.map((i) => ({ a: wiring.ends[i]?.[0] ?? 0, b: wiring.ends[i]?.[1] ?? 0 })),
    ...poles.map((p) => ({ a: wiring.node.get(p.terminal) ?? 0, b: together })),
  ]
  const block = blocks(together + 1, edges)
  const sources = new Set(poles.map((_, k) => block[own.length + k]))
  own.forEach((i, k) => {
    if (wiring.elements[i]?.coupled) sources.add(block[k])
  })
  return new Set(own.flatMap((i, k) => (sources.has(block[k]) ? [wiring.elements[i]?.id ?? ''] : [])))
}
