// npm run check: types, lint and format, unused code, import direction. Runs all of them, whatever fails.
import { spawnSync } from 'node:child_process'

// Where its output is kept, Biome colours every letter.
const plain = process.stdout.isTTY ? [] : ['--colors=off']

/** @type {[string, string[]][]} */
const STEPS = [
  ['types', ['node_modules/typescript/bin/tsc', '-b']],
  ['lint and format', ['node_modules/@biomejs/biome/bin/biome', 'ci', '--error-on-warnings', ...plain, '.']],
  ['unused code', ['node_modules/knip/bin/knip.js']],
  ['import direction', ['tests/import-direction.mjs']],
]
const failed = STEPS.filter(([name, args]) => {
  console.log(`── ${name}`)
  return spawnSync(process.execPath, args, { stdio: 'inherit' }).status !== 0
})
if (failed.length > 0) console.error(`\nfailed: ${failed.map(([name]) => name).join(', ')}`)
process.exitCode = failed.length > 0 ? 1 : 0
