import { describe, expect, it } from 'vitest'
import { machineOf } from '../../strings/machine.fixture.ts'
import { readCircuit } from '../index.ts'

const house = 'supply split-phase 240 V 60 Hz'
const codes = (...lines: readonly string[]) => readCircuit([house, ...lines].join('\n')).problems.map((p) => p.code)

describe('a relay', () => {
  const { circuit, set } = machineOf(
    house,
    'control knob off, on',
    'switch S1 when knob=on',
    'relay K1 "Heat relay"',
    '  coil A1-A2 120 V 2 kohm in 90 V out 40 V',
    '  contact 1-2 closed when in',
    '  contact 3-4 "both poles" closed when in',
    '  contact C to NO when in else NC',
    'heater H1 2400 W at 240 V',
    'lamp RDY 5 W at 120 V',
    'lamp RUN 5 W at 120 V',
    'run supply.L1 > S1 > K1.A1',
    'wire K1.A2 supply.N',
    'wire supply.L1 K1.1',
    'wire K1.2 H1.1',
    'wire H1.2 K1.3',
    'wire K1.4 supply.L2',
    'wire supply.L1 K1.C',
    'wire K1.NO RUN.1',
    'wire K1.NC RDY.1',
    'wire RUN.2 RDY.2 supply.N',
  )
  it('works all of its contacts with its coil', () => {
    expect(set({ knob: 'off' }).on).toEqual(['RDY:1-2'])
    expect(set({ knob: 'on' }).on).toEqual(['K1:coil', 'H1:1-2', 'RUN:1-2'])
    expect(set({ knob: 'on' }).story).toContain('K1 in: K1:1-2 closes, K1:3-4 closes, K1:C-NO closes, K1:C-NC opens')
  })
  it('has its contacts in the string of the load, and its coil behind them', () => {
    const heater = set({ knob: 'on' }).load('H1:1-2')
    expect(heater.mustBeClosed).toEqual(['K1:1-2', 'K1:3-4'])
    expect(heater.enablers).toEqual(['K1:coil'])
    expect(set({ knob: 'off' }).load('H1:1-2').heldOpen).toEqual([
      { element: 'K1:1-2', reason: 'K1 out (K1:coil off)' },
      { element: 'K1:3-4', reason: 'K1 out (K1:coil off)' },
    ])
  })
  it('draws its contacts as a relay does, and keeps the volts it moves at as shares', () => {
    expect(circuit.elements.get('K1:1-2')?.figure).toEqual({ kind: 'contact', rest: 'open', by: 'relay' })
    expect(circuit.elements.get('K1:C-NC')?.throwOf).toBe('K1:C-NO')
    expect(circuit.elements.get('K1:coil')?.load).toMatchObject({ volts: 120, works: 0.75, holds: 40 / 120 })
  })
})

describe('volts at which a coil moves', () => {
  // A resistor before the coil leaves it a share of the supply's 24 V.
  const atShare = (ohms: number, words = '') =>
    machineOf(
      'supply split-phase 48 V 60 Hz',
      'control hold off, on',
      `resistor R1 ${ohms} ohm`,
      'switch BY when hold=on',
      'relay K1',
      `  coil A1-A2 24 V 100 ohm ${words}`,
      '  contact 1-2 closed when in',
      'run supply.L1 > R1 > K1.A1',
      'wire K1.A2 supply.N',
      'run R1.1 > BY > K1.A1',
    )
  const pulls = (ohms: number, words?: string) => atShare(ohms, words).set().states('K1')[0]
  const holds = (ohms: number, words?: string) =>
    atShare(ohms, words)
      .set({ hold: 'on' }, { sequence: [{ control: 'hold', position: 'off' }] })
      .states('K1')
      .at(-1)
  it('are four fifths of its rated volts to pull in, three tenths to hold, unless its line says so', () => {
    expect([pulls(20), pulls(30)]).toEqual(['in', 'out'])
    expect([holds(200), holds(260)]).toEqual(['in', 'out'])
    expect([pulls(30, 'in 17 V'), pulls(30, 'in 19 V')]).toEqual(['in', 'out'])
    expect([holds(200, 'out 7 V'), holds(200, 'out 9 V')]).toEqual(['in', 'out'])
  })
})

it('pulls in and drops out after the time on its line', () => {
  const { set } = machineOf(
    house,
    'control knob off, on',
    'switch S1 when knob=on',
    'relay K1',
    '  coil A1-A2 120 V 2 kohm in after 20 s out after 45 s',
    '  contact 1-2 closed when in',
    'run supply.L1 > S1 > K1.A1',
    'wire K1.A2 supply.N',
  )
  const { story } = set({ knob: 'on' }, { sequence: [{ control: 'knob', position: 'off' }] })
  expect(story).toEqual([
    'K1:coil on',
    '20 s later: K1 in: K1:1-2 closes',
    'knob off',
    'K1:coil off',
    '45 s later: K1 out: K1:1-2 opens',
  ])
})

it('holds itself in through its own contact, and lets go when stop is pressed', () => {
  const { set } = machineOf(
    house,
    'control start released, held springs back',
    'control stop released, held',
    'button PB when start=held',
    'switch ST when stop=released',
    'contactor K1',
    '  coil A1-A2 120 V 60 VA',
    '  contact 1-2 closed when in',
    'run supply.L1 > ST > PB > K1.A1',
    'wire K1.A2 supply.N',
    'wire PB.1 K1.1',
    'wire PB.2 K1.2',
  )
  const { load } = set()
  expect(load('K1:coil')).toMatchObject({ on: true, holdsItself: true, toStart: ['PB:1-2'] })
  expect(load('K1:coil').mustBeClosed).toEqual(['ST:1-2', 'K1:1-2'])
  expect(set({ stop: 'held' }).on).toEqual([])
})

it('an overload relay opens its contact when the current through it stays too high', () => {
  const { set } = machineOf(
    house,
    'control jam no, yes',
    'switch S1 when jam=yes',
    'contactor K1',
    '  coil A1-A2 120 V 2 kohm',
    '  contact 1-2 closed when in',
    'overload OL trips 5 A',
    '  through T1-T2',
    '  contact 95-96 closed when closed',
    'heater H1 5 A 240 V',
    'heater H2 4 A 240 V',
    'wire supply.L1 OL.95',
    'wire OL.96 K1.A1',
    'wire K1.A2 supply.N',
    'wire supply.L1 K1.1',
    'wire K1.2 OL.T1',
    'wire OL.T2 H1.1',
    'wire H1.2 supply.L2',
    'run OL.T2 > S1 > H2 > supply.L2',
  )
  expect(set().states('OL')).toEqual(['closed'])
  const jammed = set({ jam: 'yes' })
  expect(jammed.states('OL')).toEqual(['tripped'])
  expect(jammed.states('K1')).toEqual(['out'])
  expect(set().load('H1:1-2').mustBeClosed).toEqual(['K1:1-2', 'OL:T1-T2'])
})

it('tells what its lines lack', () => {
  expect(codes('relay K1')).toEqual(['no-coil'])
  expect(codes('relay K1', ' coil 1-2 24 V')).toEqual(['no-rating'])
  expect(codes('relay K1', ' coil 24 V 200 ohm')).toEqual(['no-tags'])
  expect(codes('relay K1', ' coil 1-2 24 V 200 ohm', ' coil 3-4 24 V 200 ohm')).toEqual(['second-coil'])
  expect(codes('relay K1', ' coil 1-2 24 V 200 ohm in 10 A')).toEqual(['wrong-quantity'])
  expect(codes('relay K1', ' coil 1-2 24 V 200 ohm', ' contact 3-4')).toEqual(['no-condition'])
  expect(codes('relay K1', ' coil 1-2 24 V 200 ohm', ' contact C to NO when in')).toEqual(['acted-contact-form'])
  expect(codes('relay K1', ' coil 1-2 24 V 200 ohm', ' contact 3-4 closed when up')).toEqual(['clause-incomplete'])
})
