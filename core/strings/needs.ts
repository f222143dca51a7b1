import { abs } from '../network/index.ts'
import type { Wiring } from '../operate/index.ts'
import type { Frozen } from './frozen.ts'

/** A leg that no breaker is named for. Common practice, no source: a dryer's. */
const USUAL_BREAKER = 30
/** Times the breaker's rating from which a leg's current counts as a short. */
const SHORT = 3

/** What one load needs in a frozen state, as indices of elements. */
export interface LoadNeeds {
  /** Contacts and links, then elements of loads and the like, then wires: each stops the load when it alone opens. */
  readonly mustBeClosed: readonly number[]
  readonly through: readonly number[]
  readonly wires: readonly number[]
  /** Open elements that stop the load when they alone close, and are no short. */
  readonly mustBeOpen: readonly number[]
}

/** By opening, and closing, each element alone and solving again. Exact for any topology. */
export function needsOf(frozen: Frozen, load: number): LoadNeeds {
  const stops = frozen.conducting.filter((i) => i !== load && !frozen.keeps(load, frozen.without([i])))
  const withRole = (...roles: readonly string[]) => stops.filter((i) => roles.includes(frozen.element(i).role))
  const shorting = new Set(shortsOf(frozen))
  return {
    mustBeClosed: withRole('contact', 'link'),
    through: withRole('load', 'passive'),
    wires: withRole('wire'),
    mustBeOpen: frozen.open.filter((i) => !shorting.has(i) && !frozen.keeps(load, closingOf(frozen, i))),
  }
}

const shortsKnown = new WeakMap<Frozen, readonly number[]>()
const closingsKnown = new WeakMap<Frozen, Map<number, ReturnType<Frozen['closing']>>>()

function closingOf(frozen: Frozen, i: number): ReturnType<Frozen['closing']> {
  const known = closingsKnown.get(frozen) ?? new Map()
  closingsKnown.set(frozen, known)
  const solved = known.get(i) ?? frozen.closing([i])
  known.set(i, solved)
  return solved
}

/** Rated amps of a leg's breaker, or of a secondary. */
function ratedAmps({ circuit, elements }: Wiring, i: number): number {
  const e = elements[i]
  if (e?.coupled) return e.coupled.amps
  return circuit.supplies.find((s) => s.name === e?.part)?.breaker ?? USUAL_BREAKER
}

/** Open elements whose closing drives a leg above three times its breaker. The same for every load of the state. */
export function shortsOf(frozen: Frozen): readonly number[] {
  const known = shortsKnown.get(frozen)
  if (known) return known
  const { wiring } = frozen
  const legs = wiring.elements.flatMap((e, i) =>
    e.role === 'source' ? [{ i, limit: SHORT * ratedAmps(wiring, i) }] : [],
  )
  const shorts = frozen.open.filter((i) => {
    const after = closingOf(frozen, i)
    return legs.some((leg) => abs(after.ampsThrough(leg.i)) > leg.limit)
  })
  shortsKnown.set(frozen, shorts)
  return shorts
}
