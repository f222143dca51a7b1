import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { createInterface } from 'node:readline'
import { test as base, expect } from '@playwright/test'

export { expect }

interface Fixtures {
  /** The folder of this test's shelf; empty at first. */
  readonly shelf: string
  /** The address of this test's own host, with its token. */
  readonly hostUrl: string
  /** Console errors, page errors and violations of the content security policy so far: a test expects none. */
  readonly problems: string[]
}

const root = path.join(import.meta.dirname, '../..')

export const test = base.extend<Fixtures>({
  // biome-ignore lint/correctness/noEmptyPattern: Playwright reads the pattern
  shelf: async ({}, use) => {
    const folder = await mkdtemp(path.join(tmpdir(), 'halfsplit-'))
    await use(folder)
    await rm(folder, { recursive: true, force: true })
  },

  hostUrl: async ({ shelf }, use) => {
    const child: ChildProcess = spawn(
      process.execPath,
      [path.join(root, 'dist/electron/serve.mjs'), '--attached', '--shelf', shelf],
      { stdio: ['pipe', 'pipe', 'inherit'] },
    )
    if (!child.stdout) throw new Error('the host has no standard output')
    const [url] = await Promise.race([
      once(createInterface({ input: child.stdout }), 'line'),
      once(child, 'exit').then(([code]) => Promise.reject(new Error(`the host ended with ${code}`))),
    ])
    await use(String(url))
    const ended = once(child, 'exit')
    child.kill()
    await ended
  },

  problems: async ({ page }, use) => {
    const problems: string[] = []
    page.on('console', (message) => {
      if (message.type() === 'error') problems.push(message.text())
    })
    page.on('pageerror', (error) => problems.push(String(error)))
    await page.addInitScript(() => {
      document.addEventListener('securitypolicyviolation', (event) =>
        console.error(`policy: ${event.violatedDirective} ${event.blockedURI} ${event.sourceFile}:${event.lineNumber}`),
      )
    })
    await use(problems)
  },
})
