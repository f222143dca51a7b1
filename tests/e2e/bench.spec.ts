import { readFile, writeFile } from 'node:fs/promises'
import path from 'node:path'
import type { Page } from '@playwright/test'
import { expect, test } from './fixture.ts'

const drawing = (page: Page) => page.locator('svg.drawing')
const string = (page: Page) => page.locator('svg.string')
const editor = (page: Page) => page.getByRole('textbox', { name: 'Netlist' })

test.describe.configure({ timeout: 60_000 })

/** Opens the bench and waits until the dryer is drawn and worked out. */
async function begin(page: Page, url: string) {
  await page.goto(url)
  // The layout engine is large; on a busy machine its first answer takes seconds.
  await expect(drawing(page)).toBeVisible({ timeout: 20_000 })
  await expect(page.getByRole('heading', { name: 'String of H1' })).toBeVisible()
}

/** Types at the end of the netlist. */
async function typeAtEnd(page: Page, text: string) {
  await editor(page).click()
  await page.keyboard.press('Control+End')
  await page.keyboard.type(text)
}

test('a first visit shows a dryer, drawn and worked out, without a click', async ({ page, hostUrl, problems }) => {
  await begin(page, hostUrl)
  await expect(page.getByRole('heading', { name: 'Bench dryer, electric' })).toBeVisible()
  await expect(page.getByRole('button', { name: /^timed-high/ })).toHaveAttribute('aria-pressed', 'true')
  await expect(page.getByText('77 lines, nothing wrong')).toBeVisible()
  await expect(page.locator('.facts')).toContainText('must be closed')
  // Every bead of the heater's string, in the order current meets them.
  const beads = await string(page)
    .locator('[data-element]')
    .evaluateAll((all) => all.map((bead) => bead.getAttribute('data-element')))
  expect(beads).toEqual(['CS:A-C', 'OT:1-2', 'HL:1-2', 'TC:link', 'H1:1-2', 'M:heat'])
  expect(problems).toEqual([])
})

test('the dial names what each position runs, and turning it changes drawing and string', async ({ page, hostUrl }) => {
  await begin(page, hostUrl)
  await expect(page.getByRole('button', { name: /^timed-high/ })).toHaveAccessibleName(/runs .*H1.*H2/)
  await expect(page.getByRole('button', { name: /^off/ })).toHaveAccessibleName(/runs nothing/)
  const collars = drawing(page).locator('.collar')
  const before = await collars.count()
  await page.getByRole('button', { name: /^off/ }).click()
  await expect(page.locator('.facts')).toContainText('held open')
  await expect(page.locator('.facts')).toContainText('o at off')
  expect(await collars.count()).toBeLessThan(before)
  await page.getByRole('button', { name: /^cool-down/ }).click()
  await expect(page.locator('.string-pane header')).toContainText('off')
  await page.getByRole('button', { name: /^sensor/ }).click()
  await expect(page.locator('.string-pane header')).toContainText(/on, \d+ V/)
})

test('a spring-back control can be held, and released again', async ({ page, hostUrl }) => {
  await begin(page, hostUrl)
  const start = page.getByRole('group', { name: /^Start/ })
  await start.getByRole('button', { name: 'held' }).click()
  await expect(start.getByRole('button', { name: 'held' })).toHaveAttribute('aria-pressed', 'true')
  await expect(page.getByLabel('Story')).not.toContainText('start released')
  await start.getByRole('button', { name: 'released' }).click()
  await expect(page.getByLabel('Story')).toContainText('start released')
})

test('the story is stepped by clicks and by [ and ], and the drawing follows', async ({ page, hostUrl }) => {
  await begin(page, hostUrl)
  const story = page.getByLabel('Story')
  await story.getByRole('button', { name: 'start held' }).click()
  await expect(story).toContainText(/step 1 of/)
  const first = await drawing(page).innerHTML()
  await page.getByRole('heading', { name: 'String of H1' }).click()
  await page.keyboard.press(']')
  await expect(story).toContainText(/step 2 of/)
  for (let i = 0; i < 3; i++) await page.keyboard.press(']')
  await expect(story).toContainText(/step 5 of/)
  // Now the motor is at speed. The sheet is drawn after string and dial.
  await expect.poll(() => drawing(page).innerHTML()).not.toBe(first)
  await page.keyboard.press('[')
  await expect(story).toContainText(/step 4 of/)
})

test('an element selected in the drawing is selected in string and netlist, and in words', async ({
  page,
  hostUrl,
}) => {
  await begin(page, hostUrl)
  await drawing(page).locator('[data-element="HL:1-2"]').click()
  await expect(page.getByLabel('Selected')).toContainText('High-limit thermostat')
  await expect(page.getByLabel('Selected')).toContainText('Rear panel, 8 min')
  await expect(string(page).locator('[data-element="HL:1-2"]')).toHaveAttribute('aria-pressed', 'true')
  await expect(page.locator('.line-selected')).toContainText('thermostat')
  await expect(page.locator('.line-selected')).toContainText('HL')
  await expect(page.locator('.line-selected')).toBeInViewport()
})

test('an element selected in the string is selected in the drawing', async ({ page, hostUrl }) => {
  await begin(page, hostUrl)
  await string(page).locator('[data-element="TC:link"]').click()
  await expect(drawing(page).locator('[data-element="TC:link"]')).toHaveAttribute('aria-pressed', 'true')
})

test('the cursor in a line of a part selects it', async ({ page, hostUrl }) => {
  await begin(page, hostUrl)
  await editor(page).click()
  await page.keyboard.press('Control+Home')
  // `cutoff TF` stands on line 33 of the demo.
  for (let line = 1; line < 33; line++) await page.keyboard.press('ArrowDown')
  await expect(page.getByLabel('Selected')).toContainText('Thermal fuse')
  await expect(editor(page)).toBeFocused()
})

test('a load pressed twice, or chosen from the menu, shows its string', async ({ page, hostUrl }) => {
  await begin(page, hostUrl)
  await drawing(page).locator('[data-element="H2:1-2"]').dblclick()
  await expect(page.getByRole('heading', { name: 'String of H2' })).toBeVisible()
  await page.getByRole('button', { name: 'Other load' }).click()
  await page.getByRole('menuitemradio', { name: /^LP/ }).click()
  await expect(page.getByRole('heading', { name: 'String of LP' })).toBeVisible()
  await expect(page.locator('.facts')).toContainText('door shut')
})

test('a mistake is said with its way out, and the drawing stays', async ({ page, hostUrl, problems }) => {
  await begin(page, hostUrl)
  await typeAtEnd(page, '\nheeter H3 2000 W')
  const count = page.getByRole('button', { name: '1 problem' })
  await expect(count).toBeVisible()
  await expect(drawing(page).locator('[data-element="H1:1-2"]')).toBeVisible()
  await count.click()
  await expect(page.locator('.cm-tooltip')).toContainText('Did you mean heater?')
  expect(problems).toEqual([])
})

test('text that leaves nothing to draw keeps the last good drawing', async ({ page, hostUrl }) => {
  await begin(page, hostUrl)
  await editor(page).click()
  await page.keyboard.press('Control+a')
  // In one go: letters typed slowly would be several steps of undo.
  await page.keyboard.insertText('heeter H3')
  await expect(page.getByRole('button', { name: '1 problem' })).toBeVisible()
  await expect(drawing(page).locator('[data-element="H1:1-2"]')).toBeAttached()
  await page.getByRole('button', { name: 'Undo' }).click()
  await expect(page.getByText('77 lines, nothing wrong')).toBeVisible()
})

test('what is typed is drawn and worked out', async ({ page, hostUrl }) => {
  await begin(page, hostUrl)
  await typeAtEnd(page, '\nlamp L9 5 W at 120 V\nrun WH supply.L1 > L9 > supply.N')
  await expect(drawing(page).locator('[data-element="L9:1-2"]')).toBeAttached()
  await expect(page.getByRole('button', { name: /^off/ })).toHaveAccessibleName(/runs L9/)
})

test('a demo is saved as another, and opens again as it was', async ({ page, hostUrl, shelf, problems }) => {
  await begin(page, hostUrl)
  await typeAtEnd(page, '\n# Ω, seen on the sheet')
  await expect(page.getByText('not saved')).toBeVisible()
  await page.keyboard.press('Control+s')
  await page.getByLabel('Name').fill('My dryer')
  await page.getByRole('dialog').getByRole('button', { name: 'Save', exact: true }).click()
  await expect(page.getByText('Saved as my-dryer.circuit.')).toBeVisible()
  const saved = await readFile(path.join(shelf, 'my-dryer.circuit'), 'utf8')
  expect(saved.endsWith('\n# Ω, seen on the sheet')).toBe(true)
  await page.reload()
  await expect(page.getByText('my-dryer', { exact: true })).toBeVisible()
  await expect(page.getByText('no changes')).toBeVisible()
  await editor(page).click()
  await page.keyboard.press('Control+End')
  await expect(page.locator('.cm-line').last()).toHaveText('# Ω, seen on the sheet')
  await page.keyboard.press('Control+s')
  await expect.poll(() => readFile(path.join(shelf, 'my-dryer.circuit'), 'utf8')).toBe(saved)
  expect(problems).toEqual([])
})

test('a name that is taken is said, with one that is free', async ({ page, hostUrl, shelf }) => {
  await writeFile(path.join(shelf, 'my-dryer.circuit'), 'unit "Another"\n')
  await begin(page, hostUrl)
  await page.getByRole('button', { name: 'Save as' }).click()
  await page.getByLabel('Name').fill('My dryer')
  await page.keyboard.press('Enter')
  await expect(page.getByRole('alert')).toContainText('There is a circuit called “my-dryer” already')
  await page.getByRole('button', { name: 'Save as my-dryer-2' }).click()
  await expect(page.getByText('Saved as my-dryer-2.circuit.')).toBeVisible()
  expect(await readFile(path.join(shelf, 'my-dryer.circuit'), 'utf8')).toBe('unit "Another"\n')
})

test('unsaved text is offered after a reload', async ({ page, hostUrl }) => {
  await begin(page, hostUrl)
  await typeAtEnd(page, '\n# half a thought')
  await expect(page.getByText('not saved')).toBeVisible()
  await page.reload()
  await expect(page.getByLabel('Recovered')).toContainText('79 lines')
  await page.getByRole('button', { name: 'Open them' }).click()
  await editor(page).click()
  await page.keyboard.press('Control+End')
  await expect(page.locator('.cm-line').last()).toHaveText('# half a thought')
  await page.keyboard.press('Control+z')
  await expect(page.getByText('77 lines, nothing wrong')).toBeVisible()
})

test('a file changed by another program is never overwritten unasked', async ({ page, hostUrl, shelf }) => {
  const file = path.join(shelf, 'mine.circuit')
  await writeFile(file, 'unit "Mine"\n')
  await begin(page, hostUrl)
  await page.getByRole('button', { name: 'Circuit shelf' }).click()
  await page.getByRole('button', { name: /^Mine/ }).click()
  await expect(page.getByRole('heading', { name: 'Mine' })).toBeVisible()
  await typeAtEnd(page, '# from here')
  await writeFile(file, 'unit "Theirs"\n')
  await page.keyboard.press('Control+s')
  await expect(page.getByRole('dialog', { name: 'Changed elsewhere' })).toBeVisible()
  expect(await readFile(file, 'utf8')).toBe('unit "Theirs"\n')
  await page.getByRole('button', { name: /^Open theirs/ }).click()
  await expect(page.getByRole('heading', { name: 'Theirs' })).toBeVisible()
  await page.getByRole('button', { name: 'Undo' }).click()
  await expect(page.getByRole('heading', { name: 'Mine' })).toBeVisible()
  await page.keyboard.press('Control+s')
  await expect.poll(() => readFile(file, 'utf8')).toBe('unit "Mine"\n# from here')
})

test('a local file opens by dropping it on the window', async ({ page, hostUrl }) => {
  await begin(page, hostUrl)
  const data = await page.evaluateHandle(() => {
    const transfer = new DataTransfer()
    transfer.items.add(new File(['unit "Dropped"\n'], 'dropped.circuit'))
    return transfer
  })
  await page.locator('.drawing-sheet').dispatchEvent('drop', { dataTransfer: data })
  await expect(page.getByRole('heading', { name: 'Dropped' })).toBeVisible()
  await expect(page.getByText('dropped.circuit')).toBeVisible()
})

test('leaving unsaved text asks first, and keeps it', async ({ page, hostUrl }) => {
  await begin(page, hostUrl)
  await typeAtEnd(page, '\n# kept')
  await page.getByRole('button', { name: 'Circuit shelf' }).click()
  await page.getByRole('button', { name: 'Bench heater, one string' }).click()
  await expect(page.getByRole('dialog', { name: 'Not saved' })).toBeVisible()
  await page.getByRole('button', { name: 'Go on' }).click()
  await expect(page.getByRole('heading', { name: 'Bench heater, one string' })).toBeVisible()
  await page.getByRole('button', { name: 'Circuit shelf' }).click()
  await page.getByRole('button', { name: 'Bench dryer, electric' }).click()
  await page.getByRole('button', { name: 'Open them' }).click()
  await expect(page.getByText('not saved')).toBeVisible()
})

test('everything is reached by keys', async ({ page, hostUrl }) => {
  await begin(page, hostUrl)
  await page.keyboard.press('d')
  await expect(page.getByRole('button', { name: /^timed-high/ })).toBeFocused()
  await page.keyboard.press('?')
  await expect(page.getByRole('dialog', { name: 'Keys' })).toBeVisible()
  await page.keyboard.press('Escape')
  const moved = page.locator('.drawing-moved')
  const before = await moved.getAttribute('style')
  await page.keyboard.press('+')
  await expect(moved).not.toHaveAttribute('style', before ?? '')
  await page.keyboard.press('0')
  // Along the string by arrows: from the first bead on, selecting with Enter.
  await string(page).locator('[tabindex="0"]').focus()
  for (let i = 0; i < 2; i++) await page.keyboard.press('ArrowRight')
  await page.keyboard.press('Enter')
  await expect(page.getByLabel('Selected')).toContainText('OT')
  await expect(string(page).locator('[data-element="OT:1-2"]')).toBeFocused()
  await page.keyboard.press('Escape')
  await expect(page.getByLabel('Selected')).toHaveCount(0)
})

test('a worker that dies is replaced: the next setting is worked out as before', async ({ page, hostUrl }) => {
  await begin(page, hostUrl)
  await expect(page.getByText('…', { exact: true })).toHaveCount(0)
  for (const worker of page.workers()) {
    await worker.evaluate(() => void setTimeout(() => reportError(new Error('died'))))
  }
  await expect.poll(() => page.workers().length).toBe(0)
  await page.getByRole('button', { name: 'open', exact: true }).click()
  await expect(page.locator('.facts')).toContainText('held open')
  await typeAtEnd(page, '\nlamp L9 5 W at 120 V\nrun WH supply.L1 > L9 > supply.N')
  await expect(drawing(page).locator('[data-element="L9:1-2"]')).toBeAttached({ timeout: 20_000 })
})

test('panes keep the size they were given', async ({ page, hostUrl }) => {
  await begin(page, hostUrl)
  const netlist = page.locator('.netlist')
  const before = (await netlist.boundingBox())?.width ?? 0
  await page.getByRole('separator', { name: 'Width of the netlist' }).focus()
  for (let i = 0; i < 3; i++) await page.keyboard.press('ArrowRight')
  await expect.poll(async () => (await netlist.boundingBox())?.width ?? 0).toBeGreaterThan(before + 20)
  const wider = (await netlist.boundingBox())?.width ?? 0
  await page.reload()
  await expect.poll(async () => Math.abs(((await netlist.boundingBox())?.width ?? 0) - wider)).toBeLessThan(4)
})

test('light or dark is remembered', async ({ page, hostUrl }) => {
  await page.emulateMedia({ colorScheme: 'dark' })
  await begin(page, hostUrl)
  await expect(page.locator('html')).toHaveAttribute('data-theme', 'dark')
  await page.getByRole('button', { name: 'Light' }).click()
  await page.reload()
  await expect(page.locator('html')).toHaveAttribute('data-theme', 'light')
})

test.describe('on a phone', () => {
  test.use({ viewport: { width: 390, height: 844 } })

  test('one column, led by the upright string; nothing runs out of the side', async ({ page, hostUrl, problems }) => {
    await page.goto(hostUrl)
    await expect(page.getByRole('heading', { name: 'String of H1' })).toBeInViewport()
    const box = await string(page).boundingBox()
    expect(box && box.height > box.width).toBe(true)
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390)
    // Selecting must not move the page away from the bead, though the netlist below follows.
    await string(page).locator('[data-element="OT:1-2"]').click()
    await expect(page.getByLabel('Selected')).toBeVisible()
    expect(await page.locator('main').evaluate((main) => main.scrollTop)).toBe(0)
    await page.locator('summary', { hasText: 'Drawing' }).click()
    await expect(drawing(page)).toBeVisible()
    await page.locator('summary', { hasText: 'Netlist' }).click()
    await expect(editor(page)).toBeVisible()
    await page.getByRole('button', { name: /^off/ }).click()
    await expect(page.locator('.facts')).toContainText('held open')
    expect(problems).toEqual([])
  })
})
