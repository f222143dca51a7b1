import { expect, test } from 'vitest'
import { invariant } from '../../core/netlist/index.ts'
import { readText, traceText, twoHeaters } from './bench.fixture.ts'
import { elementName, mainControl, moved, placeOf, settingKey, stillGiven, tellingStep } from './circuit.ts'

const { circuit } = readText(`${twoHeaters}
area rear "Rear panel" 8 min
fuse F1 blows 15 A area rear`)

test('the main control is the one with most positions that stays where it is put', () => {
  expect(mainControl(circuit)?.name).toBe('dial')
})

test('settings that mean the same have one key', () => {
  const dial = circuit.controls.get('dial')
  invariant(dial, 'there is a dial')
  expect(settingKey(circuit, {})).toBe(settingKey(circuit, moved({}, dial, dial.normally)))
  expect(settingKey(circuit, { dial: 'one' })).not.toBe(settingKey(circuit, {}))
  // Released by hand is not pressed and released.
  expect(settingKey(circuit, { start: 'released' })).not.toBe(settingKey(circuit, {}))
})

test('what the circuit no longer knows is not given any more', () => {
  const given = { dial: 'one' }
  expect(stillGiven(circuit, given)).toBe(given)
  expect(stillGiven(circuit, { dial: 'three', lid: 'shut' })).toEqual({})
})

test('an element is called by its part where it is the only one', () => {
  expect(elementName(circuit, 'TC:link')).toBe('TC')
  expect(elementName(circuit, 'CS:A-B')).toBe('CS:A-B')
  expect(elementName(circuit, 'TC.2~CS.A')).toBe('TC.2~CS.A')
})

test('a place is told with its minutes', () => {
  const fuse = circuit.elements.get('F1:link')
  invariant(fuse, 'there is a fuse')
  expect(placeOf(circuit, fuse)).toBe('Rear panel, 8 min')
})

test('for a load that is off, the last frame of the first phase is on show', () => {
  const trace = traceText(twoHeaters, { dial: 'one' })
  const at = tellingStep(trace, 'H2:1-2')
  expect(trace.story[at]?.frame.conditions).toEqual(trace.conditions)
})
