// npm start [-- --browser] [-- --shelf DIR] [-- --port N]: a desktop window where there can be one, else the browser.
import { spawn } from 'node:child_process'
import path from 'node:path'
import { parseArgs } from 'node:util'
import { fetchElectron, findElectron, noWindowReason } from './electron-binary.mjs'
import { ensureBuilt, root } from './setup.mjs'

const { values } = parseArgs({
  options: { browser: { type: 'boolean' }, shelf: { type: 'string' }, port: { type: 'string' } },
})
if (!ensureBuilt()) process.exit(1)

let reason = values.browser ? 'you asked for the browser' : noWindowReason()
let binary = findElectron()
if (reason === undefined && binary === undefined) {
  console.error('Electron’s program is not there yet; fetching it once …')
  ;({ binary, reason } = fetchElectron())
}
// npm runs this in the project's folder; a folder that the user names is meant from where they stand.
const shelf = values.shelf === undefined ? [] : [path.resolve(process.env.INIT_CWD ?? '.', values.shelf)]

if (binary !== undefined && reason === undefined) {
  passOn(spawn(binary, [root, ...shelf.map((folder) => `--shelf=${folder}`)], { stdio: 'inherit' }))
} else {
  console.log(`No desktop window: ${reason}.`)
  console.log('Open this address in your browser; it holds your key. Ctrl+C here ends the program.\n')
  const args = [...shelf.map((folder) => `--shelf=${folder}`), ...(values.port ? [`--port=${values.port}`] : [])]
  passOn(
    spawn(process.execPath, [path.join(root, 'dist/electron/serve.mjs'), '--attached', ...args], {
      stdio: ['pipe', 'inherit', 'inherit'],
    }),
  )
}

/**
 * Ends the child when this ends, and this with the child's status.
 * @param {import('node:child_process').ChildProcess} child
 */
function passOn(child) {
  for (const signal of /** @type {const} */ (['SIGINT', 'SIGTERM'])) process.on(signal, () => child.kill(signal))
  // npm dies of a SIGTERM without passing it on: notice that the parent has changed.
  const parent = process.ppid
  setInterval(() => process.ppid === parent || child.kill(), 500).unref()
  child.on('exit', (code, signal) => process.exit(code ?? (signal ? 1 : 0)))
}
