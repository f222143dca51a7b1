import fc from 'fast-check'
import { expect, it } from 'vitest'
import { nearest } from './index.ts'
import { distance } from './nearest.ts'

/** The definition itself: the cheapest of four last steps. */
function plainDistance(a: string, b: string): number {
  if (a === '' || b === '') return a.length + b.length
  const step = plainDistance(a.slice(0, -1), b.slice(0, -1)) + (a.at(-1) === b.at(-1) ? 0 : 1)
  const swapped = a.length > 1 && b.length > 1 && a.at(-1) === b.at(-2) && a.at(-2) === b.at(-1)
  return Math.min(
    step,
    plainDistance(a.slice(0, -1), b) + 1,
    plainDistance(a, b.slice(0, -1)) + 1,
    swapped ? plainDistance(a.slice(0, -2), b.slice(0, -2)) + 1 : Number.POSITIVE_INFINITY,
  )
}

const word = fc.string({ unit: fc.constantFrom('a', 'b', 'c'), maxLength: 6 })

it('[N15] slips are counted as a plain twin counts them', () => {
  fc.assert(
    fc.property(word, word, fc.nat(7), (a, b, limit) => {
      const slips = plainDistance(a, b)
      expect(distance(a, b)).toBe(slips)
      expect(distance(a, b, limit)).toBe(Math.min(slips, limit))
      expect(distance(b, a)).toBe(slips)
    }),
    { seed: 11, numRuns: 2000 },
  )
})

it('[N15] of several as near the first is meant', () => {
  expect(nearest('F3', ['TF', 'F1', 'F2'])).toBe('F1')
  expect(nearest('F3', ['F2', 'F1'])).toBe('F2')
  expect(nearest('f1', ['F2', 'F1'])).toBe('F1')
})

it('[N15] very long words are no slips, and cost nothing', () => {
  const start = performance.now()
  expect(
    nearest(
      'a'.repeat(1e6),
      Array.from({ length: 100 }, () => 'b'.repeat(1e6)),
    ),
  ).toBeUndefined()
  expect(performance.now() - start).toBeLessThan(1000)
})
