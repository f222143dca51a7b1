import fc from 'fast-check'
import { expect, it } from 'vitest'
import { freeStem, isStem, stemFromTitle } from './fileName.ts'

it.each([
  ['Bench dryer, electric', 'bench-dryer-electric'],
  ['  240 V / 60 Hz  ', '240-v-60-hz'],
  ['Wäschetrockner №2', 'waschetrockner-no2'],
  ['İstanbul', 'istanbul'],
  ['../../etc/passwd', 'etc-passwd'],
  ['ガス乾燥機', 'ガス乾燥機'],
  ['CON', 'con-unit'],
  ['lpt1', 'lpt1-unit'],
  ['x'.repeat(200), 'x'.repeat(80)],
  [`${'x'.repeat(79)} y`, 'x'.repeat(79)],
  ['—', undefined],
  ['', undefined],
])('makes from %j the name %j', (title, stem) => {
  expect(stemFromTitle(title)).toBe(stem)
})

it('makes a usable name from any title, and the same from the name itself', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'binary', maxLength: 200 }), (title) => {
      const stem = stemFromTitle(title)
      if (stem === undefined) return
      expect(isStem(stem)).toBe(true)
      expect(stemFromTitle(stem)).toBe(stem)
    }),
    { seed: 1, numRuns: 2000 },
  )
})

// What Windows keeps for devices and refuses in a name: from memory, no source at hand.
it.each([
  '',
  '.',
  '..',
  '.hidden',
  'a/b',
  'a\\b',
  '../a',
  'a:b',
  'a?',
  'a*',
  'a|b',
  'a<b',
  'a"b',
  'a\u0000',
  'a\n',
  'a.',
  'a ',
  ' a',
  'con',
  'NUL',
  'Com1',
  'aux.old',
  'LPT9',
  '\uD800',
  'x'.repeat(81),
])('refuses %j', (id) => {
  expect(isStem(id)).toBe(false)
})

it.each(['a', 'Bench dryer', 'bench-dryer.v2', 'console', 'com10', 'Wäsche', 'x'.repeat(80)])('takes %j', (id) => {
  expect(isStem(id)).toBe(true)
})

it('finds the first free number, also for a name of full length', () => {
  expect(freeStem('a', (stem) => ['a-2', 'a-3'].includes(stem))).toBe('a-4')
  expect(freeStem('x'.repeat(80), () => false)).toBe(`${'x'.repeat(78)}-2`)
})
