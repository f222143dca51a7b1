import { expect, it } from 'vitest'
import { totals } from './totals.mjs'

const vitest = { numPassedTests: 3, numFailedTests: 0, numPendingTests: 1, numTodoTests: 1 }
const playwright = { stats: { expected: 2, flaky: 1, unexpected: 0, skipped: 4 } }

it('adds up both runners', () => {
  expect(totals({ status: 0, report: vitest }, { status: 0, report: playwright })).toEqual({
    passed: 6,
    failed: 0,
    skipped: 6,
  })
})

it.each([
  ['ended with an error although no test failed', { status: 1, report: vitest }],
  ['was killed', { status: null, report: vitest }],
  ['left no report', { status: 0, report: undefined }],
])('counts a runner that %s as one failure', (_what, crashed) => {
  expect(totals(crashed, { status: 0, report: playwright }).failed).toBe(1)
})

it('counts each failed test once', () => {
  const failing = { ...vitest, numFailedTests: 2 }
  const unexpected = { stats: { ...playwright.stats, unexpected: 3 } }
  expect(totals({ status: 1, report: failing }, { status: 1, report: unexpected }).failed).toBe(5)
})
