import { readFile } from 'node:fs/promises'
import type { Page } from '@playwright/test'
import { expect, test } from './fixture.ts'

const drawing = (page: Page) => page.locator('svg.drawing')
const string = (page: Page) => page.locator('svg.string')
const card = (page: Page) => page.locator('.peek')

test.describe.configure({ timeout: 60_000 })

async function begin(page: Page, url: string) {
  await page.goto(url)
  await expect(drawing(page)).toBeVisible({ timeout: 20_000 })
  await expect(page.getByRole('heading', { name: 'String of H1' })).toBeVisible()
}

/** Clicks an entry of the export menu; the file it makes. */
async function exported(page: Page, entry: RegExp) {
  const coming = page.waitForEvent('download')
  await page.getByRole('button', { name: 'Export' }).click()
  await page.getByRole('menuitem', { name: entry }).click()
  const file = await coming
  return { name: file.suggestedFilename(), data: await readFile(await file.path()) }
}

test('arrows travel along the wires, Shift stops at them, and the card says what is there', async ({
  page,
  hostUrl,
  problems,
}) => {
  await begin(page, hostUrl)
  const first = drawing(page).locator('[data-element="HL:1-2"]')
  await first.focus()
  await page.keyboard.press('ArrowRight')
  await expect(drawing(page).locator('[data-element="TC:link"]')).toBeFocused()
  await page.keyboard.press('Shift+ArrowLeft')
  const wire = drawing(page).locator('[data-wire="HL.2~TC.1"]')
  await expect(wire).toBeFocused()
  await expect(wire).toHaveAccessibleName(/Wire HL\.2 to TC\.1, RD/)
  await expect(card(page)).toContainText('RD wire')
  await page.keyboard.press('ArrowLeft')
  await expect(first).toBeFocused()
  await expect(card(page)).toContainText('High-limit thermostat')
  await expect(card(page)).toContainText('Rear panel, 8 min')
  const [at, of] = await Promise.all([card(page).boundingBox(), first.boundingBox()])
  if (!at || !of) throw new Error('both are shown')
  expect(
    at.y >= of.y + of.height || at.y + at.height <= of.y || at.x >= of.x + of.width || at.x + at.width <= of.x,
  ).toBe(true)
  await page.keyboard.press('Escape')
  await expect(card(page)).toBeHidden()
  expect(problems).toEqual([])
})

test('a pointer that rests on an element gets its card, and loses it by moving on', async ({ page, hostUrl }) => {
  await begin(page, hostUrl)
  await string(page).locator('[data-element="OT:1-2"]').hover()
  await expect(card(page)).toContainText('OT Operating thermostat')
  await page.getByRole('heading', { name: 'String of H1' }).hover()
  await expect(card(page)).toBeHidden()
})

test('a wire shows the string of the load it belongs to, marked; one that belongs to none says so', async ({
  page,
  hostUrl,
}) => {
  await begin(page, hostUrl)
  await page.getByRole('button', { name: 'Other load' }).click()
  await page.getByRole('menuitemradio', { name: /^LP/ }).click()
  await drawing(page).locator('[data-wire="HL.2~TC.1"]').focus()
  await page.keyboard.press('Enter')
  await page.getByRole('button', { name: /^Show string of H[12]$/ }).click()
  await expect(page.getByRole('heading', { name: /^String of H[12]$/ })).toBeVisible()
  await expect(string(page).locator('[data-wire="HL.2~TC.1"]')).toHaveAttribute('aria-pressed', 'true')
  await drawing(page).locator('[data-wire="supply.G~chassis"]').focus()
  await page.keyboard.press('Enter')
  await expect(page.getByLabel('Selected')).toContainText('in no string in this setting')
})

test('setting, load and symbols are as they were left', async ({ page, hostUrl }) => {
  await begin(page, hostUrl)
  const iec = await drawing(page).innerHTML()
  await page.getByRole('button', { name: 'IEC symbols, change' }).click()
  await expect(page.getByRole('button', { name: 'IEEE symbols, change' })).toBeVisible()
  await expect.poll(() => drawing(page).innerHTML()).not.toBe(iec)
  await page.getByRole('button', { name: /^cool-down/ }).click()
  await page.getByRole('button', { name: 'Other load' }).click()
  await page.getByRole('menuitemradio', { name: /^LP/ }).click()
  await expect(page.getByRole('heading', { name: 'String of LP' })).toBeVisible()
  await page.reload()
  await expect(page.getByRole('heading', { name: 'String of LP' })).toBeVisible({ timeout: 20_000 })
  await expect(page.getByRole('button', { name: /^cool-down/ })).toHaveAttribute('aria-pressed', 'true')
  await expect(page.getByRole('button', { name: 'IEEE symbols, change' })).toBeVisible()
})

test('the drawing is exported as SVG with its fonts, within the policy', async ({
  page,
  hostUrl,
  problems,
  context,
}) => {
  await begin(page, hostUrl)
  const { name, data } = await exported(page, /^SVG/)
  expect(name).toBe('bench-dryer-electric.svg')
  const svg = data.toString('utf8')
  expect(svg.match(/url\(data:font\/woff2;base64,d09GMg/g)).toHaveLength(6)
  expect(data.length).toBeLessThan(250_000)
  expect(problems).toEqual([])
  // Opened by itself it is lettered in its own fonts.
  const alone = await context.newPage()
  await alone.setContent(svg)
  const loaded = await alone.evaluate(async () => {
    await document.fonts.ready
    return [...document.fonts].filter((face) => face.status === 'loaded').map((face) => face.family)
  })
  expect(new Set(loaded.map((family) => family.replaceAll('"', '')))).toContain('Atkinson Hyperlegible Next')
})

test('the drawing is exported as PNG, twice its size, and not blank', async ({ page, hostUrl, problems }) => {
  await begin(page, hostUrl)
  const { name, data } = await exported(page, /^PNG/)
  expect(name).toBe('bench-dryer-electric.png')
  // PNG (ISO/IEC 15948): eight bytes of signature, then IHDR with width and height.
  expect(data.subarray(1, 4).toString('latin1')).toBe('PNG')
  const width = Number(await drawing(page).evaluate((svg: SVGSVGElement) => svg.viewBox.baseVal.width))
  expect(data.readUInt32BE(16)).toBe(Math.ceil(Math.round(width) * 2))
  const inks = await page.evaluate(async (base64) => {
    const image = await createImageBitmap(
      new Blob([Uint8Array.from(atob(base64), (c) => c.charCodeAt(0))], { type: 'image/png' }),
    )
    const pen = new OffscreenCanvas(image.width, image.height).getContext('2d')
    if (!pen) throw new Error('no canvas')
    pen.drawImage(image, 0, 0)
    const { data: bytes } = pen.getImageData(0, 0, image.width, image.height)
    let dark = 0
    for (let i = 0; i < bytes.length; i += 4) if ((bytes[i] ?? 255) < 60) dark++
    return dark / (bytes.length / 4)
  }, data.toString('base64'))
  expect(inks).toBeGreaterThan(0.005)
  expect(inks).toBeLessThan(0.3)
  expect(problems).toEqual([])
})

test('the drawing is copied as a picture', async ({ page, hostUrl, problems, context }) => {
  await context.grantPermissions(['clipboard-read', 'clipboard-write'])
  await begin(page, hostUrl)
  await page.getByRole('button', { name: 'Export' }).click()
  await page.getByRole('menuitem', { name: /^Copy/ }).click()
  await expect(page.getByText('The drawing is copied.')).toBeVisible()
  const types = await page.evaluate(async () => (await navigator.clipboard.read()).flatMap((item) => item.types))
  expect(types).toContain('image/png')
  expect(problems).toEqual([])
})

test('drawing and string are printed on one page, in black', async ({ page, hostUrl }) => {
  await begin(page, hostUrl)
  for (const format of ['A4', 'Letter'] as const) {
    const pdf = (await page.pdf({ format, landscape: true })).toString('latin1')
    expect(pdf.match(/\/Type\s*\/Page\b/g), format).toHaveLength(1)
  }
  await page.emulateMedia({ media: 'print' })
  await expect(page.locator('.zoom')).toBeHidden()
  expect(await drawing(page).evaluate((svg) => getComputedStyle(svg).color)).toBe('rgb(0, 0, 0)')
})
