import { describe, expect, it } from 'vitest'
import { machineOf } from '../../strings/machine.fixture.ts'

const house = 'supply split-phase 240 V 60 Hz'
const blower = [
  house,
  'control knob off, on',
  'switch S1 when knob=on',
  'motor M 120 V 3 A',
  '  winding main 4-5 4 ohm',
  'run supply.L1 > S1 > M.4',
  'wire M.5 supply.N',
  'heater H1 2400 W at 240 V',
]

describe.each([
  ['sail-switch', 'closed by duct', 'airflow duct moved by M', 'duct still'],
  ['pressure-switch', 'closed by M', '', 'M at rest'],
])('a %s %s', (kind, clause, mover, reason) => {
  const { set } = machineOf(...blower, mover, `${kind} PS ${clause}`, 'run supply.L1 > PS > H1 > supply.L2')
  it('closes as soon as that moves', () => {
    expect(set({ knob: 'on' }).on).toEqual(['M:main', 'H1:1-2'])
    expect(set({ knob: 'on' }).load('H1:1-2').mustBeClosed).toEqual(['PS:1-2'])
    expect(set({ knob: 'on' }).load('H1:1-2').enablers).toEqual(['M:main'])
  })
  it('holds the heater open while it stands', () => {
    expect(set({ knob: 'off' }).on).toEqual([])
    expect(set({ knob: 'off' }).load('H1:1-2').heldOpen).toEqual([
      { element: 'PS:1-2', reason: `${reason} (M:main off)` },
    ])
  })
})

it('a belt switch is closed by its belt, so that the motor can start, and opens when the belt breaks', () => {
  const { set } = machineOf(
    house,
    'motor M 120 V 3 A',
    '  winding main 4-5 4 ohm',
    'drive drum turned by M belt',
    'belt-switch BS closed by drum',
    'run supply.L1 > BS > M.4',
    'wire M.5 supply.N',
  )
  expect(set().on).toEqual(['M:main'])
  expect(set().load('M:main').mustBeClosed).toEqual(['BS:1-2'])
  expect(set().states('drum')).toEqual(['turning'])
  const broken = set({}, { forced: { 'drum-belt': 'broken' } })
  expect(broken.on).toEqual([])
  expect(broken.load('M:main').heldOpen).toContainEqual({
    element: 'BS:1-2',
    reason: 'never fed: closing it would feed it',
  })
})

it('with its belt broken the motor turns and the drum does not', () => {
  const { set } = machineOf(...blower, 'drive drum turned by M belt', 'run supply.L1 > H1 > supply.L2')
  const broken = set({ knob: 'on' }, { forced: { 'drum-belt': 'broken' } })
  expect([broken.states('M'), broken.states('drum')]).toEqual([['at-speed'], ['still']])
})

it('a pressure switch with two sides sends its leg over when air moves', () => {
  const { set } = machineOf(
    ...blower,
    'airflow duct moved by M',
    'pressure-switch PS C to NO closed by duct else NC',
    'lamp RDY 5 W at 120 V',
    'wire supply.L1 PS.C',
    'run PS.NO > H1 > supply.L2',
    'run PS.NC > RDY > supply.N',
  )
  expect(set({ knob: 'off' }).on).toEqual(['RDY:1-2'])
  expect(set({ knob: 'on' }).on).toEqual(['M:main', 'H1:1-2'])
})

it('a door lock locks some seconds after it is fed, and lets the motor run only then', () => {
  const { set } = machineOf(
    house,
    'control door open, shut',
    'switch DS when door=shut',
    'door-lock DL L-N 120 V 1.2 kohm locks after 4 s frees after 60 s',
    '  contact C-NO closed when locked',
    'pump DP 120 V 1 A',
    'run supply.L1 > DS > DL.L',
    'wire DL.L DL.C',
    'wire DL.N supply.N',
    'run DL.NO > DP > supply.N',
  )
  expect(set({ door: 'shut' }).story).toEqual([
    'DL:L-N on',
    '4 s later: DL locked: DL:C-NO closes',
    'DP fed',
    'DP at speed',
    'DP on',
  ])
  expect(set({ door: 'shut' }).load('DP:1-2').mustBeClosed).toEqual(['DS:1-2', 'DL:C-NO'])
  expect(set({ door: 'shut' }).load('DP:1-2').enablers).toEqual(['DL:L-N'])
  expect(set({ door: 'open' }).on).toEqual([])
})

it('a door lock stays locked for a while after power: a timed press shows it', () => {
  const { set } = machineOf(
    house,
    'control button up, down springs back',
    'switch PB when button=down',
    'door-lock DL 120 V 1.2 kohm',
    'run supply.L1 > PB > DL > supply.N',
  )
  expect(set().story).toEqual([
    'button down',
    'DL on',
    '3 s later: DL locked',
    'button up',
    'DL off',
    '60 s later: DL free',
  ])
})

it('moisture bars carry a board its sign while the laundry is wet', () => {
  const { set } = machineOf(
    'supply dc 5 V',
    'control laundry wet, dry',
    'moisture-bars MB 100 kohm when laundry=wet',
    'resistor R1 100 kohm',
    'buzzer BZ 20 uA at 2.5 V',
    'run supply.+ > MB > BZ > supply.-',
  )
  expect(set({ laundry: 'wet' }).on).toEqual(['BZ:1-2'])
  expect(set({ laundry: 'wet' }).load('BZ:1-2').through).toEqual(['MB:1-2'])
  expect(set({ laundry: 'dry' }).on).toEqual([])
})
