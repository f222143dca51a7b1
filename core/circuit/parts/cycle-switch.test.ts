import { describe, expect, it } from 'vitest'
import { machineOf } from '../../strings/machine.fixture.ts'
import { holds, readCircuit } from '../index.ts'

const house = 'supply split-phase 240 V 60 Hz'
const read = (...lines: readonly string[]) => readCircuit([house, ...lines].join('\n'))
const codes = (...lines: readonly string[]) => read(...lines).problems.map((p) => p.code)
const closedAt = (id: string, settings: readonly Readonly<Record<string, string>>[], ...lines: readonly string[]) => {
  const { circuit, problems } = read(...lines)
  expect(problems).toEqual([])
  const laws = circuit.elements.get(id)?.laws ?? []
  return settings.filter((s) => laws.some((l) => holds(l.when, s, {}))).map((s) => Object.values(s).join('/'))
}

describe('a chart of two controls', () => {
  const lines = [
    'control dial off, timed, cool',
    'control heat low, high',
    'selector SEL',
    '  chart dial, heat  off/low off/high timed/low timed/high cool/low cool/high',
    '  A-B               o       o        x         x          x        x     "motor"',
    '  A-C               o       o        o         x          o        o     "high heat"',
    '  D-E               o       o        o         x          o        x',
    '  F-G               x       x        x         x          x        x',
    '  H-J               o       o        o         o          o        o',
  ]
  const all = ['off', 'timed', 'cool'].flatMap((dial) => ['low', 'high'].map((heat) => ({ dial, heat })))
  it('has a cell for every combination', () => {
    const closed = (id: string) => closedAt(id, all, ...lines)
    expect(closed('SEL:A-B')).toEqual(['timed/low', 'timed/high', 'cool/low', 'cool/high'])
    expect(closed('SEL:A-C')).toEqual(['timed/high'])
    expect(closed('SEL:D-E')).toEqual(['timed/high', 'cool/high'])
    expect(closed('SEL:F-G')).toHaveLength(6)
    expect(closed('SEL:H-J')).toEqual([])
  })
  it('speaks of a control only where it decides', () => {
    const { circuit } = read(...lines)
    const when = (id: string) => circuit.elements.get(id)?.laws[0]?.when
    expect(when('SEL:A-B')).toEqual([[{ of: 'dial', in: ['timed', 'cool'] }]])
    expect(when('SEL:D-E')).toEqual([
      [
        { of: 'dial', in: ['timed', 'cool'] },
        { of: 'heat', in: ['high'] },
      ],
    ])
  })
  it('finds a position that has a slash of its own', () => {
    const slashed = [
      'control dial off, 1/2',
      'control heat low, high',
      'selector SEL',
      '  chart dial, heat  off/low off/high 1/2/low 1/2/high',
      '  A-B               o       o        o       x',
    ]
    expect(
      closedAt(
        'SEL:A-B',
        [
          { dial: '1/2', heat: 'low' },
          { dial: '1/2', heat: 'high' },
        ],
        ...slashed,
      ),
    ).toEqual(['1/2/high'])
  })
  it('tells of combinations without a column, unless the rest is said to be not typed', () => {
    const partial = (words: string) => [
      'control dial off, timed',
      'control heat low, high',
      `selector SEL ${words}`,
      '  chart dial, heat  timed/low timed/high',
      '  A-B               x         o',
      '  A-C               x',
    ]
    expect(codes(...partial(''))).toEqual(['no-column', 'cells-do-not-match'])
    expect(codes(...partial('rest not typed'))).toEqual([])
    expect(
      closedAt(
        'SEL:A-C',
        [
          { dial: 'timed', heat: 'low' },
          { dial: 'timed', heat: 'high' },
          { dial: 'off', heat: 'low' },
        ],
        ...partial('rest not typed'),
      ),
    ).toEqual(['timed/low'])
  })
  it('tells of a heading that lacks a control', () => {
    const head = (heading: string) => [
      'control dial off, timed',
      'control heat low, high',
      'selector SEL rest not typed',
      `  chart dial, heat ${heading}`,
      '  A-B x',
    ]
    expect(codes(...head('timed/low'))).toEqual([])
    expect(codes(...head('timed/warm'))).toEqual(['unknown-position'])
    expect(codes(...head('timed/low/now'))).toEqual(['unknown-position'])
  })
})

it('a changeover of a chart closes to either side, or to neither', () => {
  const { circuit, set } = machineOf(
    house,
    'control knob off, one, two',
    'selector SEL turned by knob',
    '  chart            off one two',
    '  C to NO else NC  -   x   o   "fan"',
    'lamp L1 5 W at 120 V',
    'lamp L2 5 W at 120 V',
    'wire supply.L1 SEL.C',
    'run SEL.NO > L1 > supply.N',
    'run SEL.NC > L2 > supply.N',
  )
  expect(circuit.elements.get('SEL:C-NC')).toMatchObject({ throwOf: 'SEL:C-NO', charted: true, note: 'fan' })
  expect([set({ knob: 'off' }).on, set({ knob: 'one' }).on, set({ knob: 'two' }).on]).toEqual([
    [],
    ['L1:1-2'],
    ['L2:1-2'],
  ])
})

describe('a timing strip', () => {
  const lines = [
    'control timer 0..354 deg by 6',
    'cycle-switch CS turned by timer',
    '  bars 6 deg = 45 s',
    '  D-E closed 0..240, 300..312 deg "motor"',
    '  D-F closed 348..12',
  ]
  const all = Array.from({ length: 60 }, (_, i) => ({ timer: String(i * 6) }))
  it('has the positions of its control by degrees, each closed from where a range begins up to where it ends', () => {
    expect(closedAt('CS:D-E', all, ...lines)).toEqual(
      [...Array.from({ length: 40 }, (_, i) => i * 6), 300, 306].map(String),
    )
    expect(closedAt('CS:D-F', all, ...lines)).toEqual(['0', '6', '348', '354'])
  })
  it('keeps how long a bar takes', () => {
    expect(read(...lines).circuit.controls.get('timer')).toMatchObject({ bar: { degrees: 6, seconds: 45 } })
  })
  it('tells of what is no strip', () => {
    const strip = (row: string, control = 'control timer 0..90 deg by 30', bars = 'bars') =>
      codes(control, 'cycle-switch CS turned by timer', ` ${bars}`, ` ${row}`)
    expect(strip('D-E closed 0..60 deg')).toEqual([])
    expect(strip('D-E closed')).toEqual(['strip-form'])
    expect(strip('D-E open 0..60 deg')).toEqual(['strip-form'])
    expect(strip('D-E closed 0-60')).toEqual(['strip-form'])
    expect(strip('D-E closed 0..60 deg', 'control timer off, on')).toEqual(['strip-needs-degrees'])
    expect(strip('D-E closed 0..60 deg', undefined, 'bars 6 deg = 5 V')).toEqual(['bars-form'])
    expect(codes('control timer 0..90 deg by 0')).toEqual(['degrees-form'])
    expect(codes('control timer 0..90 deg')).toEqual(['degrees-form'])
  })
})

describe('a momentary position', () => {
  const { circuit, set } = machineOf(
    house,
    'control knob off, start, run momentary start',
    'selector SEL turned by knob',
    '  chart  off  start  run',
    '  A-B    o    x      x    "motor"',
    '  A-C    o    x      o    "start"',
    'motor M 120 V 5 A start 22 A',
    '  winding main  4-5 2.4 ohm',
    '  winding start 3-5 3.1 ohm',
    'wire supply.L1 SEL.A',
    'wire SEL.B M.4',
    'wire SEL.C M.3',
    'wire M.5 supply.N',
  )
  it('springs to the next when let go', () => {
    expect(circuit.controls.get('knob')?.momentary).toEqual({ start: 'run' })
    const started = set({ knob: 'start' })
    expect(started.story).toEqual(['M:main fed', 'M at speed', 'M:main on', 'knob run'])
    expect(started.states('M')).toEqual(['at-speed'])
    expect(set({ knob: 'run' }).states('M')).toEqual(['at-rest'])
    expect(set({ knob: 'run' }).load('M:main').heldOpen).toEqual([{ element: 'SEL:A-C', reason: 'chart: o at run' }])
  })
  it('is one of its control, and the last springs to the one before', () => {
    expect(read('control key off, on, start momentary start').circuit.controls.get('key')?.momentary).toEqual({
      start: 'on',
    })
    expect(codes('control key off, on momentary strt')).toEqual(['unknown-position'])
  })
})
