import { expect, test } from 'vitest'
import { breakText, fitText, textWidth } from './text-width.ts'

test('widths grow with size, weight and letters', () => {
  expect(textWidth('', 13)).toBe(0)
  expect(textWidth('OT', 26)).toBeCloseTo(2 * textWidth('OT', 13))
  expect(textWidth('Operating', 13, 700)).toBeGreaterThan(textWidth('Operating', 13, 400))
  // A letter the table does not have takes the room of a whole em.
  expect(textWidth('漢', 10)).toBe(10)
})

test('text that is too long is cut with an ellipsis, and fits', () => {
  expect(fitText('start released', 200, 13, 600)).toBe('start released')
  const cut = fitText('chart: o at cool-down', 80, 13, 600)
  expect(cut.endsWith('…')).toBe(true)
  expect(textWidth(cut, 13, 600)).toBeLessThanOrEqual(80)
})

test('long words go on two lines as alike as can be', () => {
  expect(breakText('High-limit thermostat', 140, 13)).toEqual(['High-limit thermostat'])
  expect(breakText('Thermostat for the upper heating element', 140, 13)).toEqual([
    'Thermostat for the',
    'upper heating element',
  ])
  expect(breakText('Unbreakablelongwordwithoutanyspaces', 50, 13)).toEqual(['Unbreakablelongwordwithoutanyspaces'])
})
