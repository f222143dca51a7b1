// Never `import 'electron'` outside Electron to find its program: that import downloads it.
import { spawnSync } from 'node:child_process'
import { existsSync, readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import path from 'node:path'

const require = createRequire(import.meta.url)
const home = () => path.dirname(require.resolve('electron/package.json'))

/** The path of the installed program, or undefined. Downloads nothing. */
export function findElectron() {
  try {
    const folder = home()
    const dist = process.env.ELECTRON_OVERRIDE_DIST_PATH ?? path.join(folder, 'dist')
    const file = path.join(dist, readFileSync(path.join(folder, 'path.txt'), 'utf8'))
    return existsSync(file) ? file : undefined
  } catch {
    return undefined
  }
}

/**
 * Tries the package's own downloader once.
 * @returns {{ binary: string, reason: undefined } | { binary: undefined, reason: string }} `reason` is one line
 */
export function fetchElectron() {
  const minutes = 5
  const run = spawnSync(process.execPath, [path.join(home(), 'install.js')], {
    encoding: 'utf8',
    timeout: minutes * 60_000,
    stdio: ['ignore', 2, 'pipe'],
  })
  const binary = findElectron()
  if (binary) return { binary, reason: undefined }
  const said = run.stderr?.split('\n').find((line) => line.trim() !== '')
  const late = run.signal === null ? undefined : `the download did not finish in ${minutes} minutes`
  return { binary: undefined, reason: late ?? said ?? 'the download failed' }
}

/** Why this machine cannot show a desktop window even with the program; undefined: it can. */
export function noWindowReason() {
  if (process.platform !== 'linux') return undefined
  if (!process.env.DISPLAY && !process.env.WAYLAND_DISPLAY) return 'there is no display'
  if (process.getuid?.() === 0) return 'Chromium’s sandbox does not run as root, and it is not switched off here'
  return undefined
}
