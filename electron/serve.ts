import { homedir } from 'node:os'
import path from 'node:path'
import { parseArgs } from 'node:util'
import { SHELF_FOLDER, serveCircuits } from './circuits.ts'
import { type Host, startHost } from './http.ts'

const here = import.meta.dirname
const { values } = parseArgs({
  options: {
    port: { type: 'string', default: '0' },
    shelf: { type: 'string', default: path.join(homedir(), SHELF_FOLDER) },
    attached: { type: 'boolean', default: false }, // end when the starter's end of stdin closes, however it died
  },
})
let host: Host | undefined
const handlers = serveCircuits(path.resolve(values.shelf), path.join(here, '../schematics-demo'), (name, data) =>
  host?.emit(name, data),
)
host = await startHost({
  handlers,
  rendererDir: path.join(here, '../renderer'),
  port: Number(values.port),
  log: (line) => console.error(line),
})
console.log(host.url) // the first line of stdout, for people and for the tests alike
const stop = () => void host?.close().then(() => process.exit(0))
for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, stop)
if (values.attached) process.stdin.resume().once('end', stop).once('error', stop)
