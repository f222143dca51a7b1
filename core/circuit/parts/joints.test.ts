import ELK from 'elkjs/lib/elk.bundled.js'
import { describe, expect, it } from 'vitest'
import { drawCircuit } from '../../drawing/index.ts'
import { machineOf } from '../../strings/machine.fixture.ts'
import { readCircuit } from '../index.ts'

const house = 'supply split-phase 240 V 60 Hz'
const read = (...lines: readonly string[]) => readCircuit([house, ...lines].join('\n'))
const codes = (...lines: readonly string[]) => read(...lines).problems.map((p) => p.code)

describe('a plug', () => {
  const { circuit, set } = machineOf(
    house,
    'plug P1 pins 1..3',
    'heater H1 2400 W at 240 V',
    'run BK supply.L1 > P1.1 > H1 > P1.2b > supply.L2',
    'run P1.3 > chassis',
  )
  it('has a pin between its halves, which a run passes from the half it names', () => {
    expect([...circuit.elements.keys()].filter((id) => id.startsWith('P1'))).toEqual([
      'P1:1',
      'P1:2',
      'P1:3',
      'P1.1b~H1.1',
      'P1.2~supply.L2',
      'P1.3~chassis',
    ])
    expect(circuit.elements.get('P1:2')?.ends).toEqual(['P1.2', 'P1.2b'])
    expect(circuit.elements.has('H1.2~P1.2b')).toBe(true)
  })
  it('has its pins in the string of what it feeds', () => {
    expect(set().load('H1:1-2')).toMatchObject({ on: true, mustBeClosed: ['P1:1', 'P1:2'] })
  })
})

it('a terminal block joins the wires at each of its tags', () => {
  const { circuit, set } = machineOf(
    house,
    'terminal-block TB "Cord block" tags L, N, "−"',
    'lamp LP 5 W at 120 V',
    'wire supply.L1 TB.L LP.1',
    'wire LP.2 TB.N supply.N',
    'wire TB."−" chassis',
  )
  expect(circuit.parts.get('TB')).toMatchObject({ elements: [], terminals: ['TB.L', 'TB.N', 'TB.−'] })
  expect(set().on).toEqual(['LP:1-2'])
})

describe('an assembly', () => {
  const { circuit, set } = machineOf(
    house,
    'area rear',
    'assembly FIL "Heater box" area rear',
    '  heater HE "outer" 1-2 2400 W at 240 V',
    '  thermostat LIM 3-4 opens 90 C closes 70 C zone box',
    '  cutoff CUT 4-1 opens 150 C zone box',
    '  motor FAN 120 V 1 A start 4 A',
    '    winding main 5-6 20 ohm',
    '    overload 7-5',
    'zone box warms with HE normal 120 C',
    'airflow duct moved by FAN',
    'run supply.L1 > FIL.3',
    'wire FIL.2 supply.L2',
    'wire supply.L1 FIL.7',
    'wire FIL.6 supply.N',
  )
  it('is one part, with elements of several kinds between its own tags', () => {
    expect([...circuit.parts.keys()]).toEqual(['supply', 'FIL'])
    expect(circuit.parts.get('FIL')).toMatchObject({
      kind: 'assembly',
      area: 'rear',
      elements: ['FIL:HE', 'FIL:LIM', 'FIL:CUT', 'FIL:FAN-main', 'FIL:FAN-overload'],
    })
    expect(circuit.elements.get('FIL:CUT')).toMatchObject({ part: 'FIL', ends: ['FIL.4', 'FIL.1'] })
    expect(circuit.actors.get('LIM')).toMatchObject({ part: 'FIL', states: ['cold', 'hot'] })
  })
  it('works as its parts do', () => {
    const worked = set()
    expect(worked.on).toEqual(['FIL:HE', 'FIL:FAN-main'])
    expect(worked.states('LIM')).toEqual(['cold', 'hot'])
    expect(worked.load('FIL:HE').mustBeClosed).toEqual(['FIL:LIM', 'FIL:CUT'])
  })
  it('tells of a line that is no part, and of a name that is taken', () => {
    expect(codes('assembly A1', '  unit "x"')).toEqual(['unknown-line'])
    expect(codes('lamp LP 5 W at 120 V', 'assembly A1', '  lamp LP 5 W at 120 V')).toEqual(['name-taken'])
  })
})

describe('letters of the sheet', () => {
  const { circuit, problems } = read(
    'colours R=RD T="tan" B=BK',
    'lamp LP 5 W at 120 V',
    'wire R/B supply.L1 LP.1',
    'wire T LP.2 supply.N',
    'wire WH supply.G chassis',
  )
  it('are kept as typed and told of nowhere', () => {
    expect(problems).toEqual([])
    expect(circuit.elements.get('supply.L1~LP.1')?.wire).toEqual({ colour: 'R/B', iec: 'RD/BK' })
    expect(circuit.elements.get('LP.2~supply.N')?.wire).toEqual({ colour: 'T' })
    expect(circuit.elements.get('supply.G~chassis')?.wire).toEqual({ colour: 'WH' })
    expect(codes('colours R=RD', 'lamp LP 5 W at 120 V', 'wire Q supply.L1 LP.1')).toEqual(['unknown-colour'])
  })
  it('paint a wire in the colour they stand for', async () => {
    const plan = await drawCircuit(circuit, (graph) => new ELK().layout(graph))
    expect(plan.swatches.map((s) => s.colour)).toContain('RD/BK')
    expect(plan.codes.map((c) => c.text)).toContain('R/B')
  })
  it('need an equals sign', () => {
    expect(codes('colours R RD')).toEqual(['colours-form'])
    expect(codes('colours')).toEqual(['colours-form'])
  })
})

it('failure rates are kept word by word', () => {
  expect(read('priors OT open 30 %', 'priors "old machine"').circuit.priors).toEqual([
    ['OT', 'open', '30', '%'],
    ['old machine'],
  ])
})

it('areas keep what opens them and how they nest', () => {
  const { circuit, problems } = read(
    'area front "Front" 8 min after top refit 10 min tool "1/4 in nut driver"',
    'area top 4 min',
  )
  expect(problems).toEqual([])
  expect(circuit.areas.get('front')).toEqual({
    name: 'front',
    label: 'Front',
    minutes: 8,
    after: 'top',
    refit: 10,
    tool: '1/4 in nut driver',
  })
})

it('tells what their lines lack', () => {
  expect(codes('plug P1')).toEqual(['tags-needed'])
  expect(codes('plug P1 pins 1, 1')).toEqual(['tag-twice'])
  expect(codes('plug P1 pins')).toEqual(['clause-incomplete'])
  expect(codes('terminal-block TB tags L, L')).toEqual(['tag-twice'])
})
