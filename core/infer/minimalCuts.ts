import type { Found } from './found.ts'
import { hitAlso, startHitting } from './hittingSets.ts'
import { bit, inOrder, isSubset, type Mask, membersOf, none } from './sets.ts'

export interface CutOptions {
  /** The largest sets looked for; default: no limit. */
  readonly maxSize?: number
  /** How often `works` may be asked; default 100,000. */
  readonly maxCalls?: number
  /**
   * Whether removing more never makes it work again. Then far fewer questions are enough; if it is claimed wrongly
   * the answer is wrong.
   */
  readonly monotone?: boolean
}

const DEFAULT_CALLS = 100_000

/**
 * All inclusion-minimal sets of candidates whose joint removal makes it fail: sets that fail of which no proper subset
 * does. `[[]]` when it fails with nothing removed. `works` must always answer the same to the same removal, which it
 * is given in the order of `candidates`; it may be non-monotone (removing a shunt may cure) unless `monotone` is said.
 *
 * Every set listed is minimal, whatever ran out. `complete` is true only when every subset of the candidates, of any
 * size, is known either to work or to contain a listed set: nothing unlisted can exist, and nothing larger. It is
 * false when the calls or `maxSize` ran out before that was known, even if none is missing in fact.
 */
export function minimalCuts<T>(
  works: (removed: readonly T[]) => boolean,
  candidates: readonly T[],
  options: CutOptions = {},
): Found<T> {
  const members = [...new Set(candidates)]
  const { maxSize = Number.POSITIVE_INFINITY, maxCalls = DEFAULT_CALLS, monotone = false } = options
  let calls = 0
  const ask = (removed: Mask): boolean => {
    if (calls++ >= maxCalls) throw outOfCalls
    return works(membersOf(members, removed))
  }
  const cuts: Mask[] = []
  let complete = false
  try {
    complete = (monotone ? byDuality : levelByLevel)(ask, members.length, maxSize, cuts)
  } catch (stopped) {
    if (stopped !== outOfCalls) throw stopped
  }
  return { sets: inOrder(cuts).map((mask) => membersOf(members, mask)), complete }
}

/**
 * All inclusion-minimal sets of candidates that are enough: with every other candidate removed it works, and with a
 * proper subset alone it does not. The dual of `minimalCuts`, with the same options and the same `complete`; where
 * `works` is monotone, either are the minimal hitting sets of the other.
 */
export function minimalPaths<T>(
  works: (removed: readonly T[]) => boolean,
  candidates: readonly T[],
  options: CutOptions = {},
): Found<T> {
  const members = [...new Set(candidates)]
  const fails = (kept: readonly T[]) => {
    const keeps = new Set(kept)
    return !works(members.filter((member) => !keeps.has(member)))
  }
  return minimalCuts(fails, members, options)
}

type Search = (works: (removed: Mask) => boolean, count: number, maxSize: number, cuts: Mask[]) => boolean

const outOfCalls = Symbol('out of calls')

/** Every subset, by size, that contains no cut found before it. Holds for any `works`. */
const levelByLevel: Search = (works, count, maxSize, cuts) => {
  for (let size = 0; size <= count; size++) {
    const smaller = cuts.length
    let met = false
    forEachSubset(count, size, cuts.slice(0, smaller), (subset) => {
      met = true
      if (size > maxSize) return 'stop'
      if (!works(subset)) cuts.push(subset)
      return 'go on'
    })
    if (!met) return true
    if (size > maxSize) return false
  }
  return true
}

/** Visits the subsets of 0…count−1 of one size that contain none of `excluded`. */
function forEachSubset(
  count: number,
  size: number,
  excluded: readonly Mask[],
  visit: (subset: Mask) => 'stop' | 'go on',
): void {
  const endingAt = Array.from({ length: count }, (): Mask[] => [])
  for (const mask of excluded) {
    if (mask === none) return
    endingAt[mask.toString(2).length - 1]?.push(mask)
  }
  const grow = (subset: Mask, next: number, left: number): 'stop' | 'go on' => {
    if (left === 0) return visit(subset)
    for (let i = next; i <= count - left; i++) {
      const larger = subset | bit(i)
      // An excluded set can only have been completed by its last member.
      if (endingAt[i]?.some((mask) => isSubset(mask, larger))) continue
      if (grow(larger, i + 1, left - 1) === 'stop') return 'stop'
    }
    return 'go on'
  }
  grow(none, 0, size)
}

/**
 * For monotone `works`: a minimal hitting set of the paths known so far either fails, and is a minimal cut (each of
 * its members spares a path that would work), or works, and what is left contains a path not known yet. When all
 * fail, they are all there are: any cut hits every path. (Gunopulos, Khardon, Mannila and others, Discovering All Most
 * Specific Sentences, ACM Transactions on Database Systems 28, 2003.) Asks once a cut and about once a candidate per path.
 */
const byDuality: Search = (works, count, maxSize, cuts) => {
  const all = bit(count) - 1n
  const failing = new Set<Mask>()
  let hitting = startHitting(maxSize)
  for (let settled = false; !settled; ) {
    settled = true
    for (const next of inOrder(hitting.sets.filter((set) => !failing.has(set)))) {
      if (works(next)) {
        hitting = hitAlso(hitting, shrinkToPath(works, all, all & ~next))
        settled = false
        break
      }
      failing.add(next)
      cuts.push(next)
    }
  }
  return hitting.complete
}

/** A minimal path within `enough`, dropping candidates one by one where the rest still works. */
function shrinkToPath(works: (removed: Mask) => boolean, all: Mask, enough: Mask): Mask {
  let path = enough
  for (let member = 1n; member <= path; member <<= 1n) {
    if (path & member && works(all & ~(path & ~member))) path &= ~member
  }
  return path
}
