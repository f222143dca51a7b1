import { describe, expect, it } from 'vitest'
import { machineOf } from '../../strings/machine.fixture.ts'

describe('a dryer burner: split coil, second valve, radiant sensor', () => {
  const lines = [
    'supply single-phase 120 V 60 Hz',
    'control knob off, on',
    'switch S1 when knob=on',
    'igniter IG 120 V cold 120 ohm hot 45 ohm glows after 30 s stays hot 20 s',
    'valve V1',
    '  coil hold 1-2 120 V 1300 ohm',
    '  coil boost 1-3 120 V 560 ohm',
    '  opens with hold and boost, stays open with hold',
    'valve V2 120 V 1300 ohm',
    'radiant-sensor RS zone flame',
    'burner B lit by IG fed by V1, V2',
    'zone flame warms with IG, B',
    'run supply.L > S1 > V1.1',
    'wire V1.2 supply.N',
    'wire V1.1 IG.1',
    'wire IG.2 V1.3 RS.1 V2.1',
    'wire RS.2 V2.2 supply.N',
  ]
  const { set } = machineOf(...lines)
  const on = set({ knob: 'on' })

  it('tells the ignition in its order', () => {
    expect(on.story).toEqual([
      'IG, V1:hold, V1:boost on',
      'V1 open',
      '30 s later: IG hot',
      '200 °C: RS opens',
      'V2 on',
      'IG, V1:boost off',
      'V2 open, B lit',
      '20 s later: IG cold',
    ])
  })
  it('feeds the second valve through the hot igniter, and so only once the sensor is open', () => {
    const v2 = on.load('V2:1-2')
    expect(v2.mustBeClosed).toEqual(['S1:1-2'])
    expect(v2.mustBeOpen).toEqual(['RS:1-2'])
    expect(v2.volts).toBeGreaterThan(0.9 * 120)
    // The igniter heats what opens the sensor.
    expect(v2.enablers).toContain('IG:1-2')
  })
  it('keeps its flame when the igniter is cold again', () => {
    expect(on.states('B')).toEqual(['out', 'lit'])
    expect(on.states('IG')).toEqual(['hot', 'cold'])
  })
  it('never lights with the sensor stuck closed: the igniter glows on', () => {
    const stuck = set({ knob: 'on' }, { forced: { RS: 'cold' } })
    expect(stuck.states('B')).toEqual(['out'])
    expect(stuck.states('IG')).toEqual(['hot'])
  })
  it('with the sensor open from the start feeds no igniter', () => {
    const open = set({ knob: 'on' }, { forced: { RS: 'hot' } })
    expect(open.on).not.toContain('IG:1-2')
    expect(open.states('B')).toEqual(['out'])
  })
})

describe('an oven: igniter and valve in series', () => {
  const oven = (igniter: string) =>
    machineOf(
      'supply single-phase 120 V 60 Hz',
      `igniter IG ${igniter} glows after 40 s`,
      'oven-valve OV opens above 2.9 A 1.2 ohm',
      'burner B lit by IG fed by OV',
      'zone oven warms with B normal 250 C',
      'thermostat BT opens 180 C closes 165 C zone oven',
      'run supply.L > BT > IG > OV > supply.N',
    ).set()
  it('opens once the igniter is hot, lights at once, and cycles on its thermostat', () => {
    const good = oven('120 V cold 150 ohm hot 36 ohm')
    expect(good.story.slice(0, 5)).toEqual([
      'IG on',
      '40 s later: IG hot',
      'OV on',
      'OV open, B lit',
      '180 °C: BT opens',
    ])
    expect(good.states('B')).toEqual(['lit', 'out'])
  })
  it('a weak igniter glows, and its current never opens the valve', () => {
    const weak = oven('120 V cold 150 ohm hot 48 ohm')
    expect(weak.on).toEqual(['IG:1-2'])
    expect(weak.states('B')).toEqual(['out'])
  })
})

describe('a millivolt system', () => {
  const lines = [
    'control pilot lit, out',
    'control knob off, on',
    'thermopile TP 750 mV 3 ohm when pilot=lit',
    'valve MV 300 mV 2.4 ohm',
    'switch S1 when knob=on',
    'burner B lit by pilot fed by MV',
  ]
  const { set } = machineOf(...lines, 'run TP.+ > S1 > MV > TP.-')
  it('runs on its thermopile, divided between its ohms and the valve (Ohm)', () => {
    const run = set({ knob: 'on' })
    expect(run.on).toEqual(['MV:1-2'])
    expect(run.load('MV:1-2').volts).toBeCloseTo((0.75 * 2.4) / 5.4, 2)
    expect(run.load('MV:1-2').mustBeClosed).toEqual(['S1:1-2'])
    expect(run.load('MV:1-2').poles).toEqual(['+', '−'])
    expect(run.states('B')).toEqual(['lit'])
  })
  it('is dead without its pilot, and says so', () => {
    const out = set({ knob: 'on', pilot: 'out' })
    expect(out.on).toEqual([])
    expect(out.states('B')).toEqual(['out'])
    expect(out.load('MV:1-2').heldOpen).toEqual([
      { element: 'TP:+', reason: 'pilot out' },
      { element: 'TP:−', reason: 'pilot out' },
    ])
  })
})

it('a flame rod conducts microamps, and only in a flame', () => {
  const { set } = machineOf(
    'supply single-phase 120 V 60 Hz',
    'control gas shut, open',
    'control pilot lit, out',
    'burner B lit by pilot fed by gas',
    'flame-rod FR senses B',
    'lamp FS "Flame sense" 3 uA at 120 V',
    'run supply.L > FS > FR.1',
    'strap supply.N chassis',
  )
  const volts = (gas: string) => set({ gas }).load('FS:1-2').volts
  expect(volts('open')).toBeGreaterThan(40)
  expect(volts('shut')).toBeLessThan(1)
})

it('a valve of one coil opens with it', () => {
  const { set } = machineOf(
    'supply single-phase 120 V 60 Hz',
    'control water empty, full',
    'level-switch LV C to F when water=full else E',
    'valve WV "Water valve" 120 V 900 ohm',
    'pump DP 120 V 1.1 A 14 ohm',
    'run supply.L > LV.C',
    'run LV.E > WV > supply.N',
    'run LV.F > DP > supply.N',
  )
  expect(set({ water: 'empty' }).on).toEqual(['WV:1-2'])
  expect(set({ water: 'empty' }).states('WV')).toEqual(['open'])
  expect(set({ water: 'full' }).on).toEqual(['DP:1-2'])
  expect(set({ water: 'full' }).states('DP')).toEqual(['at-speed'])
  expect(set({ water: 'full' }).load('DP:1-2').mustBeClosed).toEqual(['LV:C-F'])
})
