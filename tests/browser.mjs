// Which Chromium the tests drive: CHROMIUM_PATH, else Playwright's own, else one that the system has. Run as a program
// it prints nothing and ends with 1 where there is none.
import { existsSync } from 'node:fs'
import { pathToFileURL } from 'node:url'
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

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href && !browserLaunchOptions()) process.exitCode = 1
