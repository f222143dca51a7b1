import { describe, expect, it } from 'vitest'
import { machineOf } from '../../strings/machine.fixture.ts'
import { readCircuit } from '../index.ts'

const house = 'supply split-phase 240 V 60 Hz'
const codes = (...lines: readonly string[]) => readCircuit([house, ...lines].join('\n')).problems.map((p) => p.code)

describe('a board without a sequence', () => {
  const { set, circuit } = machineOf(
    house,
    'control fuse good, open',
    'control call none, heat, cool',
    'control door shut, open',
    'switch FU when fuse=good',
    'board CB powered L-N 120 V 6 W',
    '  output 1-2 when call=heat, cool and door=shut',
    '  output COOL 3-4 "cooling" when call=cool',
    'lamp LH 5 W at 120 V',
    'lamp LC 5 W at 120 V',
    'run supply.L1 > FU > CB.L',
    'wire CB.N supply.N',
    'wire supply.L1 CB.1 CB.3',
    'run CB.2 > LH > supply.N',
    'run CB.4 > LC > supply.N',
  )
  it('closes its outputs under their conditions while it is powered', () => {
    expect(set({ call: 'heat' }).on).toEqual(['CB:power', 'LH:1-2'])
    expect(set({ call: 'cool' }).on).toEqual(['CB:power', 'LH:1-2', 'LC:1-2'])
    expect(set({ call: 'heat', door: 'open' }).on).toEqual(['CB:power'])
    expect(set({ call: 'cool', fuse: 'open' }).on).toEqual([])
  })
  it('has its supply behind what it switches', () => {
    const lamp = set({ call: 'heat' }).load('LH:1-2')
    expect([lamp.mustBeClosed, lamp.enablers]).toEqual([['CB:1-2'], ['CB:power']])
    expect(set({ call: 'heat', fuse: 'open' }).load('LH:1-2').heldOpen).toEqual([
      { element: 'CB:1-2', reason: 'CB dead (CB:power off)' },
    ])
    expect(circuit.elements.get('CB:COOL')).toMatchObject({ note: 'cooling', figure: { by: 'relay' } })
  })
})

/** A burner of lamps: a fan proves its air, an igniter lights, a flame that the tester holds or withholds. */
const burner = (...sequence: readonly string[]) =>
  machineOf(
    house,
    'control call none, heat',
    'control power on, off',
    'control air proved, blocked',
    'control flame lights, none',
    'switch MAIN when power=on',
    'switch TH when call=heat',
    'switch PS when air=proved and FAN=at-speed',
    'switch FS when flame=lights and IGN=in and GAS=in',
    'motor FAN 120 V 1 A',
    '  winding main 1-2 20 ohm',
    'relay IGN',
    '  coil 1-2 120 V 1 kohm',
    '  contact 3-4 closed when in',
    'relay GAS',
    '  coil 1-2 120 V 1 kohm',
    '  contact 3-4 closed when in',
    'board CB powered L-N 120 V',
    '  input W-N',
    '  input PS-N',
    '  input FS-N',
    '  output IND L-11',
    '  output IGN L-12',
    '  output GAS L-13',
    ...sequence,
    'run supply.L1 > MAIN > CB.L',
    'wire CB.N supply.N',
    'run CB.L > TH > CB.W',
    'run CB.L > PS > CB.PS',
    'run CB.L > FS > CB.FS',
    'run CB.11 > FAN.1',
    'run CB.12 > IGN.1',
    'run CB.13 > GAS.1',
    'wire FAN.2 IGN.2 GAS.2 supply.N',
  )
const heat = [
  '  sequence heat when W=on',
  '    step purge   IND                30 s  then ignite if PS=on',
  '    step ignite  IND, IGN           17 s  then trial',
  '    step trial   IND, IGN, GAS       4 s  then run if FS=on else retry',
  '    step run     IND, IGN, GAS            until FS=off then retry or PS=off then purge',
  '    step retry   IND                 5 s  up to 3 tries then purge else lockout',
  '    step lockout',
]

describe('a sequence', () => {
  const { set, circuit } = burner(...heat)
  it('goes through its steps, and tells them with their times', () => {
    const { story, states } = set({ call: 'heat' })
    expect(states('CB:heat')).toEqual(['run'])
    expect(story).toEqual([
      'CB:power, CB:W on',
      'CB powered',
      'CB:heat purge: CB:IND closes',
      'FAN fed',
      'FAN at speed: PS closes',
      'FAN, CB:PS on',
      '30 s later: CB:heat ignite: CB:IGN closes',
      'IGN:coil on',
      'IGN in: IGN:3-4 closes',
      '17 s later: CB:heat trial: CB:GAS closes',
      'GAS:coil on',
      'GAS in: FS closes, GAS:3-4 closes',
      'CB:FS on',
      '4 s later: CB:heat run',
    ])
  })
  it('goes back to idle when the call ends, and at once when the board loses its power', () => {
    const ended = set({ call: 'heat' }, { sequence: [{ control: 'call', position: 'none' }] })
    expect([ended.states('CB:heat'), ended.states('FAN')]).toEqual([['idle'], ['at-rest']])
    const dead = set({ call: 'heat' }, { sequence: [{ control: 'power', position: 'off' }] })
    expect([dead.states('CB'), dead.states('CB:heat')]).toEqual([['dead'], ['idle']])
  })
  it('tries as often as it says, then locks out until the call ends', () => {
    const { story, states, load } = set({ call: 'heat', flame: 'none' })
    expect(states('CB:heat')).toEqual(['lockout'])
    expect(story.filter((text) => text.includes('CB:heat')).map((text) => text.replace(/: CB:(?!heat).*/, ''))).toEqual(
      [
        'CB:heat purge',
        '30 s later: CB:heat ignite',
        '17 s later: CB:heat trial',
        '4 s later: CB:heat retry',
        '5 s later: CB:heat purge 2',
        '30 s later: CB:heat ignite 2',
        '17 s later: CB:heat trial 2',
        '4 s later: CB:heat retry 2',
        '5 s later: CB:heat purge 3',
        '30 s later: CB:heat ignite 3',
        '17 s later: CB:heat trial 3',
        '4 s later: CB:heat retry 3',
        '5 s later: CB:heat lockout',
      ],
    )
    // What was on for a trial has its string there.
    expect(load('GAS:coil')).toMatchObject({ on: true, mustBeClosed: ['MAIN:1-2', 'CB:GAS'] })
  })
  it('counts a flame that is lost as a try, and begins again without its air', () => {
    const lost = (control: string, position: string) => set({ call: 'heat' }, { sequence: [{ control, position }] })
    expect(lost('flame', 'none').states('CB:heat')).toEqual(['lockout'])
    expect(lost('flame', 'none').story.filter((t) => t.includes('retry'))).toHaveLength(3)
    expect(lost('air', 'blocked').story.at(-1)).toBe('CB:heat waits at purge for CB:PS on')
  })
  it('names a step that it is stuck in', () => {
    const { story, states } = set({ call: 'heat', air: 'blocked' })
    expect(states('CB:heat')).toEqual(['purge'])
    expect(story.at(-1)).toBe('CB:heat waits at purge for CB:PS on')
    expect(set({ call: 'heat' }).story.some((text) => text.includes('waits'))).toBe(false)
  })
  it('is held open by what begins it while it is idle', () => {
    expect(set({ call: 'none' }).load('FAN:main').heldOpen).toEqual([
      { element: 'CB:IND', reason: 'CB:heat idle (CB:W off)' },
    ])
  })
  it('has a state for each step of each try', () => {
    expect(circuit.actors.get('CB:heat')?.states).toEqual([
      'idle',
      ...['purge', 'ignite', 'trial', 'run', 'retry'],
      ...['purge-2', 'ignite-2', 'trial-2', 'run-2', 'retry-2'],
      ...['purge-3', 'ignite-3', 'trial-3', 'run-3', 'retry-3'],
      'lockout',
    ])
  })
})

it('names a sequence that goes round for ever', () => {
  const { set } = burner(
    '  sequence heat when W=on',
    '    step purge  IND      30 s then trial',
    '    step trial  IND IGN GAS 4 s then run if FS=on else purge',
    '    step run    IND GAS',
  )
  expect(set({ call: 'heat', flame: 'none' }).story.at(-1)).toMatch(/CB:heat.* will not settle/)
})

it('goes to a step of its own when the call ends, and from there to idle', () => {
  const { set } = burner(
    '  sequence heat when W=on ends with cool',
    '    step run   IND GAS IGN',
    '    step cool  IND      90 s then idle',
  )
  const { story, states } = set({ call: 'heat' }, { sequence: [{ control: 'call', position: 'none' }] })
  expect(states('CB:heat')).toEqual(['idle'])
  const told = story.slice(story.indexOf('call none') + 1)
  expect(told.filter((text) => text.includes('CB:heat'))).toEqual([
    'CB:heat cool: CB:IGN opens, CB:GAS opens',
    '90 s later: CB:heat idle: CB:IND opens',
  ])
})

it('tells what its lines lack', () => {
  const board = (...lines: readonly string[]) => codes('control call none, heat', 'board CB powered R-C 24 V', ...lines)
  const steps = (...lines: readonly string[]) =>
    board('  output A 1-2', '  sequence heat when call=heat', ...lines.map((l) => `    ${l}`))
  expect(board('  output A 1-2 when call=heat')).toEqual([])
  expect(board('  output A 1-2')).toEqual(['output-idle'])
  expect(board('  output A')).toEqual(['no-tags'])
  expect(codes('board CB powered 24 V')).toEqual(['no-power'])
  expect(codes('board CB powered R-C')).toEqual(['no-volts'])
  expect(board('  step run 5 s')).toEqual(['step-alone'])
  expect(steps('step run A')).toEqual([])
  expect(steps()).toEqual(['output-idle', 'no-steps'])
  expect(steps('step run B')).toEqual(['output-idle', 'unknown-output'])
  expect(steps('step run A 5 s then go')).toEqual(['unknown-step'])
  expect(steps('step run A', 'step run A')).toEqual(['step-twice'])
  expect(steps('step run A then run else run')).toEqual(['else-alone'])
  expect(steps('step run A up to 3 tries then run')).toEqual(['tries-form'])
  expect(steps('step run A until call then run')).toEqual(['clause-incomplete'])
  expect(steps('step run A until call=cold then run')).toEqual(['unknown-position'])
})
