import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { test as base, type ElectronApplication, _electron as electron, expect } from '@playwright/test'
import { findElectron, noWindowReason } from '../../electron/electron-binary.mjs'

const binary = findElectron()
const reason = binary ? noWindowReason() : 'the Electron program is not installed (npx install-electron fetches it)'

const test = base.extend<{ app: ElectronApplication }>({
  // biome-ignore lint/correctness/noEmptyPattern: Playwright reads the pattern
  app: async ({}, use) => {
    const folder = mkdtempSync(path.join(tmpdir(), 'halfsplit-'))
    const app = await electron.launch({
      executablePath: binary ?? '', // without it Playwright requires 'electron', which downloads
      args: ['.', `--user-data-dir=${path.join(folder, 'user')}`, `--shelf=${path.join(folder, 'shelf')}`],
    })
    await use(app)
    await app.close()
    rmSync(folder, { recursive: true, force: true })
  },
})
test.skip(reason !== undefined, reason)

test('opens one sandboxed window on app://, with no Node in the page', async ({ app }) => {
  const page = await app.firstWindow()
  expect(page.url()).toBe('app://bundle/')
  expect(
    await page.evaluate(() => [
      typeof Reflect.get(globalThis, 'require'),
      typeof Reflect.get(globalThis, 'process'),
      typeof Reflect.get(globalThis, 'host'),
    ]),
  ).toEqual(['undefined', 'undefined', 'object'])
})

test('opens no further window', async ({ app }) => {
  const page = await app.firstWindow()
  await page.evaluate(() => window.open('https://example.com'))
  expect(app.windows()).toHaveLength(1)
})
