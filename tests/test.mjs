// npm test: builds what changed, runs Vitest and Playwright, and closes with one line for people and machines.
import { spawnSync } from 'node:child_process'
import { mkdirSync, readFileSync, rmSync } from 'node:fs'
import path from 'node:path'
import { ensureBuilt, root } from '../electron/setup.mjs'
import { ensureBrowser } from './browser.mjs'
import { totals } from './totals.mjs'

const MINUTES = 15 // for each runner

const output = path.join(root, 'test-output')
rmSync(output, { recursive: true, force: true })
mkdirSync(output)
if (!ensureBuilt() || !ensureBrowser()) {
  console.log('\n0 passed, 1 failed, 0 skipped')
  process.exit(1)
}

/**
 * @param {string} report
 * @param {string[]} args
 */
function run(report, ...args) {
  const { status } = spawnSync(process.execPath, args, {
    cwd: root,
    stdio: 'inherit',
    timeout: MINUTES * 60_000,
    killSignal: 'SIGKILL',
  })
  return { status, report: json(path.join(output, report)) }
}

/** @param {string} file */
function json(file) {
  try {
    return JSON.parse(readFileSync(file, 'utf8'))
  } catch {
    return undefined // the runner ended before it could report
  }
}

const vitest = run(
  'vitest.json',
  'node_modules/vitest/vitest.mjs',
  'run',
  '--reporter=default',
  '--reporter=./tests/skip-reasons.mjs',
  '--reporter=json',
  '--outputFile.json=test-output/vitest.json',
)
const playwright = run(
  'playwright.json',
  'node_modules/@playwright/test/cli.js',
  'test',
  '--config=tests/playwright.config.ts',
)

const { passed, failed, skipped } = totals(vitest, playwright)
console.log(`\n${passed} passed, ${failed} failed, ${skipped} skipped`)
process.exitCode = failed === 0 && passed > 0 ? 0 : 1
