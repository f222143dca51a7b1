import { describe, expect, it } from 'vitest'
import { abs } from '../../network/index.ts'
import { operate } from '../../operate/index.ts'
import { traceSetting } from '../../strings/index.ts'
import { machineOf } from '../../strings/machine.fixture.ts'
import { readCircuit } from '../index.ts'

const house = 'supply split-phase 240 V 60 Hz'

describe('a control transformer', () => {
  const lines = (secondary: string, t1 = '40 VA') => [
    house,
    'control call none, heat',
    'control door shut, open',
    `transformer T1 ${t1}`,
    '  primary 1-2 120 V 30 ohm',
    `  secondary R-C ${secondary}`,
    'switch DS when door=shut',
    'switch TH when call=heat',
    'relay K1',
    '  coil 1-2 24 V 100 ohm',
    '  contact 3-4 closed when in',
    'run supply.L1 > DS > T1.1',
    'wire T1.2 supply.N',
    'run T1.R > TH > K1.1',
    'wire K1.2 T1.C',
  ]
  const { set } = machineOf(...lines('24 V 2 ohm'))
  it('feeds a string of its own, from its first terminal to its second', () => {
    const coil = set({ call: 'heat' }).load('K1:coil')
    expect(coil).toMatchObject({ on: true, mustBeClosed: ['TH:1-2'], poles: ['T1.R', 'T1.C'] })
    expect(coil.order.flat()).toEqual(['TH:1-2', 'K1:coil'])
  })
  it('has its primary behind every load of the secondary, with what the primary itself needs', () => {
    const { load } = set({ call: 'heat' })
    expect(load('K1:coil').enablers).toEqual(['T1:primary'])
    expect(load('T1:primary')).toMatchObject({ on: true, mustBeClosed: ['DS:1-2'], poles: ['L1', 'N'] })
    expect(set({ call: 'heat', door: 'open' }).on).toEqual([])
  })
  it('sinks by the drop in its winding: volts are those at no load, unless they are `loaded`', () => {
    // 24 V behind 2 ohm on 100 ohm; loaded: 24 V + 40 VA / 24 V × 2 ohm = 27.33 V at no load.
    const drop = machineOf(...lines('24 V 2 ohm'))
      .set({ call: 'heat' })
      .load('K1:coil').volts
    const loaded = machineOf(...lines('24 V 2 ohm loaded'))
      .set({ call: 'heat' })
      .load('K1:coil').volts
    expect(drop).toBeCloseTo((24 * 100) / 102, 1)
    expect(loaded).toBeCloseTo((27.333 * 100) / 102, 1)
  })
  it('stands up to the open contact, also where nothing joins the secondary to the house', () => {
    const { circuit } = machineOf(...lines('24 V 2 ohm'))
    const frame = traceSetting(circuit, { call: 'none' }).story.at(-1)?.frame
    expect([frame?.feed.get('T1.R~TH.1'), frame?.feed.get('TH:1-2'), frame?.feed.get('TH.2~K1.1')]).toEqual([
      'fed',
      'fed',
      'dead',
    ])
  })
  it('takes an open contact that would short its secondary for a short, by its own amps', () => {
    const withBridge = (t1: string) =>
      machineOf(
        ...lines('24 V 2 ohm', t1),
        'control bridge open, shut',
        'switch BR when bridge=shut',
        'run T1.R > BR > T1.C',
      )
        .set({ call: 'heat' })
        .load('K1:coil').shorts
    // 24 V / 2 ohm is 12 A: more than three times 40 VA / 24 V, less than three times 100 VA / 24 V.
    expect(withBridge('40 VA')).toEqual(['BR:1-2'])
    expect(withBridge('100 VA')).toEqual([])
  })
})

it('a chain of two transformers carries the volts through both, and each is an enabler', () => {
  const { set, circuit } = machineOf(
    house,
    'transformer T1 100 VA',
    '  primary 1-2 240 V',
    '  secondary low 3-4 120 V 0.5 ohm',
    '  secondary lamp 5-6 12 V 0.2 ohm 20 VA',
    'transformer T2 20 VA',
    '  primary 1-2 120 V',
    '  secondary 3-4 24 V 1 ohm',
    'lamp LP 10 W at 24 V',
    'lamp LQ 10 W at 12 V',
    'wire supply.L1 T1.1',
    'wire T1.2 supply.L2',
    'wire T1.3 T2.1',
    'wire T1.4 T2.2',
    'wire T2.3 LP.1',
    'wire T2.4 LP.2',
    'wire T1.5 LQ.1',
    'wire T1.6 LQ.2',
  )
  const worked = set()
  expect(worked.on).toEqual(['T1:primary', 'T2:primary', 'LP:1-2', 'LQ:1-2'])
  expect(worked.load('LP:1-2').enablers).toEqual(['T2:primary', 'T1:primary'])
  expect(worked.load('LP:1-2').volts).toBeCloseTo(24 * (57.6 / 58.6), 0)
  expect([...circuit.elements.keys()].slice(4, 7)).toEqual(['T1:primary', 'T1:low', 'T1:lamp'])
})

it('has no force on direct current', () => {
  const { circuit, problems } = readCircuit(
    [
      'transformer T1 40 VA',
      ' primary 1-2 24 V',
      ' secondary 3-4 24 V',
      'lamp LP 5 W at 24 V',
      'wire T1.3 LP.1',
      'wire T1.4 LP.2',
      'supply dc 24 V',
      'wire supply."+" T1.1',
      'wire supply."-" T1.2',
    ].join('\n'),
  )
  expect(problems).toEqual([])
  const [phase] = operate(circuit).phases
  const primary = [...circuit.elements.keys()].indexOf('T1:primary')
  expect(abs(phase?.solved.voltsAcross(primary) ?? { re: Number.NaN, im: 0 })).toBeGreaterThan(20)
  const lamp = [...circuit.elements.keys()].indexOf('LP:1-2')
  expect(abs(phase?.solved.voltsAcross(lamp) ?? { re: Number.NaN, im: 0 })).toBe(0)
})

it('tells what its lines lack', () => {
  const codes = (...lines: readonly string[]) => readCircuit([house, ...lines].join('\n')).problems.map((p) => p.code)
  expect(codes('transformer T1 40 VA')).toEqual(['no-windings'])
  expect(codes('transformer T1 40 VA', ' primary 1-2 120 V')).toEqual(['no-windings'])
  expect(codes('transformer T1', ' primary 1-2 120 V', ' secondary 3-4 24 V')).toEqual(['va-assumed'])
  expect(codes('transformer T1 40 VA', ' primary 1-2', ' secondary 3-4 24 V')).toEqual(['winding-volts'])
  expect(codes('transformer T1 40 VA', ' primary 120 V', ' secondary 3-4 24 V')).toEqual(['no-tags'])
  expect(codes('transformer T1 40 VA', ' primary 1-2 120 V', ' primary 5-6 240 V', ' secondary 3-4 24 V')).toEqual([
    'second-winding',
  ])
})
