/** A reporter for both runners, whose own reporters keep quiet about why a test was skipped. */
export default class SkipReasons {
  /** @type {Map<string, number>} */
  #counts = new Map()

  /**
   * Playwright's.
   * @param {import('@playwright/test/reporter').TestCase} test
   * @param {import('@playwright/test/reporter').TestResult} result
   */
  onTestEnd(test, result) {
    if (result.status !== 'skipped') return
    const annotations = [...result.annotations, ...test.annotations]
    this.#count(annotations.find(({ type }) => type === 'skip')?.description)
  }

  /** Playwright's. */
  onEnd() {
    this.#print()
  }

  /** Playwright's. */
  printsToStdio() {
    return false
  }

  /**
   * Vitest's.
   * @param {import('vitest/node').TestCase} test
   */
  onTestCaseResult(test) {
    const result = test.result()
    if (result.state === 'skipped') this.#count(result.note)
  }

  /** Vitest's. */
  onTestRunEnd() {
    this.#print()
  }

  /** @param {string | undefined} reason */
  #count(reason = 'no reason given') {
    this.#counts.set(reason, (this.#counts.get(reason) ?? 0) + 1)
  }

  #print() {
    for (const [reason, times] of this.#counts) console.log(`skipped ${times}: ${reason}`)
  }
}
