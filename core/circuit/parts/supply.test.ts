import { describe, expect, it } from 'vitest'
import { abs } from '../../network/index.ts'
import { operate } from '../../operate/index.ts'
import { traceSetting } from '../../strings/index.ts'
import { polesOf, readCircuit } from '../index.ts'

function read(...lines: readonly string[]) {
  const { circuit, problems } = readCircuit(lines.join('\n'))
  expect(problems).toEqual([])
  return circuit
}
const volts = (line: string, one: string, other: string): number => {
  const find = (name: string) => polesOf(read(line)).find((p) => p.name === name)
  const [a, b] = [find(one), find(other)]
  if (!a || !b) throw new Error(`no pole ${one} or ${other}`)
  return Math.hypot(a.re - b.re, a.im - b.im)
}

describe('volts between poles', () => {
  it('split-phase: half to neutral, and opposite (NEMA WD 6, 14-30: 125/250 V)', () => {
    expect(volts('supply split-phase 240 V', 'L1', 'L2')).toBeCloseTo(240)
    expect(volts('supply split-phase 240 V', 'L1', 'N')).toBeCloseTo(120)
  })
  it('two legs of three phases: 208 V between them is 120 V to neutral (ANSI C84.1, 208Y/120)', () => {
    expect(volts('supply two-leg 208 V', 'L1', 'L2')).toBeCloseTo(208)
    expect(volts('supply two-leg 208 V', 'L1', 'N')).toBeCloseTo(120.09, 1)
    expect(volts('supply two-leg 208 V', 'L2', 'N')).toBeCloseTo(120.09, 1)
  })
  it('single-phase, direct and low voltage as typed', () => {
    expect(volts('supply single-phase 230 V', 'L', 'N')).toBe(230)
    expect(volts('supply dc 24 V', '+', '−')).toBe(24)
    expect(volts('supply class-2 24 V', 'R', 'C')).toBe(24)
  })
})

it('has the hertz of its kind unless typed', () => {
  const hertz = (line: string) => read(line).supplies[0]?.hertz
  expect(hertz('supply split-phase 240 V')).toBe(60)
  expect(hertz('supply single-phase 120 V')).toBe(60)
  expect(hertz('supply single-phase 230 V')).toBe(50)
  expect(hertz('supply single-phase 220 V 60 Hz')).toBe(60)
  expect(hertz('supply dc 24 V')).toBe(0)
})

it('feeds loads between any of its poles: a 208 V heater at 208 V, a 240 V one at three quarters of its watts', () => {
  const circuit = read(
    'supply two-leg 208 V breaker 30 A',
    'heater H1 4500 W at 240 V',
    'lamp LP 25 W at 120 V',
    'run supply.L1 > H1 > supply.L2',
    'run supply.L2 > LP > supply.N',
  )
  const [h1, lamp] = traceSetting(circuit).loads
  expect(h1?.on && lamp?.on).toBe(true)
  // (208/240)² = 0.751, common practice, less what the source takes.
  expect(((h1?.volts ?? 0) * (h1?.amps ?? 0)) / 4500).toBeCloseTo(0.75, 1)
  expect((lamp?.volts ?? 0) / 120).toBeCloseTo(1, 1)
})

it('single-phase: the breaker opens the leg', () => {
  const circuit = read(
    'supply single-phase 120 V breaker 15 A',
    'control door shut, open',
    'switch S1 when door=open',
    'lamp LP 25 W at 120 V',
    'run supply.L > LP > supply.N',
    'run supply.L > S1 > supply.N',
  )
  expect(operate(circuit, { door: 'shut' }).phases.at(-1)?.conditions.breaker).toBe('on')
  const shorted = operate(circuit, { door: 'open' }).phases.at(-1)
  expect(shorted?.conditions.breaker).toBe('tripped')
  const lamp = traceSetting(circuit, { door: 'open' }).loads[0]
  expect(lamp?.on).toBe(false)
  expect(lamp?.heldOpen).toEqual([{ element: 'supply:L', reason: 'breaker tripped' }])
})

it('several at once: each has its poles, its breaker, and feeds its own loads', () => {
  const circuit = read(
    'supply split-phase 240 V by cord breaker 30 A',
    'supply aux dc 12 V breaker 2 A',
    'heater H1 2400 W at 240 V',
    'lamp LP 5 W at 12 V',
    'run supply.L1 > H1 > supply.L2',
    'wire aux.+ LP.1',
    'wire LP.2 aux.-',
  )
  expect(circuit.supplies.map((s) => s.title)).toEqual(['240 V split-phase', '12 V dc'])
  expect(traceSetting(circuit).loads.map((l) => l.on)).toEqual([true, true])
  expect([...circuit.actors.keys()]).toEqual(['breaker', 'aux-breaker'])
})

it('a second one needs a name', () => {
  const { problems } = readCircuit('supply split-phase 240 V\nsupply dc 12 V')
  expect(problems.map((p) => p.code)).toEqual(['name-taken'])
})

it('a three-wire cord: the chassis is bonded to neutral by its strap alone', () => {
  const lines = (strap: string) => [
    'supply split-phase 240 V by three-wire cord breaker 30 A',
    'lamp LP 25 W at 120 V',
    'run supply.L1 > LP > chassis',
    strap,
  ]
  expect(traceSetting(read(...lines('strap supply.N chassis'))).loads[0]?.on).toBe(true)
  expect(traceSetting(read(...lines(''))).loads[0]?.on).toBe(false)
})

it('sags with its source ohms', () => {
  const circuit = read(
    'supply single-phase 120 V source 0.5 ohm',
    'heater H1 1200 W at 120 V',
    'run supply.L > H1 > supply.N',
  )
  const run = operate(circuit)
  const [phase] = run.phases
  // 12 ohm behind twice 0.5 ohm: 120 × 12 / 13.
  const across = phase && abs(phase.solved.voltsAcross(run.wiring.index.get('H1:1-2') ?? -1))
  expect(across).toBeCloseTo((120 * 12) / 13, 0)
})
