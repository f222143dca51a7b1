import { expect, test } from 'vitest'
import { readText } from './bench.fixture.ts'
import { blankSheet, minimalSheet } from './sheets.ts'

test.each([
  ['blank', blankSheet],
  ['one heater', minimalSheet],
])('a new sheet has nothing wrong: %s', (_, text) => {
  expect(readText(text).problems).toEqual([])
})
