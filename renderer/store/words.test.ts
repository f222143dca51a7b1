import { expect, test } from 'vitest'
import { invariant } from '../../core/netlist/index.ts'
import { readText, traceText, twoHeaters } from './bench.fixture.ts'
import { labelWords, measured, onWords, stateWords } from './words.ts'

const { circuit } = readText(twoHeaters)
const trace = traceText(twoHeaters, { dial: 'one' })
const frame = trace.story.at(-1)?.frame
const element = (id: string) => {
  const found = circuit.elements.get(id)
  invariant(found, `there is ${id}`)
  return found
}
const loadTrace = (id: string) => trace.loads.find(({ load }) => load === id)

test.each([
  [0, '0 V'],
  [236.4, '236 V'],
  [14.3361, '14.3 V'],
  [0.02468, '0.0247 V'],
])('%d V is shown with three digits', (value, words) => {
  expect(measured(value, 'V')).toBe(words)
})

test.each([
  ['TC:link', 'closed'],
  ['CS:A-B', 'closed'],
  ['TC.2~CS.A', 'carries current'],
  // Joined to L2 through the heater, which is what a meter would show.
  ['CS.C~H2.1', 'fed, no current'],
])('%s: %s', (id, words) => {
  expect(stateWords(element(id), frame, undefined)).toMatch(new RegExp(`^${words}`))
})

test('an open contact says why', () => {
  expect(stateWords(element('CS:A-C'), frame, undefined)).toBe(`open: ${frame?.why.get('CS:A-C')}`)
  expect(frame?.why.get('CS:A-C')).toBeTruthy()
})

test('a load says its volts and amperes while it is on', () => {
  const on = loadTrace('H1:1-2')
  invariant(on, 'H1 is a load')
  // 1000 W at 240 V take 4.17 A by Ohm's law; the supply's own impedance takes a little off.
  expect(stateWords(element('H1:1-2'), frame, on)).toBe(onWords(on))
  expect(onWords(on)).toMatch(/^on, 2[34]\d V, 4\.1\d A$/)
  expect(stateWords(element('H2:1-2'), frame, loadTrace('H2:1-2'))).toBe('off')
  expect(onWords({ ...on, weak: true })).toMatch(/^on but weak, /)
})

test('labels: what the netlist quotes, else the kind; a wire by its colour', () => {
  expect(labelWords(circuit, element('H1:1-2'))).toBe('Low')
  expect(labelWords(circuit, element('TC:link'))).toBe('cutoff')
  expect(labelWords(circuit, element('TC.2~CS.A'))).toBe('wire')
})
