import { abs, blockChain, sub } from '../network/index.ts'
import type { Frozen } from './frozen.ts'

/** The share of the load's current by which an element's must change for it to be on the way. */
const ON_THE_WAY = 0.05

/** Elements by place, in the order current meets them. */
export interface Order {
  /** Places from the first pole to the return, wires included, as indices; parallel stretches share one. */
  readonly path: readonly (readonly number[])[]
  /** Names of the poles at its ends. */
  readonly poles: readonly [string, string] | readonly []
  /** Other loads that carry this load's current. */
  readonly shares: ReadonlySet<number>
}

/**
 * Where the load's current runs: elements whose current changes by at least 5 % of the load's when the load alone is
 * opened, from the first of the supply's poles among them to the return. Empty where it carries nothing.
 */
export function orderOf(frozen: Frozen, load: number): Order {
  const orders = known.get(frozen) ?? new Map<number, Order>()
  known.set(frozen, orders)
  const order = orders.get(load) ?? orderAnew(frozen, load)
  orders.set(load, order)
  return order
}

const known = new WeakMap<Frozen, Map<number, Order>>()

function orderAnew(frozen: Frozen, load: number): Order {
  const { wiring, settled } = frozen
  const { solved } = settled
  const amps = abs(solved.ampsThrough(load))
  const nothing: Order = { path: [], poles: [], shares: new Set() }
  if (amps === 0) return nothing
  const without = frozen.without([load])
  const change = (i: number): number => (i === load ? amps : abs(sub(solved.ampsThrough(i), without.ampsThrough(i))))
  const onTheWay = wiring.elements.flatMap((_, i) =>
    (solved.active[i] ?? -1) >= 0 && change(i) >= ON_THE_WAY * amps ? [i] : [],
  )
  const shares = new Set(onTheWay.filter((i) => i !== load && frozen.element(i).role === 'load'))
  const sources = onTheWay.filter((i) => frozen.element(i).role === 'source')
  const secondary = sources.filter((i) => frozen.element(i).coupled).toSorted((a, b) => change(b) - change(a))[0]
  if (secondary !== undefined) {
    const { path, poles } = fromSecondary(frozen, onTheWay, secondary)
    return { path, poles, shares }
  }
  const [first, ...others] = sources
  const last = others.toSorted((a, b) => change(b) - change(a))[0]
  if (first === undefined || last === undefined) return { ...nothing, shares }
  const behind = (i: number) => wiring.ends[i]?.[0] ?? 0
  const edges = onTheWay.map((i) => ({ a: wiring.ends[i]?.[0] ?? 0, b: wiring.ends[i]?.[1] ?? 0 }))
  const path = blockChain(wiring.nodeCount, edges, behind(first), behind(last)).map((group) =>
    group.map((edge) => onTheWay[edge] ?? -1).filter((i) => frozen.element(i).role !== 'source'),
  )
  return {
    path: path.filter((place) => place.length > 0),
    poles: [frozen.element(first).name, frozen.element(last).name],
    shares,
  }
}

/** A secondary is a source of its own: from its first terminal around to its second. */
function fromSecondary(frozen: Frozen, onTheWay: readonly number[], secondary: number): Omit<Order, 'shares'> {
  const { wiring } = frozen
  const inWay = onTheWay.filter((i) => i !== secondary)
  const edges = inWay.map((i) => ({ a: wiring.ends[i]?.[0] ?? 0, b: wiring.ends[i]?.[1] ?? 0 }))
  const [from, to] = wiring.ends[secondary] ?? [0, 0]
  const path = blockChain(wiring.nodeCount, edges, from, to).map((group) =>
    group.map((edge) => inWay[edge] ?? -1).filter((i) => frozen.element(i).role !== 'source'),
  )
  return { path: path.filter((place) => place.length > 0), poles: frozen.element(secondary).ends }
}
