import type { Element } from '../circuit/model.ts'
import type { Nets } from './nets.ts'

/** What stands as one thing in a row: an element, or both throws of a changeover. */
export interface Unit {
  readonly element: Element
  /** The other throw, where both hang on the same side of the blade. */
  readonly other?: Element
  /** Drawn right to left: the first end of its element is the right one. */
  readonly flipped: boolean
  /** Column from the left, from 0. */
  readonly column: number
  /** Spots at its left and right: one each, a changeover has two on the side of its throws. */
  readonly from: readonly Spot[]
  readonly to: readonly Spot[]
}

/** A net by its number in `Nets.joined`, or a rail of a side by its name: `left:L1`. */
export type Spot = number | string

export interface Oriented {
  readonly units: readonly Unit[]
  /** Elements whose ends are joined by wires. */
  readonly shorted: readonly Element[]
  readonly columns: number
  /** The side of the rail that a tap hangs on, seen from an element: `left` or `right`. */
  side(element: Element, head: string): 'left' | 'right'
}

/** Ohms of the model that decides which way current runs in the drawing; loads must outweigh any row of contacts. */
const contactOhms = 1
const loadOhms = 1000
/** Share of the drop from which an element counts as behind a load, and moves to the right. */
const behindLoad = 0.9

/**
 * Which way round every element is drawn, and in which column. Potentials of a plain model decide: first pole 1, returns
 * 0, every contact taken as closed. So the layout never depends on a setting.
 */
export function orient(nets: Nets): Oriented {
  const poles = nets.ladders.flatMap((l) => l.rails)
  const leading = new Set(nets.ladders.flatMap((l) => l.rails.slice(0, 1)))
  const spotOf = (terminal: string): Spot => nets.heads.get(terminal) ?? lookUp(nets.of, terminal)
  const ends = new Map(nets.drawn.map((e) => [e, [spotOf(e.ends[0]), spotOf(e.ends[1])] as const]))
  const shorted = nets.drawn.filter((e) => {
    const [a, b] = lookUp(ends, e)
    return a === b
  })
  const placed = nets.drawn.filter((e) => !shorted.includes(e))

  const island = islandsOf(
    placed.map((e) => lookUp(ends, e)),
    nets.joined.length,
  )
  const groupOf = new Map<Element, number>()
  const groups: Element[][] = []
  const numbers = new Map<number | string, number>()
  for (const e of placed) {
    const inner = lookUp(ends, e).find((s) => typeof s === 'number')
    // An element straight between two rails is a group of its own.
    const of = inner === undefined ? `alone ${e.id}` : island(inner)
    const number = numbers.get(of) ?? groups.length
    numbers.set(of, number)
    groupOf.set(e, number)
    const members = groups[number]
    if (members) members.push(e)
    else groups.push([e])
  }

  const leftOf: string[][] = []
  const rank = new Map<Spot, number>()
  const potential = new Map<Spot, number>()
  const rankIn: Map<Spot, number>[] = []
  groups.forEach((members, g) => {
    const { left, level, order } = rankSpots(members, (e) => lookUp(ends, e), poles, leading)
    leftOf[g] = left
    rankIn[g] = order
    for (const [spot, v] of level) if (typeof spot === 'number') potential.set(spot, v)
    for (const [spot, v] of order) if (typeof spot === 'number') rank.set(spot, v)
  })

  const side = (element: Element, head: string): 'left' | 'right' =>
    leftOf[groupOf.get(element) ?? -1]?.includes(head) ? 'left' : 'right'
  const sided = (e: Element, spot: Spot): Spot => (typeof spot === 'number' ? spot : `${side(e, spot)}:${spot}`)
  const flips = new Map<Element, boolean>()
  for (const e of placed) {
    const order = rankIn[lookUp(groupOf, e)] ?? new Map<Spot, number>()
    const [a, b] = lookUp(ends, e)
    flips.set(e, lookUp(order, a) > lookUp(order, b))
  }

  // A changeover stands as one where both throws hang on the same side of the blade.
  const byId = new Map(placed.map((e) => [e.id, e]))
  const otherOf = new Map<Element, Element>()
  const taken = new Set<Element>()
  for (const e of placed) {
    const first = e.throwOf === undefined ? undefined : byId.get(e.throwOf)
    if (!first || first === e || taken.has(first) || taken.has(e) || first.ends[0] !== e.ends[0]) continue
    if (flips.get(first) !== flips.get(e)) continue
    otherOf.set(first, e)
    taken.add(first).add(e)
  }
  const seconds = new Set(otherOf.values())
  const rough = placed
    .filter((e) => !seconds.has(e))
    .map((element) => {
      const other = otherOf.get(element)
      const flipped = lookUp(flips, element)
      const [a, b] = lookUp(ends, element).map((s) => sided(element, s)) as [Spot, Spot]
      const throws = other ? [b, sided(other, lookUp(ends, other)[1])] : [b]
      return { element, ...(other && { other }), flipped, from: flipped ? throws : [a], to: flipped ? [a] : throws }
    })

  const into = new Map<Spot, number[]>()
  const outOf = new Map<Spot, number[]>()
  rough.forEach((unit, i) => {
    for (const s of unit.to) if (typeof s === 'number') push(into, s, i)
    for (const s of unit.from) if (typeof s === 'number') push(outOf, s, i)
  })
  const depth = longest(rough.length, (i) => (rough[i]?.from ?? []).flatMap((s) => into.get(s) ?? []))
  const height = longest(rough.length, (i) => (rough[i]?.to ?? []).flatMap((s) => outOf.get(s) ?? []))
  const columns = Math.max(0, ...depth.map((d, i) => d + (height[i] ?? 0) + 1))
  const level = (spot: Spot) =>
    typeof spot === 'number' ? (potential.get(spot) ?? 1) : spot.startsWith('left:') ? 1 : 0
  const column = (unit: (typeof rough)[number], i: number) =>
    Math.min(...unit.to.map(level)) < behindLoad ? columns - 1 - (height[i] ?? 0) : (depth[i] ?? 0)
  const units = rough.map((unit, i): Unit => {
    // A secondary stands under its primary.
    const primary = rough.findIndex((r) => r.element.id === unit.element.coupled?.primary)
    const above = rough[primary]
    return { ...unit, column: above ? column(above, primary) : column(unit, i) }
  })
  return { units, shorted, columns, side }
}

/** Numbers of the groups that elements join spots into; rails join nothing. */
function islandsOf(ends: readonly (readonly [Spot, Spot])[], count: number): (spot: number) => number {
  const root = Array.from({ length: count }, (_, i) => i)
  const find = (i: number): number => {
    let at = i
    while (root[at] !== at) at = root[at] ?? at
    root[i] = at
    return at
  }
  for (const [a, b] of ends) if (typeof a === 'number' && typeof b === 'number') root[find(b)] = find(a)
  return find
}

interface Ranked {
  /** Rails of this group that stand at the left. */
  readonly left: string[]
  readonly level: ReadonlyMap<Spot, number>
  /** A strict order of the spots; current is drawn from low to high, so the drawing has no loops. */
  readonly order: Map<Spot, number>
}

function rankSpots(
  members: readonly Element[],
  endsOf: (e: Element) => readonly [Spot, Spot],
  poles: readonly string[],
  leading: ReadonlySet<string>,
): Ranked {
  const spots = [...new Set(members.flatMap(endsOf))]
  const rails = spots.filter((s): s is string => typeof s === 'string')
  rails.sort((a, b) => poleRank(poles, a) - poleRank(poles, b))
  const next = new Map<Spot, { to: Spot; by: Element }[]>()
  for (const by of members) {
    const [a, b] = endsOf(by)
    push(next, a, { to: b, by })
    push(next, b, { to: a, by })
  }
  const neighbours = (s: Spot) => next.get(s) ?? []
  const fixed = new Map<Spot, number>()
  const first = rails.find((r) => leading.has(r)) ?? rails[0]
  // A lone return keeps its side; of two returns without a first pole, the earlier takes the left.
  const alone = rails.length === 1 && first !== undefined && !leading.has(first)
  if (first !== undefined) for (const r of rails) fixed.set(r, r === first && !alone ? 1 : 0)
  else {
    const start = spots[0]
    if (start !== undefined) {
      const far = farthest(start, neighbours)
      const opposite = farthest(far, neighbours)
      // Of the two far ends, the one typed first stands at the left.
      const leftFirst = spots.indexOf(far) < spots.indexOf(opposite)
      fixed.set(leftFirst ? far : opposite, 1)
      if (far !== opposite) fixed.set(leftFirst ? opposite : far, 0)
    }
  }
  const level = potentials(spots, members, endsOf, fixed)
  const fromHigh = distances(
    [...fixed].filter(([, v]) => v === 1).map(([s]) => s),
    neighbours,
  )
  const fromLow = distances(
    [...fixed].filter(([, v]) => v === 0).map(([s]) => s),
    neighbours,
  )
  const sortKey = (s: Spot) => {
    const v = Math.round((level.get(s) ?? 0) * 1e6) / 1e6
    // Where no current runs, a branch leads away from the first pole, and towards a return.
    return { v, tie: v >= 0.5 ? (fromHigh.get(s) ?? 0) : -(fromLow.get(s) ?? 0) }
  }
  const keys = new Map(spots.map((s) => [s, sortKey(s)]))
  const sorted = spots
    .map((s, i) => ({ s, i, k: lookUp(keys, s) }))
    .sort((a, b) => b.k.v - a.k.v || a.k.tie - b.k.tie || a.i - b.i)
  return {
    left: rails.filter((r) => fixed.get(r) === 1),
    level,
    order: new Map(sorted.map(({ s }, i) => [s, i])),
  }
}

function poleRank(poles: readonly string[], name: string): number {
  const at = poles.indexOf(name)
  return at < 0 ? poles.length : at
}

function distances(from: readonly Spot[], neighbours: (s: Spot) => readonly { to: Spot }[]): Map<Spot, number> {
  const found = new Map<Spot, number>(from.map((s) => [s, 0]))
  const queue = [...from]
  for (let i = 0; i < queue.length; i++) {
    const at = queue[i]
    if (at === undefined) break
    for (const { to } of neighbours(at)) {
      if (found.has(to)) continue
      found.set(to, (found.get(at) ?? 0) + 1)
      queue.push(to)
    }
  }
  return found
}

function farthest(from: Spot, neighbours: (s: Spot) => readonly { to: Spot }[]): Spot {
  let best = from
  let most = 0
  for (const [spot, d] of distances([from], neighbours)) {
    if (d > most) {
      most = d
      best = spot
    }
  }
  return best
}

/** Potentials with some held: conjugate gradients on the free spots. */
function potentials(
  spots: readonly Spot[],
  members: readonly Element[],
  endsOf: (e: Element) => readonly [Spot, Spot],
  fixed: ReadonlyMap<Spot, number>,
): ReadonlyMap<Spot, number> {
  const free = spots.filter((s) => !fixed.has(s))
  const at = new Map(free.map((s, i) => [s, i]))
  const n = free.length
  const diagonal = new Float64Array(n)
  const right = new Float64Array(n)
  const links: { a: number; b: number; g: number }[] = []
  for (const e of members) {
    const [s, t] = endsOf(e)
    const g = 1 / (e.role === 'load' || e.role === 'passive' ? loadOhms : contactOhms)
    const a = at.get(s)
    const b = at.get(t)
    if (a !== undefined) diagonal[a] = (diagonal[a] ?? 0) + g
    if (b !== undefined) diagonal[b] = (diagonal[b] ?? 0) + g
    if (a !== undefined && b !== undefined) links.push({ a, b, g })
    else if (a !== undefined) right[a] = (right[a] ?? 0) + g * (fixed.get(t) ?? 0)
    else if (b !== undefined) right[b] = (right[b] ?? 0) + g * (fixed.get(s) ?? 0)
  }
  const times = (v: Float64Array) => {
    const out = v.map((x, i) => x * (diagonal[i] ?? 0))
    for (const { a, b, g } of links) {
      out[a] = (out[a] ?? 0) - g * (v[b] ?? 0)
      out[b] = (out[b] ?? 0) - g * (v[a] ?? 0)
    }
    return out
  }
  const dot = (u: Float64Array, v: Float64Array) => u.reduce((sum, x, i) => sum + x * (v[i] ?? 0), 0)
  const scaled = (v: Float64Array) => v.map((r, i) => r / (diagonal[i] || 1))
  const x = new Float64Array(n)
  let residual = Float64Array.from(right)
  let step = scaled(residual)
  let size = dot(residual, step)
  for (let i = 0; i < 4 * n + 50 && size > 1e-24; i++) {
    const along = times(step)
    const alpha = size / dot(step, along)
    for (let j = 0; j < n; j++) x[j] = (x[j] ?? 0) + alpha * (step[j] ?? 0)
    residual = residual.map((r, j) => r - alpha * (along[j] ?? 0))
    const z = scaled(residual)
    const fresh = dot(residual, z)
    const last = step
    const beta = fresh / size
    step = z.map((v, j) => v + beta * (last[j] ?? 0))
    size = fresh
  }
  const all = new Map<Spot, number>(fixed)
  for (const [s, i] of at) all.set(s, x[i] ?? 0)
  return all
}

/** Longest path to each of `count` things from those that nothing comes before. */
function longest(count: number, before: (i: number) => readonly number[]): number[] {
  const out = new Array<number>(count).fill(-1)
  for (let start = 0; start < count; start++) {
    const stack = [start]
    while (stack.length > 0) {
      const i = stack[stack.length - 1] ?? 0
      const open = before(i).filter((j) => (out[j] ?? 0) < 0)
      if (open.length > 0) stack.push(...open)
      else {
        out[i] = Math.max(-1, ...before(i).map((j) => out[j] ?? 0)) + 1
        stack.pop()
      }
    }
  }
  return out
}

function push<K, V>(map: Map<K, V[]>, at: K, value: V): void {
  const list = map.get(at)
  if (list) list.push(value)
  else map.set(at, [value])
}

/** The value at a key that must be there; a missing one is a bug of ours. */
export function lookUp<K, V>(map: ReadonlyMap<K, V>, at: K): V {
  const value = map.get(at)
  if (value === undefined) throw new Error(`nothing is kept for ${JSON.stringify(at)}`)
  return value
}
