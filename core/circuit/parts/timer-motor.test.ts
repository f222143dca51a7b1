import { expect, it } from 'vitest'
import { machineOf } from '../../strings/machine.fixture.ts'
import { readCircuit } from '../index.ts'

const timer = (control: string, ...lines: readonly string[]) =>
  machineOf(
    'supply split-phase 240 V 60 Hz',
    control,
    ...lines,
    'timer-motor TM 120 V 3 W advances dial',
    'run supply.L1 > CS.A',
    'run CS.B > TM > supply.N',
  )

it('a timer motor says which way the dial moves next, while it runs', () => {
  const { set } = timer(
    'control dial off, timed, cool-down',
    'cycle-switch CS turned by dial',
    ' chart off timed cool-down',
    ' A-B o x x',
  )
  expect(set({ dial: 'off' }).story).toEqual([])
  expect(set({ dial: 'timed' }).story).toEqual(['TM on', 'TM turns dial on toward cool-down'])
  expect(set({ dial: 'cool-down' }).story).toEqual(['TM on', 'TM turns dial on toward off'])
})

it('says how long it takes where the sheet has a strip', () => {
  const { set } = timer(
    'control dial 0..354 deg by 6',
    'cycle-switch CS turned by dial',
    ' bars 6 deg = 45 s',
    ' A-B closed 12..360 deg',
  )
  expect(set({ dial: '12' }).story).toEqual(['TM on', 'TM turns dial on toward 18 in 45 s'])
  expect(set({ dial: '354' }).story).toEqual(['TM on', 'TM turns dial on toward 0 in 45 s'])
})

it('needs a control to advance', () => {
  expect(readCircuit('timer-motor TM 120 V 3 W advances knob').problems.map((p) => p.code)).toEqual(['unknown-control'])
})
