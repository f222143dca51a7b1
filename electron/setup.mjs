// Runs before there are any packages, so it imports none. Every message goes to standard error: the command line's
// standard output is a document.
import { spawnSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { existsSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs'
import path from 'node:path'

export const root = path.resolve(import.meta.dirname, '..')

const [major = 0, minor = 0] = process.versions.node.split('.').map(Number)
if (major < 20 || (major === 20 && minor < 19)) {
  console.error(`Node ${process.versions.node} is too old: Halfsplit needs 20.19 or newer.`)
  process.exit(1)
}

/** Installs exactly what package-lock.json says, unless that is what is there already. */
export function ensureDependencies() {
  const stamp = path.join(root, 'node_modules', '.installed')
  const wanted = createHash('sha256')
    .update(readFileSync(path.join(root, 'package-lock.json')))
    .update(`${process.platform} ${process.arch} ${process.versions.modules}`)
    .digest('hex')
  if (isStamp(stamp, wanted)) return
  console.error('Installing dependencies (npm ci) …')
  const args = ['ci', '--include=dev', '--loglevel=error'] // hides that Electron would like a newer Node
  // Under `npm run` npm says where it is; elsewhere a .cmd file needs a shell on Windows.
  const npm = process.env.npm_execpath
  const run = npm?.endsWith('npm-cli.js')
    ? spawnSync(process.execPath, [npm, ...args], { cwd: root, stdio: ['ignore', 2, 2] })
    : spawnSync('npm', args, { cwd: root, stdio: ['ignore', 2, 2], shell: process.platform === 'win32' })
  if (run.status !== 0) {
    console.error('npm ci failed, so nothing was started.')
    process.exit(run.status ?? 1)
  }
  writeFileSync(stamp, wanted)
}

const SOURCES = ['core', 'electron', 'renderer', 'schematics-demo', 'package.json', 'package-lock.json']

/** Builds where a source has changed since the last build. Returns whether what stands in dist is of today. */
export function ensureBuilt() {
  if (isStamp(path.join(root, 'dist', '.built'), fingerprint())) return true
  console.error('Building …')
  const run = spawnSync(process.execPath, [path.join(import.meta.dirname, 'build.mjs')], {
    cwd: root,
    stdio: ['ignore', 2, 2],
  })
  if (run.status !== 0) console.error('The build failed, so nothing was started.')
  return run.status === 0
}

/** Changes with the name, size or time of any source that the build reads. */
export function fingerprint() {
  const hash = createHash('sha256')
  for (const source of SOURCES.flatMap((name) => filesOf(path.join(root, name)))) {
    const { mtimeMs, size } = statSync(source)
    hash.update(`${path.relative(root, source)} ${mtimeMs} ${size}\n`)
  }
  return hash.digest('hex')
}

/**
 * @param {string} place
 * @returns {string[]}
 */
function filesOf(place) {
  if (/\.test\.tsx?$/.test(place) || !existsSync(place)) return []
  if (!statSync(place).isDirectory()) return [place]
  return readdirSync(place)
    .sort()
    .flatMap((name) => filesOf(path.join(place, name)))
}

/**
 * @param {string} file
 * @param {string} wanted
 */
const isStamp = (file, wanted) => existsSync(file) && readFileSync(file, 'utf8') === wanted
