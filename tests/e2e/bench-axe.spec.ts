import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import type { Page } from '@playwright/test'
import type { AxeResults } from 'axe-core'
import { expect, test } from './fixture.ts'

const source = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')

/** What axe-core finds on the page as it stands. Evaluated, so that the page's security policy stays on. */
async function violations(page: Page): Promise<string[]> {
  await page.evaluate(source)
  const results = await page.evaluate(() =>
    (globalThis as unknown as { axe: { run(o: object): Promise<AxeResults> } }).axe.run({
      rules: { 'label-content-name-mismatch': { enabled: true } },
    }),
  )
  return results.violations.flatMap(({ id, nodes }) => nodes.map(({ target, html }) => `${id}: ${target} ${html}`))
}

for (const scheme of ['light', 'dark'] as const) {
  for (const [where, viewport] of [
    ['on a wide screen', { width: 1440, height: 900 }],
    ['on a phone', { width: 390, height: 844 }],
  ] as const) {
    test(`no barrier ${where}, ${scheme}`, async ({ page, hostUrl }) => {
      await page.setViewportSize(viewport)
      await page.emulateMedia({ colorScheme: scheme })
      await page.goto(hostUrl)
      await expect(page.getByRole('heading', { name: 'String of H1' })).toBeVisible()
      for (const fold of await page.locator('summary').all()) await fold.click()
      await page.locator('svg.string [data-element="HL:1-2"]').click()
      await expect(page.getByLabel('Selected')).toBeVisible()
      expect(await violations(page)).toEqual([])
      await page.getByRole('button', { name: 'Circuit shelf' }).click()
      await expect(page.getByRole('dialog')).toBeVisible()
      expect(await violations(page)).toEqual([])
    })
  }
}
