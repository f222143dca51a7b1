import { minimalCuts } from '../infer/index.ts'
import type { Frozen } from './frozen.ts'
import type { LoadNeeds } from './needs.ts'

/** The largest groups that are listed. */
const LARGEST = 4
/** Up to so many choices every group of any size is looked at, so that `complete` is known. */
const LOOK_AT_ALL = 10
/** How many groups are tried where loads that share only wires and supply feel each other after all. */
const TRIED_WHEN_COUPLED = 20_000

export interface AnyOf {
  readonly groups: readonly (readonly number[])[]
  readonly complete: boolean
}

/**
 * Smallest groups of two to four conducting elements, wires apart, whose joint opening stops the load though none alone
 * does.
 *
 * Two things save work; `anyOfPlain` is the same without them. Elements in series are one choice: where a net joins just
 * two of them, opening either is the same to all others. And elements that share only wires and supply with the load's
 * own stretch are left alone: what they do to it lies between all of them closed and all of them open, so the load must
 * be kept in both. Where it is not, they are looked at too.
 */
export function anyOf(frozen: Frozen, load: number, needs: LoadNeeds): AnyOf {
  const nets = netsOf(frozen)
  const stretch = stretchOf(frozen, load, nets)
  const outside = joined(frozen).filter((i) => !stretch.has(i))
  const candidates = candidatesFor(frozen, load, needs)
  let coupled = false
  const works = (opened: readonly (readonly number[])[]): boolean => {
    const elements = opened.flatMap((choice) => choice[0] ?? [])
    const kept = frozen.keeps(load, frozen.without(elements))
    if (kept && outside.length > 0 && !coupled) {
      coupled = !frozen.keeps(load, frozen.without([...elements, ...outside]))
    }
    return kept
  }
  const within = seriesOf(
    frozen,
    candidates.filter((i) => stretch.has(i)),
    nets,
  )
  let found = minimalCuts(works, within, within.length <= LOOK_AT_ALL ? {} : { maxSize: LARGEST })
  if (coupled) {
    const all = seriesOf(frozen, candidates, nets)
    found = minimalCuts(works, all, { maxSize: LARGEST, maxCalls: TRIED_WHEN_COUPLED })
  }
  const groups = found.sets.filter((set) => set.length >= 2)
  return {
    groups: groups
      .filter((set) => set.length <= LARGEST)
      .flatMap(expand)
      .map((group) => group.toSorted((a, b) => a - b)),
    complete: found.complete && groups.every((set) => set.length <= LARGEST),
  }
}

/** The same by asking of every group of elements: the twin. */
export function anyOfPlain(
  frozen: Frozen,
  load: number,
  needs: LoadNeeds,
  largest = LARGEST,
): readonly (readonly number[])[] {
  const { sets } = minimalCuts(
    (opened) => frozen.keeps(load, frozen.without(opened)),
    candidatesFor(frozen, load, needs),
    { maxSize: largest, maxCalls: Number.POSITIVE_INFINITY },
  )
  return sets.filter((set) => set.length >= 2)
}

const candidatesFor = (frozen: Frozen, load: number, needs: LoadNeeds): readonly number[] => {
  const alone = new Set([...needs.mustBeClosed, ...needs.through])
  return frozen.conducting.filter((i) => i !== load && !alone.has(i) && frozen.element(i).role !== 'wire')
}

/** One of each choice, in every way. */
const expand = (set: readonly (readonly number[])[]): readonly (readonly number[])[] =>
  set.reduce<readonly (readonly number[])[]>(
    (groups, choice) => groups.flatMap((group) => choice.map((i) => [...group, i])),
    [[]],
  )

interface Nets {
  /** Net of a node: nodes that wires join are one net. */
  readonly of: (node: number) => number
  /** Nets that a pole of the supply stands on. */
  readonly poles: ReadonlySet<number>
}

function netsOf(frozen: Frozen): Nets {
  const { wiring } = frozen
  const parent = Int32Array.from({ length: wiring.nodeCount }, (_, i) => i)
  const find = (n: number): number => {
    let at = n
    while (parent[at] !== at) at = parent[at] ?? at
    return at
  }
  wiring.elements.forEach((e, i) => {
    const [a, b] = wiring.ends[i] ?? [0, 0]
    if (e.role === 'wire' || e.role === 'source') parent[find(a)] = find(b)
  })
  return { of: find, poles: new Set(wiring.poles.map(find)) }
}

const joined = (frozen: Frozen): readonly number[] => frozen.conducting.filter((i) => frozen.element(i).role !== 'wire')

/** Conducting elements that hang together with the load without passing a pole. */
function stretchOf(frozen: Frozen, load: number, nets: Nets): ReadonlySet<number> {
  const all = joined(frozen)
  const at = new Map<number, number[]>()
  for (const i of all) {
    for (const node of frozen.wiring.ends[i] ?? []) {
      const net = nets.of(node)
      if (!nets.poles.has(net)) at.set(net, [...(at.get(net) ?? []), i])
    }
  }
  const reached = new Set([load])
  for (const i of reached) {
    for (const node of frozen.wiring.ends[i] ?? []) for (const next of at.get(nets.of(node)) ?? []) reached.add(next)
  }
  return reached
}

/** Candidates grouped by being in series: a net that joins exactly two conducting elements makes them one choice. */
function seriesOf(frozen: Frozen, candidates: readonly number[], nets: Nets): readonly (readonly number[])[] {
  const at = new Map<number, number[]>()
  for (const i of joined(frozen)) {
    for (const node of frozen.wiring.ends[i] ?? []) at.set(nets.of(node), [...(at.get(nets.of(node)) ?? []), i])
  }
  const parent = new Map<number, number>()
  const find = (i: number): number => {
    const up = parent.get(i)
    return up === undefined || up === i ? i : find(up)
  }
  for (const [net, [a, b, c]] of at) {
    if (a !== undefined && b !== undefined && c === undefined && a !== b && !nets.poles.has(net))
      parent.set(find(a), find(b))
  }
  const groups = new Map<number, number[]>()
  for (const i of candidates) groups.set(find(i), [...(groups.get(find(i)) ?? []), i])
  return [...groups.values()]
}
