import { expect, test } from 'vitest'
import { readText, traceText, twoHeaters } from '../store/bench.fixture.ts'
import { elementAt } from './NetlistPane.tsx'
import { facts } from './StringFacts.tsx'

const read = readText(twoHeaters)

test.each([
  ['heater H2', 'H2:1-2'],
  ['A-C', 'CS:A-C'],
  ['cutoff TC', 'TC:link'],
  ['cycle-switch CS', 'CS:A-B'],
  ['supply.L2', 'H1.2~supply.L2'],
  ['wire TC.2', 'TC.2~CS.A'],
])('the cursor in “%s” stands in %s', (words, id) => {
  expect(elementAt(read, twoHeaters.indexOf(words) + 2)).toBe(id)
})

test('a line that describes no element selects none', () => {
  expect(elementAt(read, twoHeaters.indexOf('control dial') + 2)).toBe(undefined)
})

test('the facts of a load that is on name what must be closed, and leave out empty rows', () => {
  const load = traceText(twoHeaters, { dial: 'one' }).loads.find(({ load }) => load === 'H1:1-2')
  expect(load && facts(load).map(({ says, groups }) => [says, groups])).toEqual([
    ['must be closed', [['TC:link', 'CS:A-B']]],
  ])
})
