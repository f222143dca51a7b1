// node electron/run.mjs TASK [arguments]: installs what is missing, then runs the task.
import path from 'node:path'
import { pathToFileURL } from 'node:url'
import { ensureDependencies, root } from './setup.mjs'

const TASKS = new Map([
  ['start', 'electron/start.mjs'],
  ['build', 'electron/build.mjs'],
  ['test', 'tests/test.mjs'],
  ['check', 'tests/check.mjs'],
])

const [name = '', ...args] = process.argv.slice(2)
const task = TASKS.get(name)
if (task === undefined) {
  console.error(`usage: node electron/run.mjs ${[...TASKS.keys()].join('|')}`)
  process.exit(2)
}
ensureDependencies()
process.chdir(root)
const file = path.join(root, task)
process.argv = [process.execPath, file, ...args]
await import(pathToFileURL(file).href) // only now may packages be imported
