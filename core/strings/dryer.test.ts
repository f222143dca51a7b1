import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { readCircuit, type Setting } from '../circuit/index.ts'
import { stringTable } from './table.ts'
import { traceSetting } from './traceSetting.ts'

const text = readFileSync(new URL('../../schematics-demo/bench-dryer.circuit', import.meta.url), 'utf8')
const { circuit, problems } = readCircuit(text)
const load = (id: string, given: Setting, options = {}) => {
  const found = traceSetting(circuit, given, options).loads.find((l) => l.load === id)
  if (!found) throw new Error(`no load ${id}`)
  return found
}
const heating = { dial: 'timed-high', door: 'shut' }

it('is read without a problem', () => expect(problems).toEqual([]))

describe('heating', () => {
  it('runs the heater through exactly the contacts and links of its string on both sides', () => {
    const h1 = load('H1:1-2', heating)
    expect(h1.on).toBe(true)
    expect(h1.weak).toBe(false)
    expect(h1.mustBeClosed).toEqual(['CS:A-C', 'OT:1-2', 'HL:1-2', 'TC:link', 'M:heat'])
    expect(h1.through).toEqual([])
    expect(h1.order).toEqual([['CS:A-C'], ['OT:1-2'], ['HL:1-2'], ['TC:link'], ['H1:1-2'], ['M:heat']])
    expect(h1.poles).toEqual(['L1', 'L2'])
    expect(h1.wires).toEqual([
      'supply.L1~CS.A',
      'CS.C~OT.1',
      'OT.2~HL.1',
      'HL.2~TC.1',
      'TC.2~H1.1',
      'H1.2~M.1',
      'M.2~supply.L2',
    ])
  })
  it('waits for the motor, which holds itself once its start path has brought it up', () => {
    expect(load('H1:1-2', heating).enablers).toEqual(['M:main'])
    const motor = load('M:main', heating)
    expect(motor.mustBeClosed).toEqual(['CS:A-B', 'TF:link', 'F1:link', 'M:hold', 'DS:C-NO'])
    expect(motor.holdsItself).toBe(true)
    expect(motor.enablers).toEqual([])
    expect(motor.toStart).toEqual(['PB:1-2', 'M:start', 'M:aux'])
  })
  it('takes the second coil only on high', () => {
    expect(load('H2:1-2', heating).on).toBe(true)
    const low = load('H2:1-2', { ...heating, dial: 'timed-low' })
    expect(low.on).toBe(false)
    expect(low.heldOpen).toEqual([{ element: 'CS:D-H', reason: 'chart: o at timed-low' }])
  })
  it('tells the story in the order things happen', () => {
    expect(traceSetting(circuit, heating).story.map((s) => s.text)).toEqual([
      'start held',
      'M:main fed',
      'TM on',
      'TM turns dial on toward timed-low',
      'M at speed: M:heat closes, M:hold closes, M:aux opens',
      'H1, H2, M:main on',
      'start released',
      '68 °C: OT opens',
      'H1, H2 off',
      '57 °C: OT closes',
      'H1, H2 on',
    ])
  })
})

describe('what holds a load open', () => {
  it('on cool-down, the chart cell', () => {
    const h1 = load('H1:1-2', { dial: 'cool-down' })
    expect(h1.on).toBe(false)
    expect(h1.heldOpen).toEqual([{ element: 'CS:A-C', reason: 'chart: o at cool-down' }])
    expect(h1.order.flat()).toContain('H1:1-2')
  })
  it('with the door open, the door, and the motor that it stops', () => {
    expect(load('M:main', { ...heating, door: 'open' }).heldOpen).toEqual([{ element: 'DS:C-NO', reason: 'door open' }])
    expect(load('H1:1-2', { ...heating, door: 'open' }).heldOpen).toEqual([
      { element: 'M:heat', reason: 'M at rest (M:main off)' },
    ])
  })
  it('never started, the button', () => {
    const motor = load('M:main', { ...heating, start: 'released' })
    expect(motor.on).toBe(false)
    expect(motor.heldOpen).toContainEqual({ element: 'PB:1-2', reason: 'start released' })
  })
  it('a blown cutoff', () => {
    const h1 = load('H1:1-2', heating, { forced: { TC: 'blown' } })
    expect(h1.on).toBe(false)
    expect(h1.heldOpen.map((h) => h.element)).toContain('TC:link')
  })
})

describe('sensor cycle', () => {
  const timer = load('TM:1-2', { dial: 'sensor' })
  it('runs the timer through the heater while the thermostat is open', () => {
    expect(timer.on).toBe(true)
    expect(timer.mustBeOpen).toEqual(['OT:1-2'])
    expect(timer.shorts).not.toContain('OT:1-2')
    expect(timer.through).toEqual(['R1:1-2'])
    expect(timer.mustBeClosed).toEqual([
      'CS:A-B',
      'TF:link',
      'F1:link',
      'M:hold',
      'CS:S-T',
      'HL:1-2',
      'TC:link',
      'M:heat',
    ])
  })
  it('returns through either coil', () => {
    expect(timer.anyOf).toEqual([
      ['CS:D-H', 'H1:1-2'],
      ['H1:1-2', 'H2:1-2'],
    ])
    expect(timer.complete).toBe(true)
    expect(timer.order).toContainEqual(['CS:D-H', 'H1:1-2', 'H2:1-2'])
    expect(timer.volts).toBeCloseTo(120, 0)
  })
  it('waits for the motor, and for the heat that opens the thermostat', () => {
    expect(timer.enablers).toEqual(['M:main', 'H1:1-2', 'H2:1-2'])
  })
})

it('the table has a row for every maintained position', () => {
  const table = stringTable(circuit)
  expect(table.loads).toEqual(['H1:1-2', 'H2:1-2', 'LP:1-2', 'TM:1-2', 'M:main'])
  expect(table.rows).toHaveLength(10)
  const cool = table.rows.find((r) => r.setting.dial === 'cool-down' && r.setting.door === 'shut')
  expect(cool?.on).toEqual(['TM:1-2', 'M:main'])
  const open = table.rows.filter((r) => r.setting.door === 'open')
  for (const row of open) expect(row.on).toEqual(['LP:1-2'])
})
