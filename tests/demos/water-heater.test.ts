import { readFileSync } from 'node:fs'
import { expect, it } from 'vitest'
import { machineOf } from '../../core/strings/machine.fixture.ts'

const { set } = machineOf(readFileSync('schematics-demo/water-heater.circuit', 'utf8'))
const filled = set()

it('heats the top, then below, then rests, then below again', () => {
  expect(filled.story).toEqual([
    'UE on',
    '60 °C: UT:C-U opens, UT:C-L closes',
    'LE on',
    'UE off',
    '60 °C: LT opens',
    'LE off',
    '52 °C: LT closes',
    'LE on',
  ])
})

it('never feeds both elements at once', () => {
  const steps = filled.story.reduce(
    ({ on, most }, text) => {
      const now = new Set(on)
      const [, names = '', way] = /^(.*) (on|off)$/.exec(text) ?? []
      for (const name of names.split(', ').filter(Boolean)) way === 'on' ? now.add(name) : now.delete(name)
      return { on: now, most: Math.max(most, way === 'off' ? now.size : 0) }
    },
    { on: new Set<string>(), most: 0 },
  )
  expect(steps.most).toBe(1)
  expect(filled.load('UE:1-2').mustBeClosed).toContain('UT:C-U')
  expect(filled.load('LE:1-2').mustBeClosed).toContain('UT:C-L')
})

it('has both poles of the limit in both strings, one in each leg', () => {
  expect(filled.load('UE:1-2').mustBeClosed).toEqual(['ECO:A', 'UT:C-U', 'ECO:B'])
  expect(filled.load('LE:1-2').mustBeClosed).toEqual(['ECO:A', 'UT:C-L', 'LT:1-2', 'ECO:B'])
  expect(filled.load('UE:1-2').poles).toEqual(['L1', 'L2'])
  expect(filled.load('LE:1-2').enablers).toEqual(['UE:1-2'])
})

it('draws what its label says (P = V²/R)', () => {
  const { volts, amps } = filled.load('UE:1-2')
  expect(volts / amps).toBeCloseTo(240 ** 2 / 4500, 2)
})

it('an open limit stops both, at both poles', () => {
  const open = set({}, { forced: { ECO: 'blown' } })
  expect(open.on).toEqual([])
  expect(open.load('UE:1-2').heldOpen.map((h) => h.element)).toEqual(['ECO:A', 'ECO:B'])
})

it('an upper thermostat that does not go over leaves the bottom cold and opens the limit', () => {
  const stuck = set({}, { forced: { UT: 'cold' } })
  expect(stuck.on).toEqual(['UE:1-2'])
  expect(stuck.states('ECO').at(-1)).toBe('blown')
  expect(stuck.story).toContain('77 °C: ECO:A opens, ECO:B opens')
})

it('a lower thermostat that does not open opens the limit, too', () => {
  expect(
    set({}, { forced: { LT: 'cold' } })
      .states('ECO')
      .at(-1),
  ).toBe('blown')
  expect(filled.states('ECO')).not.toContain('blown')
})
