import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { minimalCuts, minimalHittingSets, minimalPaths } from './index.ts'

const letters = ['a', 'b', 'c', 'd', 'e', 'f', 'g', 'h', 'i']

/** Every subset, in no helpful order. */
function subsets<T>(members: readonly T[]): T[][] {
  return Array.from({ length: 2 ** members.length }, (_, mask) => members.filter((_, i) => mask & (2 ** i)))
}

function contains<T>(outer: readonly T[], inner: readonly T[]): boolean {
  return inner.every((member) => outer.includes(member))
}

/** Those of `sets` that have no proper subset among them: the definition, to the letter. */
function minimal<T>(sets: readonly (readonly T[])[]): (readonly T[])[] {
  return sets.filter((set) => !sets.some((other) => other.length < set.length && contains(set, other)))
}

function sorted(sets: readonly (readonly string[])[]): string[] {
  return sets.map((set) => set.join('')).sort((x, y) => x.length - y.length || (x < y ? -1 : 1))
}

/** Members, and for each of their subsets whether it works removed; every function of that kind, not only tame ones. */
const anyFunction = fc.integer({ min: 0, max: 9 }).chain((count) =>
  fc.record({
    members: fc.constant(letters.slice(0, count)),
    failing: fc.oneof(
      fc.uniqueArray(fc.integer({ min: 0, max: 2 ** count - 1 }), { maxLength: 12 }),
      fc.uniqueArray(fc.integer({ min: 0, max: 2 ** count - 1 }), { maxLength: 2 ** count }),
    ),
  }),
)

/** Fails exactly when one of a few sets is removed altogether: monotone. */
const monotoneFunction = fc.integer({ min: 0, max: 9 }).chain((count) =>
  fc.record({
    members: fc.constant(letters.slice(0, count)),
    fatal: fc.array(fc.subarray(letters.slice(0, count)), { maxLength: 8 }),
  }),
)

function maskOf(removed: readonly string[]): number {
  return removed.reduce((mask, letter) => mask + 2 ** letters.indexOf(letter), 0)
}

describe('minimalCuts', () => {
  it.each<[string, (removed: readonly string[]) => boolean, string[]]>([
    ['a string of three', (r) => r.length === 0, ['a', 'b', 'c']],
    [
      'two in parallel after one in series',
      (r) => !r.includes('a') && !(r.includes('b') && r.includes('c')),
      ['a', 'bc'],
    ],
    ['nothing that matters', () => true, []],
    ['what fails anyway', () => false, ['']],
    ['a removal cured by a second one, alone still a cut', (r) => r.join('') !== 'a', ['a']],
    ['a pair that fails though the three work', (r) => r.join('') !== 'bc', ['bc']],
  ])('%s', (_, works, expected) => {
    const { sets, complete } = minimalCuts(works, ['a', 'b', 'c'])
    expect(sorted(sets)).toEqual(expected)
    expect(complete).toBe(true)
  })

  it('finds what the definition says of any function, monotone or not', () => {
    fc.assert(
      fc.property(anyFunction, ({ members, failing }) => {
        const fails = new Set(failing)
        const { sets, complete } = minimalCuts((removed) => !fails.has(maskOf(removed)), members)
        expect(sorted(sets)).toEqual(sorted(minimal(subsets(members).filter((set) => fails.has(maskOf(set))))))
        expect(complete).toBe(true)
      }),
      { seed: 11, numRuns: 300 },
    )
  })

  it('finds the same by duality as level by level where the function is monotone', () => {
    fc.assert(
      fc.property(monotoneFunction, ({ members, fatal }) => {
        const works = (removed: readonly string[]) => !fatal.some((set) => contains(removed, set))
        const plain = minimalCuts(works, members)
        const fast = minimalCuts(works, members, { monotone: true })
        expect(fast).toEqual(plain)
        expect(sorted(plain.sets)).toEqual([...new Set(sorted(minimal(fatal)))])
      }),
      { seed: 12, numRuns: 500 },
    )
  })

  it('lists what fits a size, and vouches for the rest only when it may', () => {
    fc.assert(
      fc.property(anyFunction, fc.integer({ min: 0, max: 4 }), ({ members, failing }, maxSize) => {
        const fails = new Set(failing)
        const works = (removed: readonly string[]) => !fails.has(maskOf(removed))
        const every = minimalCuts(works, members)
        const few = minimalCuts(works, members, { maxSize })
        expect(few.sets).toEqual(every.sets.filter((set) => set.length <= maxSize))
        if (few.complete) expect(few.sets).toEqual(every.sets)
        const inDoubt = subsets(members).some(
          (set) => set.length > maxSize && !few.sets.some((cut) => contains(set, cut)),
        )
        expect(few.complete).toBe(!inDoubt)
      }),
      { seed: 13, numRuns: 300 },
    )
  })

  it('keeps to size and truth by duality too', () => {
    fc.assert(
      fc.property(monotoneFunction, fc.integer({ min: 0, max: 4 }), ({ members, fatal }, maxSize) => {
        const works = (removed: readonly string[]) => !fatal.some((set) => contains(removed, set))
        const every = minimalCuts(works, members)
        const few = minimalCuts(works, members, { monotone: true, maxSize })
        expect(few.sets).toEqual(every.sets.filter((set) => set.length <= maxSize))
        if (few.complete) expect(few.sets).toEqual(every.sets)
      }),
      { seed: 14, numRuns: 300 },
    )
  })

  it.each([false, true])('stops when the calls are spent, with minimal sets alone (monotone: %s)', (monotone) => {
    fc.assert(
      fc.property(monotoneFunction, fc.integer({ min: 0, max: 40 }), ({ members, fatal }, maxCalls) => {
        let calls = 0
        const works = (removed: readonly string[]) => {
          calls++
          return !fatal.some((set) => contains(removed, set))
        }
        const found = minimalCuts(works, members, { maxCalls, monotone })
        expect(calls).toBeLessThanOrEqual(maxCalls)
        const every = sorted(minimalCuts(works, members).sets)
        for (const set of sorted(found.sets)) expect(every).toContain(set)
        if (found.complete) expect(sorted(found.sets)).toEqual(every)
      }),
      { seed: 15, numRuns: 200 },
    )
  })

  it('passes on an error of the question', () => {
    const works = () => {
      throw new Error('no such part')
    }
    expect(() => minimalCuts(works, ['a'])).toThrow('no such part')
  })

  it('asks once about a candidate named twice', () => {
    expect(minimalCuts((removed) => removed.length === 0, ['a', 'b', 'a']).sets).toEqual([['a'], ['b']])
  })

  it('answers a long ladder by duality where subsets are past counting', () => {
    // Twenty rungs of two in parallel, in series: 20 cuts of 2, and 2^40 subsets.
    const members = Array.from({ length: 40 }, (_, i) => i)
    const works = (removed: readonly number[]) => {
      const gone = new Set(removed)
      return members.every((i) => i % 2 === 1 || !(gone.has(i) && gone.has(i + 1)))
    }
    const pairs = members.filter((i) => i % 2 === 0).map((i) => [i, i + 1])
    expect(minimalCuts(works, members, { maxSize: 2, monotone: true }).sets).toEqual(pairs)
    expect(minimalCuts(works, members, { maxSize: 2 }).sets).toEqual(pairs)
  })
})

describe('minimalPaths', () => {
  it('lists the smallest sets that are enough, for any function', () => {
    fc.assert(
      fc.property(anyFunction, ({ members, failing }) => {
        const fails = new Set(failing)
        const enough = subsets(members).filter(
          (kept) => !fails.has(maskOf(members.filter((member) => !kept.includes(member)))),
        )
        const found = minimalPaths((removed) => !fails.has(maskOf(removed)), members)
        expect(sorted(found.sets)).toEqual(sorted(minimal(enough)))
      }),
      { seed: 16, numRuns: 200 },
    )
  })

  it('is the dual of the cuts where the function is monotone', () => {
    fc.assert(
      fc.property(monotoneFunction, ({ members, fatal }) => {
        const works = (removed: readonly string[]) => !fatal.some((set) => contains(removed, set))
        const cuts = sorted(minimalCuts(works, members).sets)
        const paths = sorted(minimalPaths(works, members, { monotone: true }).sets)
        expect(sorted(minimalHittingSets(paths.map((path) => [...path])).sets.map((set) => [...set].sort()))).toEqual(
          cuts,
        )
        expect(sorted(minimalHittingSets(cuts.map((cut) => [...cut])).sets.map((set) => [...set].sort()))).toEqual(
          paths,
        )
      }),
      { seed: 17, numRuns: 200 },
    )
  })
})

describe('minimalHittingSets', () => {
  const someFamilies = fc.array(fc.subarray(letters.slice(0, 8)), { maxLength: 7 })

  it('finds what the definition says', () => {
    fc.assert(
      fc.property(someFamilies, (families) => {
        const hits = subsets(letters).filter((set) => families.every((family) => family.some((m) => set.includes(m))))
        const found = minimalHittingSets(families)
        expect(sorted(found.sets.map((set) => [...set].sort()))).toEqual(sorted(minimal(hits)))
        expect(found.complete).toBe(true)
      }),
      { seed: 18, numRuns: 300 },
    )
  })

  it('lists those that fit a size, and says when larger ones may be missing', () => {
    fc.assert(
      fc.property(someFamilies, fc.integer({ min: 0, max: 4 }), (families, maxSize) => {
        const every = minimalHittingSets(families)
        const few = minimalHittingSets(families, { maxSize })
        expect(few.sets).toEqual(every.sets.filter((set) => set.length <= maxSize))
        if (few.complete) expect(few.sets).toEqual(every.sets)
      }),
      { seed: 19, numRuns: 300 },
    )
  })

  it('hits no families with nothing, and an empty one with nothing at all', () => {
    expect(minimalHittingSets([]).sets).toEqual([[]])
    expect(minimalHittingSets([['a'], []]).sets).toEqual([])
  })
})
