import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { machineOf } from '../../core/strings/machine.fixture.ts'

const { set } = machineOf(readFileSync('schematics-demo/wall-oven.circuit', 'utf8'))
const bake = set({ mode: 'bake', temp: '180C' })
const broil = set({ mode: 'broil', temp: 'broil' })

describe('strings', () => {
  it('bake: limit, selector and thermostat in one leg, selector in the other', () => {
    expect(bake.load('BE:1-2').mustBeClosed).toEqual(['HL:1-2', 'SE:1-2', 'BT:1-2', 'SE:3-4'])
    expect(bake.load('BE:1-2').poles).toEqual(['L1', 'L2'])
  })
  it('broil: the same, with the other contact', () => {
    expect(broil.load('GE:1-2').mustBeClosed).toEqual(['HL:1-2', 'SE:1-2', 'BT:1-2', 'SE:3-5'])
  })
  it('the light shows when the thermostat calls', () => {
    expect(bake.load('PL:1-2').mustBeClosed).toEqual(['HL:1-2', 'SE:1-2', 'BT:1-2'])
  })
  it('the lamp has two switches of which one is enough', () => {
    expect(set({ light: 'on', door: 'open' }).load('LP:1-2').anyOf).toEqual([['LS:1-2', 'DS:1-2']])
  })
})

describe('heat', () => {
  it('cycles at the temperature that is set, 12 °C apart, and the fan comes first', () => {
    expect(bake.story).toEqual([
      'BE, PL on',
      '60 °C: FT closes',
      'CF fed',
      'CF at speed',
      'CF on',
      '180 °C: BT opens',
      'BE, PL off',
      '168 °C: BT closes',
      'BE, PL on',
    ])
    expect(set({ mode: 'bake', temp: '240C' }).story).toContain('228 °C: BT closes')
    expect(broil.story).toContain('290 °C: BT opens')
  })
  it('with the fan standing still the limit opens', () => {
    expect(bake.states('HL')).not.toContain('hot')
    const still = set({ mode: 'bake', temp: '180C' }, { opened: new Set(['CF:main']) })
    expect(still.states('HL')).toContain('hot')
    expect(still.story).toContain('120 °C: HL opens')
  })
  it('the fan waits for heat from either element', () => {
    expect(bake.load('CF:main').enablers).toEqual(['BE:1-2', 'GE:1-2'])
  })
})

it('at off nothing of an element is live: both legs are open', () => {
  const off = set({ mode: 'off', temp: '180C' })
  expect(off.load('BE:1-2').heldOpen).toEqual([
    { element: 'SE:1-2', reason: 'chart: o at off' },
    { element: 'SE:3-4', reason: 'chart: o at off' },
  ])
  expect(off.load('BE:1-2').falsePaths).toEqual([])
})

it('the thermostat at off is open whatever the selector says', () => {
  const cold = set({ mode: 'bake', temp: 'off' })
  expect(cold.on).toEqual([])
  expect(cold.load('BE:1-2').heldOpen).toEqual([{ element: 'BT:1-2', reason: 'temp off' }])
})
