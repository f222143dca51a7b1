import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { machineOf } from '../../core/strings/machine.fixture.ts'

const { set, circuit } = machineOf(readFileSync('schematics-demo/washer-heat.circuit', 'utf8'))
const heating = set({ program: 'wash', water: 'full' })

it('locks, then heats and turns; relays of both poles pull in together', () => {
  expect(heating.story).toEqual(
    [
      'CB on',
      'CB powered: CB:LOCK closes, CB:FILL closes',
      'DL on',
      '3 s later: DL locked: DL:3-4 closes',
      'CB:FULL on',
      'CB:HEAT closes, CB:TURN closes',
      'M:main fed',
      'K1:coil, K2:coil on',
      'K1 in, K2 in, M at speed: K1:1-2 closes, K2:1-2 closes',
      'H1, M:main on',
    ].map((told) => told.replace(/^CB on/, 'CB:power on').replace(/^DL on/, 'DL:1-2 on')),
  )
})

describe('strings', () => {
  it('the heater: lock, level switch, a relay in each pole, and its cutoff', () => {
    const heater = heating.load('H1:1-2')
    expect(heater.mustBeClosed).toEqual(['DL:3-4', 'LV:11-14', 'K1:1-2', 'TC:link', 'K2:1-2'])
    expect(heater.poles).toEqual(['L', 'N'])
    expect(heater.enablers).toEqual(expect.arrayContaining(['K1:coil', 'K2:coil', 'CB:power', 'CB:FULL', 'DL:1-2']))
  })
  it('the inlet valve: the same lock, and the other side of the level switch', () => {
    const valve = set({ program: 'fill' }).load('WV:1-2')
    expect(valve.mustBeClosed).toEqual(['DL:3-4', 'LV:11-12', 'CB:FILL'])
    expect(heating.load('WV:1-2').heldOpen).toEqual([{ element: 'LV:11-12', reason: 'water full' }])
  })
  it('the drum starts through its capacitor and needs it no more', () => {
    const drum = heating.load('M:main')
    expect(drum).toMatchObject({ on: true, mustBeClosed: ['DL:3-4', 'CB:TURN'], through: [] })
    const open = set({ program: 'wash', water: 'full' }, { opened: new Set(['M:capacitor']) })
    expect(open.states('M')).toEqual(['at-rest'])
  })
  it('the pump needs no lock', () => {
    const drain = set({ program: 'drain', door: 'open' })
    expect(drain.load('DP:1-2')).toMatchObject({ on: true, mustBeClosed: ['CB:PUMP'] })
  })
})

describe('never', () => {
  const rows = ['off', 'fill', 'wash', 'drain'].flatMap((program) =>
    ['shut', 'open'].flatMap((door) =>
      ['empty', 'full'].flatMap((water) => ['cold', 'warm'].map((bath) => ({ program, door, water, bath }))),
    ),
  )
  it('heat without water, nor water and heat at once', () => {
    for (const row of rows) {
      const { on } = set(row)
      if (on.includes('H1:1-2')) expect([row.water, on.includes('WV:1-2')]).toEqual(['full', false])
    }
  })
  it('anything behind the lock with the door open', () => {
    for (const row of rows.filter((r) => r.door === 'open')) {
      expect(set(row).on.filter((load) => /^(H1|WV|M|K1|K2|DL)/.test(load))).toEqual([])
    }
  })
})

it('one relay that stays out leaves the other pole open: the heater is off, one of its ends live or not', () => {
  const one = set({ program: 'wash', water: 'full' }, { forced: { K2: 'out' } })
  expect(one.on).not.toContain('H1:1-2')
  expect(one.load('H1:1-2').heldOpen.map((h) => h.element)).toEqual(['K2:1-2'])
})

it('the line filter is one part of two elements', () => {
  expect(circuit.parts.get('FIL')?.elements).toEqual(['FIL:CX', 'FIL:RX'])
  expect(circuit.elements.get('FIL:CX')?.ends).toEqual(['FIL.L', 'FIL.N'])
})
