import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { isProblem, number, parse, type Quantity, quantity, unitOf } from './index.ts'
import type { Problem } from './tree.ts'

function read(text: string): Quantity | Problem | undefined {
  return quantity(parse(text).netlist.lines[0]?.tokens ?? [])
}

function si(text: string): number {
  const found = read(text)
  if (!found || isProblem(found)) throw new Error(`${text} is not read`)
  return found.si
}

describe('against published values', () => {
  // ASTM B258, nominal areas of solid round wire; values from memory, to the digits given.
  it.each([
    [10, 5.261],
    [12, 3.309],
    [14, 2.081],
    [16, 1.309],
    [18, 0.823],
    [22, 0.326],
  ])('[N13] gauge %i is %f mm²', (gauge, area) => {
    expect(Math.abs(si(`${gauge} AWG`) - area)).toBeLessThanOrEqual(0.0006)
  })

  // The scale is fixed by its definition (NIST SP 811, B.8): t/°C = (t/°F − 32)/1.8.
  it.each([
    ['32 F', 0],
    ['212 F', 100],
    ['-40 F', -40],
    ['350 F', 176.667],
  ])('[N13] %s is %f °C', (typed, celsius) => {
    expect(si(typed)).toBeCloseTo(celsius, 3)
  })

  // NIST SP 811, B.8: 1 ft = 0.3048 m, 1 in = 0.0254 m, exactly.
  it('[N13] feet and inches are exact', () => {
    expect(si('10 ft')).toBe(3.048)
    expect(si('1 ft')).toBeCloseTo(si('12 in'), 15)
  })
})

describe('numbers', () => {
  it.each([
    ['3950', 3950],
    ['0.5', 0.5],
    ['.5', 0.5],
    ['5.', 5],
    ['-18', -18],
    ['−18', -18],
    ['+5', 5],
    ['5A', undefined],
    ['1e3', undefined],
    ['1-2', undefined],
    ['0..240', undefined],
    ['', undefined],
    ['-', undefined],
    ['9'.repeat(400), undefined],
  ])('[N13] %s', (word, value) => expect(number(word)).toBe(value))

  it('[N13] any number with any blank reads as itself', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -99999, max: 99999 }),
        fc.nat(999),
        fc.constantFrom('', ' ', '   '),
        (whole, thousandths, gap) => {
          const typed = `${whole}.${String(thousandths).padStart(3, '0')}`
          const found = read(`${typed}${gap}V`)
          expect(found && !isProblem(found) && found.value).toBe(Number(typed))
        },
      ),
      { seed: 7, numRuns: 2000 },
    )
  })

  it('[N13] no quantity comes of a string or a mark', () => {
    expect(read('"15 A"')).toBeUndefined()
    expect(read(', 15 A')).toBeUndefined()
    expect(read('')).toBeUndefined()
  })
})

describe('units', () => {
  it.each([
    ['Ω', 'ohm'],
    ['\u2126', 'ohm'],
    ['MΩ', 'Mohm'],
    ['µF', 'uF'],
    ['\u03bcF', 'uF'],
    ['°F', 'F'],
    ['mm²', 'mm2'],
    ['mohm', undefined],
    ['°V', undefined],
    ['constructor', undefined],
  ])('[N13] %s', (word, unit) => expect(unitOf(word)).toBe(unit))

  it.each([
    ['15 amps', 'Write A.', '15 amps'],
    ['3 kw', 'Write kW.', '3 kw'],
    ['5 mohm', 'Write Mohm.', '5 mohm'],
    ['35 MFD', 'Write uF.', '35 MFD'],
    ['7khom', 'Write kohm.', '7khom'],
    ['7xyzzy', 'Write a unit such as V, A, W, ohm, C or min.', '7xyzzy'],
    ['15 area', 'Write the unit after the number, such as 15 A.', '15'],
    ['15, 20', 'Write the unit after the number, such as 15 A.', '15'],
    ['2,4 ohm at', 'Write 2.4 with a point, and 5400 without any mark.', '2,4 ohm'],
    ['2,4ohm at', 'Write 2.4 with a point, and 5400 without any mark.', '2,4ohm'],
  ])('[N14] %s: %s', (typed, hint, covered) => {
    const found = read(typed)
    if (!found || !isProblem(found)) throw new Error(`${typed} has a problem`)
    expect(found.hint).toBe(hint)
    expect(typed.slice(found.from, found.to)).toBe(covered)
  })
})
