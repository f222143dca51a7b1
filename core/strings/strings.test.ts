import { describe, expect, it } from 'vitest'
import { readCircuit, type Setting } from '../circuit/index.ts'
import { traceSetting } from './traceSetting.ts'

function traced(lines: readonly string[], given: Setting = {}) {
  const { circuit, problems } = readCircuit(
    ['supply split-phase 240 V 60 Hz by cord breaker 30 A', ...lines].join('\n'),
  )
  expect(problems.filter((p) => p.severity === 'error')).toEqual([])
  const { loads } = traceSetting(circuit, given)
  return (id: string) => {
    const found = loads.find((l) => l.load.startsWith(id))
    if (!found) throw new Error(`no load ${id}`)
    return found
  }
}
const contacts = (...names: readonly string[]) => names.map((n) => `switch ${n} when door=shut`)
const door = 'control door shut, open'
const heater = 'heater H1 2400 W at 240 V'

describe('any of', () => {
  it.each([
    ['two in parallel', ['run supply.L1 > A > H1 > supply.L2', 'wire A.1 B.1', 'wire A.2 B.2'], ['A+B']],
    [
      'one beside two in series',
      ['run supply.L1 > A > H1 > supply.L2', 'wire A.1 B.1', 'run B.2 > C.1', 'wire C.2 A.2'],
      ['A+B', 'A+C'],
    ],
    ['two in series: neither', ['run supply.L1 > A > B > H1 > supply.L2'], []],
  ])('%s', (_, wires, expected) => {
    const h1 = traced([door, ...contacts('A', 'B', 'C'), heater, ...wires])('H1')
    expect(h1.anyOf.map((g) => g.map((id) => id.split(':')[0]).join('+'))).toEqual(expected)
    expect(h1.complete).toBe(true)
  })
  it('four and five of a bank: four are listed, five are said not to be', () => {
    const bank = (names: readonly string[]) => [
      door,
      ...contacts(...names),
      heater,
      ...names.flatMap((n) => [`wire supply.L1 ${n}.1`, `wire ${n}.2 H1.1`]),
      'wire H1.2 supply.L2',
    ]
    const four = traced(bank(['A', 'B', 'C', 'D']))('H1')
    expect(four.anyOf).toHaveLength(1)
    expect(four.complete).toBe(true)
    const five = traced(bank(['A', 'B', 'C', 'D', 'E']))('H1')
    expect(five.anyOf).toEqual([])
    expect(five.complete).toBe(false)
  })
  it('a bridge: the cuts of two and of three (Barlow and Proschan, Statistical Theory of Reliability, 1975)', () => {
    const h1 = traced([
      door,
      ...contacts('C1', 'C2', 'C3', 'C4', 'C5'),
      heater,
      // Between in, out and the two middles: C1 and C2 from in, C3 across, C4 and C5 to out.
      'wire supply.L1 C1.1',
      'wire supply.L1 C2.1',
      'wire C1.2 C4.1',
      'wire C2.2 C5.1',
      'wire C1.2 C3.1',
      'wire C2.2 C3.2',
      'wire C4.2 H1.1',
      'wire C5.2 H1.1',
      'wire H1.2 supply.L2',
    ])('H1')
    expect(h1.mustBeClosed).toEqual([])
    expect(h1.anyOf.map((g) => g.map((id) => id.slice(1, 2)).join(''))).toEqual(['12', '45', '135', '234'])
    expect(h1.complete).toBe(true)
  })
})

it('both legs switched: both sides are the string', () => {
  const h1 = traced([door, ...contacts('A', 'B'), heater, 'run supply.L1 > A > H1 > B > supply.L2'])('H1')
  expect(h1.mustBeClosed).toEqual(['A:1-2', 'B:1-2'])
  expect(h1.poles).toEqual(['L1', 'L2'])
})

it('a load at half its volts is on but weak below four fifths', () => {
  const h1 = traced([heater, 'run supply.L1 > H1 > supply.N'])('H1')
  expect([h1.on, h1.weak]).toEqual([true, true])
  expect(traced([heater, 'run supply.L1 > H1 > supply.L2'])('H1').weak).toBe(false)
})

it('a load in series with another runs through it, or shows a false path', () => {
  const series = traced(['lamp LP 10 W at 120 V', heater, 'run supply.L1 > LP > H1 > supply.N'])
  expect(series('LP').through).toEqual(['H1:1-2'])
  // The lamp drops nearly all volts: the heater is off with less than a volt, which is no false path.
  expect(series('H1').on).toBe(false)
  const two = traced(['lamp LP 100 W at 120 V', 'heater H1 500 W at 120 V', 'run supply.L1 > LP > H1 > supply.N'])
  expect(two('H1').on).toBe(false)
  expect(two('H1').falsePaths.map((p) => p.through)).toEqual(['LP:1-2'])
})

it('closing a contact that would short the legs is told as a short, not as a must be open', () => {
  const h1 = traced(
    [door, 'switch A when door=open', heater, 'run supply.L1 > H1 > supply.L2', 'run supply.L1 > A > supply.L2'],
    { door: 'shut' },
  )('H1')
  expect(h1.shorts).toEqual(['A:1-2'])
  expect(h1.mustBeOpen).toEqual([])
})

describe('a load that is never fed', () => {
  it('says which closing would feed it', () => {
    const h1 = traced([
      'control dial one, two',
      'cycle-switch CS turned by dial',
      '  chart one two',
      '  A-B   o   o',
      heater,
      'run supply.L1 > CS.A',
      'run CS.B > H1 > supply.L2',
    ])('H1')
    expect(h1.heldOpen).toEqual([{ element: 'CS:A-B', reason: 'never fed: closing it would feed it' }])
  })
  it('has nothing to say when no closing helps', () => {
    expect(traced([heater, 'wire supply.L1 H1.1'])('H1').heldOpen).toEqual([])
  })
})

it('a relay-like contact that must rest names the load that would open it', () => {
  const motor = ['motor M 120 V 3 A', '  winding main 4-5 4 ohm', '  contact idle 1-2 closed at rest']
  const lamp = traced([
    'control door shut, open',
    'switch DS when door=open',
    ...motor,
    'lamp LP 10 W at 120 V',
    'run supply.L1 > DS > M.4',
    'wire M.5 supply.N',
    'run supply.L1 > M.1',
    'run M.2 > LP > supply.N',
  ])('LP')
  expect(lamp.on).toBe(true)
  expect(lamp.mustRest).toEqual(['M:main'])
  expect(lamp.enablers).toEqual([])
})

it('an empty circuit has nothing to say, and does not fall over', () => {
  const { circuit } = readCircuit('')
  expect(traceSetting(circuit).loads).toEqual([])
  const lone = readCircuit('heater H1 10 W at 12 V').circuit
  expect(traceSetting(lone).loads.map((l) => l.on)).toEqual([false])
})
