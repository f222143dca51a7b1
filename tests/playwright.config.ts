import path from 'node:path'
import { defineConfig } from '@playwright/test'
import { browserLaunchOptions, NO_BROWSER } from './browser.mjs'

const launchOptions = browserLaunchOptions()
if (!launchOptions) throw new Error(NO_BROWSER)

const output = path.join(import.meta.dirname, '../test-output')

export default defineConfig({
  outputDir: path.join(output, 'playwright'),
  fullyParallel: true,
  timeout: 60_000,
  expect: { timeout: 15_000 },
  workers: 2,
  forbidOnly: !!process.env.CI,
  testMatch: '**/*.spec.ts', // *.test.ts are Vitest's
  reporter: [['list'], ['./skip-reasons.mjs'], ['json', { outputFile: path.join(output, 'playwright.json') }]],
  use: { launchOptions, viewport: { width: 1280, height: 800 }, trace: 'retain-on-failure' },
  projects: [
    { name: 'browser', testDir: 'e2e' },
    { name: 'desktop', testDir: 'electron', workers: 1 },
  ],
})
