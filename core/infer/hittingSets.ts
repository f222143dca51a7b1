import type { Found } from './found.ts'
import { bit, indices, inOrder, isSubset, type Mask, membersOf, none, sizeOf } from './sets.ts'

/**
 * All inclusion-minimal sets that have a member in common with every family, up to `maxSize` members (default: no
 * limit), smaller first. No families: one empty set. An empty family cannot be hit: no set at all.
 *
 * `complete` is true when no minimal hitting set is missing; with a `maxSize` it may be false though none is.
 *
 * Exact: families are taken one after the other, each minimal hitting set of those so far being kept or grown by one
 * member (Berge, Hypergraphs, 1989). Time and memory grow with the sets there are along the way, which may be many.
 */
export function minimalHittingSets<T>(
  families: readonly Iterable<T>[],
  options: { readonly maxSize?: number } = {},
): Found<T> {
  const members = [...new Set(families.flatMap((family) => [...family]))]
  const index = new Map(members.map((member, i) => [member, i]))
  let hitting: HittingSets = startHitting(options.maxSize)
  for (const family of families) {
    let mask = none
    for (const member of family) mask |= bit(index.get(member) ?? 0)
    hitting = hitAlso(hitting, mask)
  }
  return { sets: inOrder(hitting.sets).map((mask) => membersOf(members, mask)), complete: hitting.complete }
}

/** All minimal hitting sets, up to `maxSize` members, of the families met so far. */
export interface HittingSets {
  readonly sets: readonly Mask[]
  readonly maxSize: number
  /** False once a set was dropped for its size. */
  readonly complete: boolean
}

/** Those of no family. */
export function startHitting(maxSize = Number.POSITIVE_INFINITY): HittingSets {
  return { sets: [none], maxSize, complete: true }
}

/** Those of one family more. */
export function hitAlso({ sets, maxSize, complete }: HittingSets, family: Mask): HittingSets {
  const kept = sets.filter((set) => set & family)
  const missing = sets.filter((set) => !(set & family))
  const grown: Mask[] = []
  let all = complete
  for (const set of missing) {
    const full = sizeOf(set) >= maxSize
    for (const i of indices(family)) {
      const larger = set | bit(i)
      // Two grown sets never contain one another, so what was kept is all that can make one not minimal.
      if (kept.some((other) => isSubset(other, larger))) continue
      if (full) all = false
      else grown.push(larger)
    }
  }
  return { sets: [...kept, ...grown], maxSize, complete: all }
}
