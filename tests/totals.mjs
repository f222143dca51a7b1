/**
 * @typedef {{
 *   numPassedTests: number, numFailedTests: number, numPendingTests: number, numTodoTests: number
 * }} VitestReport
 * @typedef {{ stats: { expected: number, flaky: number, unexpected: number, skipped: number } }} PlaywrightReport
 */

/**
 * One count over both runners. A runner that ends with an error although none of its tests failed (it crashed, a file
 * could not be loaded, nothing was found) counts as one failure; so does one that left no report.
 * @param {{ status: number | null, report: VitestReport | undefined }} vitest
 * @param {{ status: number | null, report: PlaywrightReport | undefined }} playwright
 */
export function totals(vitest, playwright) {
  const v = vitest.report
  const p = playwright.report?.stats
  const crash = (/** @type {number | null} */ status, /** @type {number | undefined} */ failed) =>
    failed === undefined || (status !== 0 && failed === 0) ? 1 : 0
  return {
    passed: (v?.numPassedTests ?? 0) + (p ? p.expected + p.flaky : 0),
    failed:
      (v?.numFailedTests ?? 0) +
      crash(vitest.status, v?.numFailedTests) +
      (p?.unexpected ?? 0) +
      crash(playwright.status, p?.unexpected),
    skipped: (v ? v.numPendingTests + v.numTodoTests : 0) + (p?.skipped ?? 0),
  }
}
