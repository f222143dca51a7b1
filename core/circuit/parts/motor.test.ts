import { describe, expect, it } from 'vitest'
import { machineOf } from '../../strings/machine.fixture.ts'
import { readCircuit } from '../index.ts'

const house = 'supply split-phase 240 V 60 Hz'
const codes = (...lines: readonly string[]) => readCircuit([house, ...lines].join('\n')).problems.map((p) => p.code)

describe('a motor of two speeds', () => {
  const { set, circuit } = machineOf(
    house,
    'control speed low, high',
    'switch LO when speed=low',
    'switch HI when speed=high',
    'motor M 120 V 6 A start 24 A',
    '  winding main high 4-5 2.4 ohm 6 A',
    '  winding main low  6-5 4.0 ohm 3 A',
    '  winding start     3-5 3.1 ohm',
    '  contact aux  8-3  closed at rest',
    'run supply.L1 > LO > M.6',
    'run supply.L1 > HI > M.4',
    'wire supply.L1 M.8',
    'wire M.5 supply.N',
  )
  it('has a load for each, with the amps of its own speed', () => {
    expect([...circuit.elements.keys()].filter((id) => id.startsWith('M:'))).toEqual([
      'M:main-high',
      'M:main-low',
      'M:start',
      'M:aux',
    ])
    const [low, high] = [set({ speed: 'low' }), set({ speed: 'high' })]
    expect([low.on, high.on]).toEqual([['M:main-low'], ['M:main-high']])
    expect(low.load('M:main-low').amps).toBeCloseTo(3, 1)
    expect(high.load('M:main-high').amps).toBeCloseTo(6, 1)
  })
  it('turns at either', () => {
    expect([set({ speed: 'low' }).states('M'), set({ speed: 'high' }).states('M')]).toEqual([
      ['at-speed'],
      ['at-speed'],
    ])
  })
})

describe('a motor with a run capacitor', () => {
  const own = (capacitor: readonly string[], wires: readonly string[]) =>
    machineOf(
      house,
      'control cap good, open',
      'switch S1 when cap=good',
      ...capacitor,
      'motor M 120 V 2 A',
      '  winding main 1-2 8 ohm',
      '  winding aux  3-2 15 ohm',
      ...wires,
      'wire supply.L1 M.1',
      'wire M.2 supply.N',
    )
  const part = own(['capacitor C1 8 uF 370 V'], ['run supply.L1 > S1 > C1 > M.3'])
  it('starts through its capacitor, and hums without it', () => {
    expect(part.set().states('M')).toEqual(['at-speed'])
    const open = part.set({ cap: 'open' })
    expect([open.states('M'), open.on]).toEqual([['at-rest'], []])
  })
  it('needs the capacitor to start, not to run', () => {
    const main = part.set().load('M:main')
    expect(main).toMatchObject({ on: true, mustBeClosed: [], through: [] })
    expect(
      part
        .set({ cap: 'open' })
        .load('M:main')
        .heldOpen.map((h) => h.element),
    ).toEqual(['S1:1-2'])
  })
  it('may have it in its own body', () => {
    const { set, circuit } = own([], ['  capacitor 4-3 8 uF', 'run supply.L1 > S1 > M.4'])
    expect(circuit.elements.get('M:capacitor')).toMatchObject({ role: 'passive', note: '8 µF', ends: ['M.4', 'M.3'] })
    expect([set().states('M'), set({ cap: 'open' }).states('M')]).toEqual([['at-speed'], ['at-rest']])
  })
})

describe('a motor with an overload of its own', () => {
  const { set } = machineOf(
    house,
    'control relay good, burnt',
    'switch S1 when relay=good',
    'motor M 120 V 5 A start 22 A',
    '  winding main  4-5 2.4 ohm',
    '  winding start 3-5 3.1 ohm',
    '  contact aux   4-7 closed at rest',
    '  overload 8-4',
    'run M.7 > S1 > M.3',
    'wire supply.L1 M.8',
    'wire M.5 supply.N',
  )
  it('is in the string of its winding', () => {
    expect(set().load('M:main')).toMatchObject({ on: true, mustBeClosed: ['M:overload'] })
    expect(set().states('M:overload')).toEqual(['closed'])
  })
  it('trips on the current of a motor that hums, in a state of its own that conditions can name', () => {
    const hums = set({ relay: 'burnt' })
    expect(hums.states('M:overload')).toEqual(['tripped'])
    expect(hums.story).toContain('M:overload tripped: M:overload opens')
    const { set: withLamp } = machineOf(
      house,
      'motor M 120 V 1 A start 5 A',
      ' winding main 4-5 9 ohm',
      ' winding start 3-5 9 ohm',
      ' overload 8-4',
      'lamp LP 5 W at 120 V',
      'switch S1 when M:overload=tripped',
      'wire supply.L1 M.8 S1.1',
      'wire M.5 supply.N LP.2',
      'wire S1.2 LP.1',
    )
    expect(withLamp().on).toEqual(['LP:1-2'])
  })
})

it('a capacitor and a rectifier pass current through to what stands behind them', () => {
  const { set } = machineOf(
    house,
    'capacitor C1 4.7 uF',
    'rectifier BR L-+ N-"−"',
    'lamp LP 5 W at 120 V',
    'lamp LQ 10 W at 120 V',
    'run supply.L1 > C1 > LP > supply.N',
    'wire supply.L1 BR.L',
    'wire supply.N BR.N',
    'wire BR.+ LQ.1',
    'wire BR."−" LQ.2',
  )
  expect(set().load('LP:1-2')).toMatchObject({ on: true, through: ['C1:1-2'] })
  // 4.7 µF at 60 Hz are 564 ohm before the lamp's 2880 ohm.
  expect(set().load('LP:1-2').amps).toBeCloseTo(120 / Math.hypot(2880, 1 / (2 * Math.PI * 60 * 4.7e-6)), 3)
  expect(set().load('LQ:1-2')).toMatchObject({ on: true, through: ['BR:L-+', 'BR:N-−'] })
})

it('tells what its lines lack', () => {
  const main = ' winding main 4-5 2 ohm'
  expect(codes('motor M 120 V 5 A', ' winding main 4-5 2 ohm', ' capacitor 1-2')).toEqual(['no-farads'])
  expect(codes('motor M 120 V 5 A', main, ' overload')).toEqual(['no-tags'])
  expect(codes('motor M 120 V 5 A', ' winding main very high 4-5')).toEqual(['unknown-word'])
  expect(codes('capacitor C1')).toEqual(['no-farads'])
})
