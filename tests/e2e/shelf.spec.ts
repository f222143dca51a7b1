import { writeFile } from 'node:fs/promises'
import path from 'node:path'
import { expect, test } from './fixture.ts'

test('shows the shelf, with no error and no violation of the policy', async ({ page, shelf, hostUrl, problems }) => {
  await writeFile(path.join(shelf, 'only-here.circuit'), 'unit "Only in this test"\n')
  await page.goto(hostUrl)
  await page.getByRole('button', { name: 'Circuit shelf' }).click()
  await expect(page.getByText('Only in this test')).toBeVisible()
  expect(new URL(page.url()).hash, 'the key is out of the address bar').toBe('')
  expect(problems).toEqual([])
})

test('keeps its key over a reload', async ({ page, shelf, hostUrl }) => {
  await writeFile(path.join(shelf, 'only-here.circuit'), 'unit "Only in this test"\n')
  await page.goto(hostUrl)
  await page.reload()
  await page.getByRole('button', { name: 'Circuit shelf' }).click()
  await expect(page.getByText('Only in this test')).toBeVisible()
})

test('says what to do without the key', async ({ page, hostUrl }) => {
  await page.goto(new URL('/', hostUrl).href)
  await expect(page.getByText('Open the address that Halfsplit printed')).toBeVisible()
})
