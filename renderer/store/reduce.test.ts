import { expect, test } from 'vitest'
import { invariant } from '../../core/netlist/index.ts'
import { benchOf, readText, traced, traceText, twoHeaters } from './bench.fixture.ts'
import { chosen, isChanged, opened, ownerOf, put, stepOf, stepped, wasRead, wasTraced } from './reduce.ts'
import type { Bench } from './state.ts'

const all = [{}, { dial: 'off' }, { dial: 'one' }, { dial: 'both' }]

function control(bench: Bench, name: string) {
  const found = bench.shown?.circuit.controls.get(name)
  invariant(found, `there is a control called ${name}`)
  return found
}

test('nothing is on show until every position of the dial is known', () => {
  const bench = traced(benchOf(twoHeaters), {}, { dial: 'one' })
  expect(bench.trace).toBe(null)
  expect(bench.given).toEqual({})
})

test('it begins with the position that runs most, and the load that takes most power', () => {
  const bench = traced(benchOf(twoHeaters), ...all)
  expect(bench.given).toEqual({ dial: 'both' })
  expect(bench.load).toBe('H2:1-2')
  expect(bench.trace?.setting.dial).toBe('both')
  expect(bench.unset).toBe(false)
})

test('a position a person chose stays, whatever runs there', () => {
  const first = traced(benchOf(twoHeaters), ...all)
  const bench = { ...first, ...put(first, control(first, 'dial'), 'off') }
  expect(bench.given).toEqual({ dial: 'off' })
  expect(bench.trace?.setting.dial).toBe('off')
  expect(traced(bench, ...all).given).toEqual({ dial: 'off' })
})

test('a spring-back control put where it rests is left out: pressed and released', () => {
  const first = traced(benchOf(twoHeaters), ...all)
  const held = { ...first, ...put(first, control(first, 'start'), 'held') }
  expect(held.given).toEqual({ dial: 'both', start: 'held' })
  expect(put(held, control(held, 'start'), 'released').given).toEqual({ dial: 'both' })
})

test('until a new setting is worked out, the one before stays on show', () => {
  const first = traced(benchOf(twoHeaters), ...all)
  const held = { ...first, ...put(first, control(first, 'start'), 'held') }
  expect(held.trace).toBe(first.trace)
  const after = traced(held, held.given)
  expect(after.trace?.setting).toEqual({ dial: 'both', start: 'held' })
})

test('an answer about another circuit is dropped', () => {
  const bench = benchOf(twoHeaters)
  expect(wasTraced(bench, 'another', {}, traceText(twoHeaters, {}))).toEqual({})
})

test('a comment leaves drawing, traces and choice as they are', () => {
  const bench = traced(benchOf(twoHeaters), ...all)
  const next = { ...bench, ...wasRead(bench, readText(`# as typed\n${twoHeaters}`)) }
  expect(next.traces).toBe(bench.traces)
  expect(next.load).toBe('H2:1-2')
  expect(next.shown?.circuit.elements.get('H1:1-2')?.at.from).toBe(
    (bench.shown?.circuit.elements.get('H1:1-2')?.at.from ?? 0) + '# as typed\n'.length,
  )
})

test('text whose errors leave nothing to draw keeps what was shown', () => {
  const bench = traced(benchOf(twoHeaters), ...all)
  const next = { ...bench, ...wasRead(bench, readText('heeter H3')) }
  expect(next.shown).toBe(bench.shown)
  expect(next.read?.problems).toHaveLength(1)
})

test('an empty text without errors is an empty sheet', () => {
  const bench = traced(benchOf(twoHeaters), ...all)
  const next = { ...bench, ...wasRead(bench, readText('')) }
  expect(next.shown?.circuit.elements.size).toBe(0)
})

test('a load, a selection and a position that the text no longer has are let go', () => {
  const first = traced(benchOf(twoHeaters), ...all)
  const bench = { ...first, ...chosen('H2:1-2') }
  const text = twoHeaters
    .replace('heater H2 "High" 2000 W at 240 V\n', '')
    .replace('run CS.C > H2 > supply.L2\n', '')
    .replace('off, one, both', 'off, one')
    .replace('chart off one both', 'chart off one')
  const next = { ...bench, ...wasRead(bench, readText(text)) }
  expect(next).toMatchObject({ load: null, selected: null, given: {} })
})

test('the frame on show is the last in which the load is on; steps stop at the ends', () => {
  const bench = traced(benchOf(twoHeaters), ...all)
  const { trace } = bench
  invariant(trace, 'a setting is on show')
  const at = stepOf(bench)
  expect(trace.story[at]?.frame.on.has('H2:1-2')).toBe(true)
  expect(trace.story.slice(at + 1).every(({ frame }) => !frame.on.has('H2:1-2'))).toBe(true)
  const first = { ...bench, step: 0 }
  expect(stepped(first, -1).step).toBe(0)
  expect(stepped({ ...bench, step: trace.story.length - 1 }, 1).step).toBe(trace.story.length - 1)
  expect(stepOf({ ...bench, ...chosen('H1:1-2') })).toBe(at)
})

test('another text leaves nothing of the one before', () => {
  const before = { ...traced(benchOf(twoHeaters), ...all), ...chosen('H1:1-2') }
  const bench = { ...before, ...opened(before, { kind: 'new' }, 'unit "New"\n') }
  expect(bench).toMatchObject({ shown: null, plan: null, trace: null, given: {}, load: null, selected: null })
  expect(bench.handed).toEqual({ serial: before.handed.serial + 1, text: 'unit "New"\n', undoable: false })
  expect(isChanged(bench)).toBe(false)
})

test('a wire belongs to the string on show, else to one that is on, else to any that has it', () => {
  const both = traced(benchOf(twoHeaters), { dial: 'both' })
  const trace = both.traces.values().next().value ?? null
  const owner = (load: string | null, id: string) => ownerOf({ trace, load }, id)
  expect(owner('H2:1-2', 'TC.2~CS.A')).toBe('H2:1-2')
  expect(owner('H1:1-2', 'TC.2~CS.A')).toBe('H1:1-2')
  expect(owner('H2:1-2', 'CS.B~H1.1')).toBe('H1:1-2')
  expect(owner(null, 'H2:1-2')).toBe('H2:1-2')
  expect(owner(null, 'nothing~such')).toBeUndefined()
})
