import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { machineOf } from '../../core/strings/machine.fixture.ts'

const { set } = machineOf(readFileSync('schematics-demo/gas-dryer.circuit', 'utf8'))
const normal = set({ dial: 'normal' })
const burnerString = ['CS:A-C', 'OT:1-2', 'HL:1-2', 'M:heat']

it('ignites: igniter hot, sensor opens, second valve, flame, igniter cold, flame stays', () => {
  // What the timer does with the dial meanwhile is no part of it.
  expect(normal.story.filter((text) => !text.includes('turns dial'))).toEqual([
    'start held',
    'M:main fed',
    'TM on',
    'M at speed: M:heat closes, M:hold closes, M:aux opens',
    'M:main, IG, V1:hold, V1:boost on',
    'V1 open',
    '30 s later: IG hot',
    'start released',
    '200 °C: RS opens',
    'V2 on',
    'IG, V1:boost off',
    'V2 open, B lit',
    '20 s later: IG cold',
    '68 °C: OT opens',
    'V1:hold, V2 off',
    'V1 shut, V2 shut, B out',
    '150 °C: RS closes',
    '57 °C: OT closes',
    'IG, V1:hold, V1:boost on',
    'V1 open',
    '30 s later: IG hot',
  ])
  expect(normal.states('B').slice(0, 3)).toEqual(['out', 'lit', 'out'])
})

describe('strings at normal', () => {
  it('motor', () => {
    const motor = normal.load('M:main')
    expect(motor.mustBeClosed).toEqual(['CS:A-B', 'TF:link', 'BS:1-2', 'M:hold', 'DS:C-NO'])
    expect(motor.toStart).toEqual(['PB:1-2', 'M:start', 'M:aux'])
    expect(motor.holdsItself).toBe(true)
    expect(motor.poles).toEqual(['L', 'N'])
  })
  it('igniter and boost coil return through the radiant sensor', () => {
    expect(normal.load('IG:1-2').mustBeClosed).toEqual([...burnerString, 'RS:1-2'])
    expect(normal.load('V1:boost').mustBeClosed).toEqual([...burnerString, 'RS:1-2'])
    expect(normal.load('IG:1-2').enablers).toEqual(['M:main'])
  })
  it('the hold coil does without it', () => expect(normal.load('V1:hold').mustBeClosed).toEqual(burnerString))
  it('the second valve is fed through the igniter, and only with the sensor open', () => {
    const second = normal.load('V2:4-5')
    expect(second.mustBeClosed).toEqual(burnerString)
    expect(second.through).toEqual(['IG:1-2'])
    expect(second.mustBeOpen).toEqual(['RS:1-2'])
    expect(second.weak).toBe(false)
    expect(second.enablers).toContain('IG:1-2')
    // 1220 ohm behind 45 ohm beside 560: common practice, no source, and Ohm.
    expect(second.volts / 119).toBeCloseTo(1220 / (1220 + (45 * 560) / 605), 1)
  })
})

describe('what goes wrong', () => {
  it('a sensor stuck closed: the igniter glows, no flame', () => {
    const stuck = set({ dial: 'normal' }, { forced: { RS: 'cold' } })
    expect(stuck.on).toEqual(['TM:1-2', 'M:main', 'IG:1-2', 'V1:hold', 'V1:boost'])
    expect(stuck.states('B')).toEqual(['out'])
  })
  it('a boost coil that is open: the igniter lights nothing', () => {
    const open = set({ dial: 'normal' }, { opened: new Set(['V1:boost']) })
    expect(open.states('B')).not.toContain('lit')
    expect(open.states('V1')).not.toContain('open')
  })
  it('an open igniter: no glow, and the sensor stays closed', () => {
    const open = set({ dial: 'normal' }, { opened: new Set(['IG:1-2']) })
    expect(open.states('RS')).toEqual(['cold'])
    expect(open.states('B')).toEqual(['out'])
  })
  it('a broken belt stops the motor and all that waits for it', () => {
    const broken = set({ dial: 'normal' }, { forced: { 'drum-belt': 'broken' } })
    expect(broken.on).toEqual([])
    expect(broken.load('M:main').heldOpen.map((h) => h.element)).toContain('BS:1-2')
    expect(broken.load('IG:1-2').heldOpen.map((h) => h.element)).toEqual(['M:heat'])
  })
})

it('delicate cycles lower, by the bias heater', () => {
  const { story } = set({ dial: 'delicate' })
  expect(story).toContain('55 °C: OT opens')
  expect(story).toContain('44 °C: OT closes')
})

it('air and cool-down hold the burner open at the chart', () => {
  for (const dial of ['air', 'cool-down']) {
    expect(set({ dial }).load('V1:hold').heldOpen).toEqual([{ element: 'CS:A-C', reason: `chart: o at ${dial}` }])
  }
})
