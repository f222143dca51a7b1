import { describe, expect, it } from 'vitest'
import { readCircuit } from '../circuit/index.ts'
import { type Operation, operate, settingOf } from './operate.ts'

function circuitOf(...lines: readonly string[]) {
  const { circuit, problems } = readCircuit(
    ['supply split-phase 240 V 60 Hz by cord breaker 30 A', ...lines].join('\n'),
  )
  expect(problems.filter((p) => p.severity === 'error')).toEqual([])
  return circuit
}
const phases = (operation: Operation, name: string) => operation.phases.map((p) => p.conditions[name])
const events = (operation: Operation) =>
  operation.steps.flatMap(({ event }) => {
    if (!event) return []
    if (event.kind === 'set') return [`${event.control} ${event.position}`]
    if (event.kind === 'heat') return [`${event.actor} ${event.rising ? 'up' : 'down'}`]
    return [`${event.kind} ${event.kind === 'waits' ? event.actor : event.actors.join(' ')}`]
  })

describe('settings', () => {
  const circuit = circuitOf(
    'control dial off, on',
    'control door shut, open normally open',
    'control start up, down springs back',
  )
  it('stand where they normally do unless given', () => {
    expect(settingOf(circuit, { dial: 'on' })).toEqual({ dial: 'on', door: 'open', start: 'up' })
  })
  it('press and release what springs back, unless it is given a position', () => {
    expect(events(operate(circuit))).toEqual(['start down', 'start up'])
    expect(events(operate(circuit, { start: 'down' }))).toEqual([])
    expect(operate(circuit, { start: 'down' }).setting.start).toBe('down')
    expect(events(operate(circuit, {}, { sequence: [{ control: 'dial', position: 'on' }] }))).toEqual(['dial on'])
  })
})

describe('motors', () => {
  const motor = [
    'motor M 120 V 5 A start 22 A',
    '  winding main 4-5 2.4 ohm',
    '  winding start 3-5 3.1 ohm',
    '  contact aux 4-3 closed at rest',
  ]
  it('start with their start winding fed, and drop it at speed', () => {
    const run = operate(circuitOf(...motor, 'wire supply.L1 M.4', 'wire M.5 supply.N'))
    expect(phases(run, 'M')).toEqual(['at-speed'])
    expect(events(run)).toEqual(['moves M'])
  })
  it('hum without it, and the hum blows the fuse', () => {
    const lines = motor.filter((l) => !l.includes('aux'))
    const run = operate(circuitOf(...lines, 'fuse F1 blows 10 A', 'run supply.L1 > F1 > M.4', 'wire M.5 supply.N'))
    expect(phases(run, 'M')).toEqual(['at-rest'])
    expect(phases(run, 'F1')).toEqual(['blown'])
  })
  it('starting amps alone blow nothing', () => {
    const run = operate(circuitOf(...motor, 'fuse F1 blows 10 A', 'run supply.L1 > F1 > M.4', 'wire M.5 supply.N'))
    expect(phases(run, 'F1')).toEqual(['whole'])
  })
  it('turn what they drive in the same step', () => {
    const run = operate(circuitOf(...motor, 'drive drum turned by M', 'wire supply.L1 M.4', 'wire M.5 supply.N'))
    expect(events(run)).toEqual(['moves M drum'])
    expect(run.phases[0]?.conditions.drum).toBe('turning')
  })
})

describe('heat comes last', () => {
  const heater = 'heater H1 2400 W at 240 V'
  it('passes the lowest point ahead, then comes down when nothing warms, until it repeats', () => {
    const run = operate(
      circuitOf(
        heater,
        'zone box warms with H1',
        'thermostat HL opens 90 C closes 70 C zone box',
        'thermostat OT opens 60 C closes 50 C zone box',
        'cutoff TC opens 110 C zone box',
        'run supply.L1 > HL > OT > TC > H1 > supply.L2',
      ),
    )
    expect(events(run)).toEqual(['OT up', 'OT down'])
    expect(run.phases.map((p) => [p.conditions.OT, p.conditions.HL, p.conditions.TC])).toEqual([
      ['cold', 'cold', 'cold'],
      ['hot', 'cold', 'cold'],
    ])
  })
  it('goes no further than where the zone settles', () => {
    const run = (normal: string) =>
      operate(
        circuitOf(
          heater,
          `zone box warms with H1 ${normal}`,
          'cutoff TC opens 110 C zone box',
          'run supply.L1 > TC > H1 > supply.L2',
        ),
      )
    expect(phases(run('normal 100 C'), 'TC')).toEqual(['cold'])
    expect(phases(run('normal 120 C'), 'TC')).toEqual(['cold', 'blown'])
    expect(phases(run('normal 248 F'), 'TC')).toEqual(['cold', 'blown'])
    expect(phases(run('normal 210 F'), 'TC')).toEqual(['cold'])
    expect(phases(run(''), 'TC')).toEqual(['cold', 'blown'])
  })
  it('settles where it does without airflow when the blower stands', () => {
    const run = operate(
      circuitOf(
        heater,
        'motor M 120 V 3 A',
        '  winding main 4-5 4 ohm',
        'airflow duct moved by M',
        'zone box warms with H1 airflow duct normal 100 C blocked 150 C',
        'cutoff TC opens 110 C zone box',
        'run supply.L1 > TC > H1 > supply.L2',
      ),
    )
    expect(phases(run, 'TC')).toEqual(['cold', 'blown'])
  })
  it('closes on rise where the text says so', () => {
    const run = operate(
      circuitOf(
        heater,
        'lamp LP 10 W at 120 V',
        'zone box warms with H1 normal 80 C',
        'thermostat FT closes 50 C opens 40 C zone box',
        'run supply.L1 > H1 > supply.L2',
        'run supply.L1 > FT > LP > supply.N',
      ),
    )
    expect(phases(run, 'FT')).toEqual(['cold', 'hot'])
  })
})

describe('current', () => {
  it('a dead short trips the breaker, and the legs are dead after', () => {
    const circuit = circuitOf('control door shut, open', 'switch S1 when door=shut', 'run supply.L1 > S1 > supply.L2')
    const run = operate(circuit)
    expect(phases(run, 'breaker')).toEqual(['tripped'])
    expect(phases(operate(circuit, { door: 'open' }), 'breaker')).toEqual(['on'])
  })
})

it('of a fuse and a breaker in one string the one whose rating is exceeded most opens, and that is all', () => {
  const run = operate(
    circuitOf(
      'fuse F1 blows 10 A',
      'fuse F2 blows 20 A',
      'resistor R1 1 ohm',
      'run supply.L1 > F2 > F1 > R1 > supply.N',
    ),
  )
  expect([phases(run, 'F1'), phases(run, 'F2'), phases(run, 'breaker')]).toEqual([['blown'], ['whole'], ['on']])
})

it('keeps the states that stand for a while and pass by themselves, those after the last control moved', () => {
  const lines = [
    'control knob off, on',
    'switch S1 when knob=on',
    'relay K1',
    '  coil 1-2 120 V 2 kohm in after 20 s',
    '  contact 3-4 closed when out',
    '  contact 5-6 closed when in',
    'lamp LA 5 W at 120 V',
    'lamp LB 5 W at 120 V',
    'run supply.L1 > S1 > K1.1',
    'wire K1.2 supply.N',
    'wire S1.2 K1.3 K1.5',
    'run K1.4 > LA > supply.N',
    'run K1.6 > LB > supply.N',
  ]
  const circuit = circuitOf(...lines)
  const run = operate(circuit, { knob: 'on' })
  expect([run.passing.map((p) => p.conditions.K1), phases(run, 'K1')]).toEqual([['out'], ['in']])
  expect(operate(circuit, { knob: 'on' }, { sequence: [{ control: 'knob', position: 'off' }] }).passing).toEqual([])
  expect(operate(circuit).passing).toEqual([])
})

it('names what will not settle', () => {
  // The motor opens its own feed at speed and closes it at rest, again and again.
  const run = operate(
    circuitOf(
      'motor M 120 V 3 A',
      '  winding main 4-5 4 ohm',
      '  contact own 1-2 closed at rest',
      'run supply.L1 > M.1',
      'wire M.2 M.4',
      'wire M.5 supply.N',
    ),
  )
  expect(run.phases.map((p) => p.chatters)).toEqual([['M']])
})

it('keeps what is forced where it is', () => {
  const circuit = circuitOf('heater H1 2400 W at 240 V', 'cutoff TC opens 90 C', 'run supply.L1 > TC > H1 > supply.L2')
  const run = operate(circuit, {}, { forced: { TC: 'blown' } })
  expect(phases(run, 'TC')).toEqual(['blown'])
})
