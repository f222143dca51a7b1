import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { minimumDegree, planElimination, slotBetween } from './elimination.ts'

const anyPairs = fc.integer({ min: 1, max: 16 }).chain((size) =>
  fc.record({
    size: fc.constant(size),
    pairs: fc.array(fc.tuple(fc.nat(size - 1), fc.nat(size - 1)), { maxLength: 40 }),
  }),
)

/** The elimination game, played with sets: each node taken joins all its later neighbours. */
function play(size: number, pairs: readonly (readonly [number, number])[]): number[][] {
  const joined = Array.from({ length: size }, () => new Set<number>())
  for (const [a, b] of pairs) if (a !== b) joined[Math.min(a, b)]?.add(Math.max(a, b))
  return joined.map((set) => {
    const rows = [...set].sort((x, y) => x - y)
    rows.forEach((row, i) => {
      for (const later of rows.slice(i + 1)) joined[row]?.add(later)
    })
    return rows
  })
}

describe('planElimination', () => {
  it('has the joints of the elimination game, and leads where it leads', () => {
    fc.assert(
      fc.property(anyPairs, ({ size, pairs }) => {
        const plan = planElimination(size, pairs)
        const expected = play(size, pairs)
        expect(expected.map((_, k) => [...plan.rows.subarray(plan.start[k], plan.start[k + 1])])).toEqual(expected)
        let t = 0
        for (const rows of expected) {
          rows.forEach((row, i) => {
            for (const later of rows.slice(i + 1)) expect(plan.targets[t++]).toBe(slotBetween(plan, later, row))
          })
        }
        expect(plan.targets.length).toBe(t)
      }),
      { seed: 21, numRuns: 300 },
    )
  })

  it('has no slot between what never meets', () => {
    const plan = planElimination(4, [
      [0, 3],
      [1, 2],
    ])
    expect(slotBetween(plan, 0, 1)).toBe(-1)
    expect(slotBetween(plan, 2, 3)).toBe(-1)
    expect(slotBetween(plan, 3, 0)).toBe(0)
  })
})

describe('minimumDegree', () => {
  it('names every node once', () => {
    fc.assert(
      fc.property(anyPairs, ({ size, pairs }) => {
        expect([...minimumDegree(size, pairs)].sort((a, b) => a - b)).toEqual([...Array(size).keys()])
      }),
      { seed: 22 },
    )
  })

  it('joins nothing new in a tree, however its nodes are numbered', () => {
    fc.assert(
      fc.property(fc.array(fc.nat(), { minLength: 1, maxLength: 40 }), (choices) => {
        const size = choices.length + 1
        const tree = choices.map((choice, i): [number, number] => [size - 2 - i, size - 1 - (choice % (i + 1))])
        const position = new Map([...minimumDegree(size, tree)].map((node, k) => [node, k]))
        const placed = tree.map(([a, b]): [number, number] => [position.get(a) ?? -1, position.get(b) ?? -1])
        expect(planElimination(size, placed).rows.length).toBe(size - 1)
      }),
      { seed: 23 },
    )
  })
})
