import { describe, expect, it } from 'vitest'
import { operate } from '../../operate/index.ts'
import { reviewCircuit } from '../../review/index.ts'
import { machineOf } from '../../strings/machine.fixture.ts'
import { readCircuit } from '../index.ts'

const house = 'supply split-phase 240 V 60 Hz'
const heated = [house, 'heater H1 2400 W at 240 V', 'zone box warms with H1']

describe('thermostats that give one temperature', () => {
  const steps = (line: string) => {
    const text = [...heated, line, 'run supply.L1 > T > H1 > supply.L2'].join('\n')
    const { circuit, problems } = readCircuit(text)
    expect(problems.map((p) => [p.code, p.severity])).toEqual([['differential-assumed', 'warning']])
    const sense = circuit.actors.get('T')?.sense
    return sense?.by === 'heat' ? sense.points.map((p) => [p.up, p.down]) : []
  }
  it('close 15 °C or 25 °F below where they open', () => {
    expect(steps('thermostat T opens 68 C zone box')).toEqual([
      [
        { value: 68, unit: 'C' },
        { value: 53, unit: 'C' },
      ],
    ])
    expect(steps('thermostat T opens 155 F zone box')).toEqual([
      [
        { value: 155, unit: 'F' },
        { value: 130, unit: 'F' },
      ],
    ])
  })
  it('or close on rise', () => {
    const { set } = machineOf(
      ...heated,
      'thermostat T closes 40 C opens 30 C zone box',
      'lamp LP 5 W at 120 V',
      'run supply.L1 > H1 > supply.L2',
      'run supply.L1 > T > LP > supply.N',
    )
    expect(set().story).toEqual(['H1 on', '40 °C: T closes', 'LP on'])
  })
})

describe('a limit reset by hand', () => {
  const { set } = machineOf(
    ...heated,
    'manual-reset LR opens 77 C resets by hand zone box',
    '  pole A 1-2',
    '  pole B 3-4',
    'lamp LP 5 W at 120 V',
    'run supply.L1 > LP > supply.N',
    'wire supply.L1 LR.1',
    'wire LR.2 H1.1',
    'wire H1.2 LR.3',
    'wire LR.4 supply.L2',
  )
  it('opens both legs together and stays open when it is cold again', () => {
    expect(set().story).toEqual(['H1, LP on', '77 °C: LR:A opens, LR:B opens', 'H1 off'])
    expect(set().states('LR')).toEqual(['cold', 'blown'])
  })
  it('has both poles in the string', () => expect(set().load('H1:1-2').mustBeClosed).toEqual(['LR:A', 'LR:B']))
  it('is why the heater is off once it has opened', () => {
    const open = set({}, { forced: { LR: 'blown' } }).load('H1:1-2')
    expect(open.on).toBe(false)
    expect(open.heldOpen.map((h) => h.element)).toEqual(['LR:A', 'LR:B'])
  })
})

describe('a bias heater', () => {
  const { set } = machineOf(
    ...heated,
    'control heat high, low',
    'thermostat OT opens 68 C closes 57 C zone box',
    'switch S1 when heat=low',
    'bias-heater BH 7 kohm at 120 V lowers OT to 52 C',
    'run supply.L1 > OT > H1 > supply.L2',
    'run supply.L1 > S1 > BH > supply.N',
  )
  it('leaves the thermostat where it is while it does not work', () => {
    expect(set({ heat: 'high' }).story).toEqual(['H1 on', '68 °C: OT opens', 'H1 off', '57 °C: OT closes', 'H1 on'])
  })
  it('lowers both its points by the same while it works', () => {
    expect(set({ heat: 'low' }).story).toEqual(['H1, BH on', '52 °C: OT opens', 'H1 off', '41 °C: OT closes', 'H1 on'])
  })
})

it('a changeover thermostat sends its leg from one side to the other', () => {
  const { set } = machineOf(
    house,
    'heater UE 4500 W at 240 V',
    'heater LE 4500 W at 240 V',
    'zone top warms with UE normal 65 C',
    'changeover-thermostat UT C to U opens 60 C closes 54 C else L zone top',
    'wire supply.L1 UT.C',
    'wire UT.U UE.1',
    'wire UT.L LE.1',
    'wire UE.2 LE.2 supply.L2',
  )
  expect(set().story).toEqual([
    'UE on',
    '60 °C: UT:C-U opens, UT:C-L closes',
    'LE on',
    'UE off',
    '54 °C: UT:C-U closes, UT:C-L opens',
    'UE on',
    'LE off',
  ])
  expect(set().load('LE:1-2').mustBeClosed).toEqual(['UT:C-L'])
  expect(set().load('LE:1-2').enablers).toEqual(['UE:1-2'])
})

describe('an oven thermostat', () => {
  const { set } = machineOf(
    ...heated,
    'control temp off, 150C, 350F, warm',
    'oven-thermostat BT set by temp differential 10 C zone box',
    '  at warm 80 C',
    'run supply.L1 > BT > H1 > supply.L2',
  )
  it('is open at off', () => {
    expect(set({ temp: 'off' }).on).toEqual([])
    expect(set({ temp: 'off' }).load('H1:1-2').heldOpen).toEqual([{ element: 'BT:1-2', reason: 'temp off' }])
  })
  it.each([
    ['150C', '150 °C', '140 °C'],
    ['350F', '350 °F', '332 °F'],
    ['warm', '80 °C', '70 °C'],
  ])('at %s opens there and closes a differential below', (temp, opens, closes) => {
    expect(set({ temp }).story).toEqual(['H1 on', `${opens}: BT opens`, 'H1 off', `${closes}: BT closes`, 'H1 on'])
  })
})

describe('a cycling surface-unit switch', () => {
  const { circuit, set } = machineOf(
    house,
    'control knob off, low, medium, high',
    'energy-regulator ER turned by knob',
    'heater SU "Surface unit" 2100 W at 240 V',
    'lamp PL 5 W at 120 V',
    'wire supply.L1 ER.L1',
    'wire supply.L2 ER.L2',
    'wire ER.H1 SU.1',
    'wire ER.H2 SU.2',
    'wire ER.P PL.1',
    'wire PL.2 supply.N',
    'wire supply.G chassis',
  )
  it('is no limit of what it feeds', () => expect(reviewCircuit(circuit)).toEqual([]))
  it('opens both legs at off', () => {
    expect(set({ knob: 'off' }).on).toEqual([])
    expect(
      set({ knob: 'off' })
        .load('SU:1-2')
        .heldOpen.map((h) => h.element),
    ).toEqual(['ER:L1-H1', 'ER:L2-H2'])
  })
  it('cycles below high by its own heat, which the story gives no temperature', () => {
    expect(set({ knob: 'low' }).story).toEqual([
      'SU, PL on',
      'ER hot: ER:L1-H1 opens',
      'SU off',
      'ER cold: ER:L1-H1 closes',
      'SU on',
    ])
  })
  it('stays on at high', () => {
    const high = set({ knob: 'high' })
    expect(high.on).toEqual(['SU:1-2', 'PL:1-2'])
    expect(high.story).not.toContain('SU off')
    expect(high.load('SU:1-2').mustBeClosed).toEqual(['ER:L1-H1', 'ER:L2-H2'])
  })
})

it.each([
  ['ntc 10 kohm B 3950', 2.5],
  ['rtd 1080 ohm', (5 * 1.08) / 11.08],
])('a sensor %s divides the volts of its board as its ohms at 25 °C do', (sensor, volts) => {
  const { circuit } = machineOf(
    'supply dc 5 V source 1 ohm',
    'resistor R1 10 kohm',
    `sensor NT ${sensor}`,
    'run supply.+ > R1 > NT > supply.-',
  )
  const run = operate(circuit)
  const across = run.phases[0]?.solved.voltsAcross(run.wiring.index.get('NT:1-2') ?? -1)
  expect(across?.re).toBeCloseTo(volts, 2)
})
