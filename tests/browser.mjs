// Which Chromium the tests drive: CHROMIUM_PATH, else Playwright's own, else one that the system has.
import { spawnSync } from 'node:child_process'
import { existsSync } from 'node:fs'
import path from 'node:path'
import { chromium } from '@playwright/test'

/** @type {Partial<Record<NodeJS.Platform, string[]>>} */
const SYSTEM = {
  linux: ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome', '/snap/bin/chromium'],
  darwin: [
    '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
    '/Applications/Chromium.app/Contents/MacOS/Chromium',
  ],
  win32: ['ProgramFiles', 'ProgramFiles(x86)', 'LOCALAPPDATA'].flatMap((name) => {
    const folder = process.env[name]
    return folder
      ? [`${folder}\\Google\\Chrome\\Application\\chrome.exe`, `${folder}\\Microsoft\\Edge\\Application\\msedge.exe`]
      : []
  }),
}

/** What Playwright needs to launch it; undefined: there is no browser at all. */
export function browserLaunchOptions() {
  const args = [
    '--disable-gpu',
    '--disable-quic',
    '--no-first-run',
    '--disable-background-networking',
    '--disable-component-update',
    '--disable-sync',
  ]
  if (process.env.CHROMIUM_PATH) return { executablePath: process.env.CHROMIUM_PATH, args }
  if (existsSync(chromium.executablePath())) return { args }
  const executablePath = (SYSTEM[process.platform] ?? []).find((file) => existsSync(file))
  return executablePath === undefined ? undefined : { executablePath, args }
}

export const NO_BROWSER =
  'no Chromium: run `npx playwright install chromium`, or on Debian `apt-get install -y chromium`, or set CHROMIUM_PATH'

/**
 * Gets a browser where there is none: Playwright's own download, else, on a Debian as root, the distribution's package.
 * Returns whether there is one now.
 */
export function ensureBrowser() {
  if (browserLaunchOptions()) return true
  console.error('There is no browser for the tests yet; fetching one …')
  const cli = path.join(import.meta.dirname, '../node_modules/@playwright/test/cli.js')
  const run = (/** @type {string} */ program, /** @type {string[]} */ ...args) =>
    spawnSync(program, args, { stdio: ['ignore', 2, 2], env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' } })
  run(process.execPath, cli, 'install', 'chromium')
  if (!browserLaunchOptions() && process.platform === 'linux' && process.getuid?.() === 0) {
    run('apt-get', 'update', '-qq')
    run('apt-get', 'install', '-y', '-qq', '--no-install-recommends', 'chromium')
  }
  if (browserLaunchOptions()) return true
  console.error(NO_BROWSER)
  return false
}
