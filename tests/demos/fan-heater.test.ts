import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { machineOf } from '../../core/strings/machine.fixture.ts'

const { set } = machineOf(readFileSync('schematics-demo/fan-heater.circuit', 'utf8'))
const high = set({ mode: 'heat', level: 'high' })
const low = set({ mode: 'heat', level: 'low' })

describe('strings', () => {
  it('cutoff and tip switch stand before everything', () => {
    expect(set({ mode: 'fan' }).load('M:main').mustBeClosed).toEqual(['TC:link', 'TS:1-2', 'SEL:1-2'])
    expect(set({ mode: 'fan' }).load('LP:1-2').mustBeClosed).toEqual(['TC:link', 'TS:1-2', 'SEL:1-2'])
  })
  it('the first heater has the thermostat, the second both', () => {
    expect(low.load('H1:1-2').mustBeClosed).toEqual(['TC:link', 'TS:1-2', 'SEL:1-3', 'TH:1-2'])
    expect(high.load('H2:1-2').mustBeClosed).toEqual(['TC:link', 'TS:1-2', 'SEL:1-3', 'TH:1-2', 'SEL:5-4'])
    expect(high.load('H2:1-2').poles).toEqual(['L', 'N'])
  })
  it('at low the second heater is held open by its cell of the chart', () => {
    expect(low.load('H2:1-2').heldOpen).toEqual([{ element: 'SEL:5-4', reason: 'chart: o at low' }])
  })
  it('tipped, the tip switch holds all', () => {
    const tipped = set({ mode: 'heat', level: 'high', stand: 'tipped' })
    expect(tipped.on).toEqual([])
    expect(tipped.load('H1:1-2').heldOpen).toEqual([{ element: 'TS:1-2', reason: 'stand tipped' }])
  })
})

it('the thermostat cycles both heaters, and the fan goes on', () => {
  expect(high.story).toEqual([
    'M fed',
    'H1, H2, LP on',
    'M at speed',
    'M on',
    '24 °C: TH opens',
    'H1, H2 off',
    '21 °C: TH closes',
    'H1, H2 on',
  ])
})

it('the heaters draw what their labels say', () => {
  expect(high.load('H1:1-2').volts / high.load('H1:1-2').amps).toBeCloseTo(230 ** 2 / 1000, 3)
})

it('with the fan standing still the cutoff opens once, and nothing runs', () => {
  const still = set({ mode: 'heat', level: 'low' }, { opened: new Set(['M:main']) })
  expect(still.states('TC').at(-1)).toBe('blown')
  expect(still.story).not.toContain('24 °C: TH opens')
  // In a room so cold that the thermostat stays closed, and the fan turns.
  expect(set({ mode: 'heat', level: 'low' }, { forced: { TH: 'cold' } }).states('TC')).toEqual(['cold'])
  expect(set({ mode: 'fan' }, { forced: { TC: 'blown' } }).on).toEqual([])
})
