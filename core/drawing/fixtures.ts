import type {
  Actor,
  Area,
  Circuit,
  Control,
  Driver,
  Element,
  ElementId,
  Figure,
  Law,
  Part,
  Role,
  Stroke,
  TerminalId,
  Test,
} from '../circuit/model.ts'
import type { Feed, Frame, LoadTrace } from '../strings/trace.ts'

/**
 * Circuits built as model values, for the tests of this folder; a reader of netlists is not needed to draw.
 */

const nowhere = { from: 0, to: 0 }
const metal: Law = { kind: 'path', ohms: 0.02 }

const stroke = (d: string, style: Stroke['style'] = 'line'): Stroke => ({ d, style })
export const bodies = {
  heater: {
    kind: 'body',
    half: 20,
    strokes: [stroke('M-20 -9H20V9H-20z', 'paper'), stroke('M-12 -9V9M-4 -9V9M4 -9V9M12 -9V9')],
  },
  fuse: { kind: 'body', half: 18, strokes: [stroke('M-18 -8H18V8H-18z', 'paper'), stroke('M-18 0H18')] },
  winding: {
    kind: 'body',
    half: 24,
    strokes: [stroke('M-24 0a6 7 0 0 1 12 0a6 7 0 0 1 12 0a6 7 0 0 1 12 0a6 7 0 0 1 12 0')],
  },
  motor: {
    kind: 'body',
    half: 17,
    strokes: [stroke('M-17 0a17 17 0 1 1 34 0a17 17 0 1 1 -34 0z', 'paper'), stroke('M-7 7V-7L0 3L7 -7V7')],
  },
  lamp: {
    kind: 'body',
    half: 14,
    strokes: [
      stroke('M-14 0a14 14 0 1 1 28 0a14 14 0 1 1 -28 0z', 'paper'),
      stroke('M-9.9 -9.9L9.9 9.9M-9.9 9.9L9.9 -9.9'),
    ],
  },
  resistor: { kind: 'body', half: 20, strokes: [stroke('M-20 -8H20V8H-20z', 'paper')] },
} satisfies Record<string, Figure>

export function contactFigure(rest: 'open' | 'closed', by: Driver): Figure {
  return { kind: 'contact', rest, by }
}

export interface ElementSpec {
  readonly name: string
  readonly ends: readonly [string, string]
  readonly role?: Role
  readonly figure?: Figure
  readonly note?: string
  readonly when?: Test
  readonly throwOf?: string
}

export interface PartSpec {
  readonly name: string
  readonly kind?: string
  readonly label?: string
  readonly area?: string
  readonly elements: readonly ElementSpec[]
}

export interface WireSpec {
  readonly ends: readonly [TerminalId, TerminalId]
  readonly colour?: string
}

export interface CircuitSpec {
  readonly poles?: readonly string[]
  readonly parts: readonly PartSpec[]
  readonly wires: readonly WireSpec[]
  readonly controls?: readonly Control[]
  readonly actors?: readonly Actor[]
  readonly areas?: readonly Area[]
}

/** Tags become terminals of their part; a tag with a dot, or in `bare`, is taken as it is. */
export function circuitOf(spec: CircuitSpec, bare: readonly TerminalId[] = ['chassis']): Circuit {
  const terminals = new Set<TerminalId>()
  const elements = new Map<ElementId, Element>()
  const parts = new Map<string, Part>()
  const poles = (spec.poles ?? []).map((name) => ({
    name,
    terminal: `supply.${name}`,
    behind: `supply.${name} source`,
    re: name === 'L2' ? -120 : name === 'N' || name === 'G' ? 0 : 120,
    im: 0,
  }))
  for (const p of poles) {
    terminals.add(p.terminal)
    const id = `supply:${p.name}`
    elements.set(id, {
      id,
      part: 'supply',
      name: p.name,
      role: 'source',
      ends: [p.terminal, p.behind],
      laws: [{ when: [[]], law: metal }],
      figure: { kind: 'source' },
      note: '',
      at: nowhere,
    })
  }
  for (const p of spec.parts) {
    const own: TerminalId[] = []
    const ids: ElementId[] = []
    const of = (tag: string) => {
      const t = tag.includes('.') || bare.includes(tag) ? tag : `${p.name}.${tag}`
      terminals.add(t)
      if (!own.includes(t)) own.push(t)
      return t
    }
    for (const e of p.elements) {
      const id = `${p.name}:${e.name}`
      ids.push(id)
      elements.set(id, {
        id,
        part: p.name,
        name: e.name,
        role: e.role ?? 'contact',
        ends: [of(e.ends[0]), of(e.ends[1])],
        laws: [{ when: e.when ?? [[]], law: metal }],
        figure: e.figure ?? contactFigure('open', 'hand'),
        note: e.note ?? '',
        ...(e.throwOf && { throwOf: `${p.name}:${e.throwOf}` }),
        at: nowhere,
      })
    }
    parts.set(p.name, {
      name: p.name,
      kind: p.kind ?? 'switch',
      label: p.label ?? '',
      ...(p.area && { area: p.area }),
      terminals: own,
      elements: ids,
      at: nowhere,
    })
  }
  for (const w of spec.wires) {
    const id = `${w.ends[0]}~${w.ends[1]}`
    for (const end of w.ends) terminals.add(end)
    elements.set(id, {
      id,
      part: '',
      name: id,
      role: 'wire',
      ends: w.ends,
      laws: [{ when: [[]], law: metal }],
      figure: { kind: 'wire' },
      note: '',
      wire: w.colour ? { colour: w.colour } : {},
      at: nowhere,
    })
  }
  return {
    unit: { title: 'Drawn by hand' },
    supplies: poles.length > 0 ? [{ name: 'supply', title: 'a supply', hertz: 60, poles }] : [],
    controls: new Map((spec.controls ?? []).map((c) => [c.name, c])),
    areas: new Map((spec.areas ?? []).map((a) => [a.name, a])),
    zones: new Map(),
    parts,
    elements,
    actors: new Map((spec.actors ?? []).map((a) => [a.name, a])),
    terminals,
  }
}

/** Wires along a row of terminals, as a line with several of them gives. */
export function wires(colour: string, ...row: readonly TerminalId[]): WireSpec[] {
  return row.slice(1).map((to, i) => ({ ends: [row[i] ?? '', to], ...(colour && { colour }) }))
}

const control = (name: string, label: string, positions: readonly string[], springsBack = false): Control => ({
  name,
  label,
  positions,
  normally: positions[0] ?? '',
  springsBack,
  at: nowhere,
})

const link = (name: string, label: string, figure: Figure, area: string, when?: Test): PartSpec => ({
  name,
  label,
  area,
  elements: [
    {
      name: figure.kind === 'contact' && figure.by === 'heat' ? '1-2' : 'link',
      ends: ['1', '2'],
      role: 'link',
      figure,
      ...(when && { when }),
    },
  ],
})

const heat = (name: string, label: string, up: number): Actor => ({
  name,
  part: name,
  states: ['cold', label],
  sense: { by: 'heat', zone: 'exhaust', points: [{ when: [[]], up: { value: up, unit: 'C' } }] },
})

/** An electric dryer much like one that a bench has: 17 elements on a split-phase supply. */
export function dryer(): Circuit {
  const dial = ['off', 'timed-high', 'timed-low', 'sensor', 'cool-down']
  const speed = (rest: 'open' | 'closed') => contactFigure(rest, 'speed')
  return circuitOf({
    poles: ['L1', 'L2', 'N', 'G'],
    areas: [
      { name: 'console', label: 'Behind the console', minutes: 5 },
      { name: 'rear', label: 'Rear panel', minutes: 8 },
      { name: 'top', label: 'Top lid', minutes: 4 },
      { name: 'drum', label: 'Drum out', minutes: 5 },
    ],
    controls: [
      control('dial', 'Cycle dial', dial),
      control('door', 'Door', ['shut', 'open']),
      control('start', 'Start button', ['released', 'held'], true),
    ],
    actors: [
      {
        name: 'M',
        part: 'M',
        states: ['at-rest', 'at-speed'],
        sense: {
          by: 'needs',
          to: [
            [
              { load: 'M:main', share: 0.7 },
              { load: 'M:start', share: 0.7 },
            ],
          ],
          stay: [[{ load: 'M:main', share: 0.7 }]],
          hums: true,
        },
      },
      heat('OT', 'hot', 68),
      heat('HL', 'hot', 121),
      heat('TC', 'blown', 178),
      heat('TF', 'blown', 91),
    ],
    parts: [
      {
        name: 'DS',
        label: 'Door switch',
        area: 'top',
        elements: [
          {
            name: 'C-NO',
            ends: ['C', 'NO'],
            figure: contactFigure('open', 'door'),
            when: [[{ of: 'door', in: ['shut'] }]],
          },
        ],
      },
      link('F1', 'Motor fuse', bodies.fuse, 'rear'),
      link('TF', 'Thermal fuse', contactFigure('closed', 'heat-once'), 'rear', [[{ of: 'TF', in: ['cold'] }]]),
      link('OT', 'Operating thermostat', contactFigure('closed', 'heat'), 'rear', [[{ of: 'OT', in: ['cold'] }]]),
      link('HL', 'High-limit thermostat', contactFigure('closed', 'heat'), 'rear', [[{ of: 'HL', in: ['cold'] }]]),
      link('TC', 'Thermal cutoff', contactFigure('closed', 'heat-once'), 'rear', [[{ of: 'TC', in: ['cold'] }]]),
      {
        name: 'H1',
        label: 'Heating element',
        area: 'rear',
        elements: [{ name: '1-2', ends: ['1', '2'], role: 'load', figure: bodies.heater, note: '5400 W' }],
      },
      {
        name: 'PB',
        label: 'Start switch',
        area: 'console',
        elements: [
          {
            name: '1-2',
            ends: ['1', '2'],
            figure: contactFigure('open', 'push'),
            when: [[{ of: 'start', in: ['held'] }]],
          },
        ],
      },
      {
        name: 'M',
        label: 'Drive motor',
        area: 'drum',
        elements: [
          { name: 'main', ends: ['4', '5'], role: 'load', figure: bodies.winding, note: '2.4 Ω' },
          { name: 'start', ends: ['3', '5'], role: 'load', figure: bodies.winding, note: '3.1 Ω' },
          {
            name: 'heat',
            ends: ['1', '2'],
            figure: speed('open'),
            note: 'at speed',
            when: [[{ of: 'M', in: ['at-speed'] }]],
          },
          {
            name: 'hold',
            ends: ['6', '4'],
            figure: speed('open'),
            note: 'at speed',
            when: [[{ of: 'M', in: ['at-speed'] }]],
          },
          {
            name: 'aux',
            ends: ['4', '3'],
            figure: speed('closed'),
            note: 'at rest',
            when: [[{ of: 'M', in: ['at-rest'] }]],
          },
        ],
      },
      {
        name: 'CS',
        label: 'Cycle switch',
        area: 'console',
        elements: [
          {
            name: 'A-B',
            ends: ['A', 'B'],
            figure: contactFigure('open', 'dial'),
            note: 'motor',
            when: [[{ of: 'dial', in: dial.slice(1) }]],
          },
          {
            name: 'A-C',
            ends: ['A', 'C'],
            figure: contactFigure('open', 'dial'),
            note: 'heat',
            when: [[{ of: 'dial', in: dial.slice(1, 4) }]],
          },
        ],
      },
    ],
    wires: [
      ...wires('BK', 'supply.L1', 'CS.A'),
      ...wires('BU', 'CS.B', 'TF.1'),
      ...wires('BU', 'TF.2', 'F1.1'),
      ...wires('BU', 'F1.2', 'DS.C'),
      ...wires('BU', 'DS.NO', 'PB.1', 'M.6'),
      ...wires('YE', 'PB.2', 'M.4'),
      ...wires('WH', 'M.5', 'supply.N'),
      ...wires('RD', 'CS.C', 'OT.1'),
      ...wires('RD', 'OT.2', 'HL.1'),
      ...wires('RD', 'HL.2', 'TC.1'),
      ...wires('RD', 'TC.2', 'H1.1'),
      ...wires('RD', 'H1.2', 'M.1'),
      ...wires('RD', 'M.2', 'supply.L2'),
      ...wires('GNYE', 'supply.G', 'chassis'),
    ],
  })
}

/** A frame in which `conducts` are closed and the rest of the contacts open; feeds as named, else `fed`. */
export function frameOf(
  circuit: Circuit,
  open: Readonly<Record<ElementId, string>>,
  feeds: Readonly<Record<ElementId, Feed>>,
  rest: Feed = 'fed',
): Frame {
  const ids = [...circuit.elements.keys()]
  return {
    setting: {},
    conditions: {},
    conducts: new Set(ids.filter((id) => !(id in open))),
    feed: new Map(ids.map((id) => [id, feeds[id] ?? rest])),
    why: new Map(Object.entries(open).filter(([, why]) => why !== '')),
    on: new Set(),
  }
}

const heatWires = ['supply.L1~CS.A', 'CS.C~OT.1', 'OT.2~HL.1', 'HL.2~TC.1', 'TC.2~H1.1', 'H1.2~M.1', 'M.2~supply.L2']
const heatRow = ['CS:A-C', 'OT:1-2', 'HL:1-2', 'TC:link', 'H1:1-2', 'M:heat']

/** The dryer at timed-high, start released, drum turning, heater on. */
export function dryerRunning(circuit: Circuit): Frame {
  const live = [
    ...heatWires,
    ...heatRow,
    'CS:A-B',
    'CS.B~TF.1',
    'TF:link',
    'TF.2~F1.1',
    'F1:link',
    'F1.2~DS.C',
    'DS:C-NO',
    'DS.NO~PB.1',
    'PB.1~M.6',
    'M:hold',
    'M:main',
    'M.5~supply.N',
  ]
  return {
    ...frameOf(
      circuit,
      { 'PB:1-2': 'start released', 'M:aux': 'M at speed' },
      {
        ...Object.fromEntries(live.map((id) => [id, 'live' as const])),
        'M:start': 'dead',
        'supply.G~chassis': 'grounded',
      },
    ),
    setting: { dial: 'timed-high', door: 'shut', start: 'released' },
    on: new Set(['H1:1-2', 'M:main']),
  }
}

/** The dryer at cool-down: the drum turns, the heater's string is held open. */
export function dryerCooling(circuit: Circuit): Frame {
  const live = [
    'supply.L1~CS.A',
    'CS:A-B',
    'CS.B~TF.1',
    'TF:link',
    'TF.2~F1.1',
    'F1:link',
    'F1.2~DS.C',
    'DS:C-NO',
    'DS.NO~PB.1',
    'PB.1~M.6',
    'M:hold',
    'M:main',
    'M.5~supply.N',
  ]
  return {
    ...frameOf(
      circuit,
      { 'PB:1-2': 'start released', 'M:aux': 'M at speed', 'CS:A-C': 'chart: o at cool-down' },
      {
        ...Object.fromEntries(live.map((id) => [id, 'live' as const])),
        'M:start': 'dead',
        'supply.G~chassis': 'grounded',
      },
    ),
    setting: { dial: 'cool-down', door: 'shut', start: 'released' },
    on: new Set(['M:main']),
  }
}

const bare: LoadTrace = {
  load: '',
  on: true,
  weak: false,
  volts: 0,
  amps: 0,
  mustBeClosed: [],
  through: [],
  wires: [],
  mustBeOpen: [],
  shorts: [],
  toStart: [],
  anyOf: [],
  complete: true,
  order: [],
  path: [],
  poles: [],
  heldOpen: [],
  enablers: [],
  mustRest: [],
  holdsItself: false,
  falsePaths: [],
}

function interleave(row: readonly string[], between: readonly string[]): string[][] {
  return between.flatMap((wire, i) => (row[i] === undefined ? [[wire]] : [[wire], [row[i]]]))
}

/** What H1 needs while it runs. */
export const heaterOn: LoadTrace = {
  ...bare,
  load: 'H1:1-2',
  volts: 239,
  amps: 22.4,
  mustBeClosed: heatRow.filter((id) => id !== 'H1:1-2'),
  wires: heatWires,
  order: heatRow.map((id) => [id]),
  path: interleave(heatRow, heatWires),
  poles: ['L1', 'L2'],
  enablers: ['M:main'],
}

/** H1 at cool-down: off, held open by the chart. */
export const heaterOff: LoadTrace = {
  ...heaterOn,
  on: false,
  volts: 0,
  amps: 0,
  mustBeClosed: [],
  heldOpen: [{ element: 'CS:A-C', reason: 'chart: o at cool-down' }],
}

/** What the drive motor needs while start is held: the button or its own hold contact. */
export const motorStarting: LoadTrace = {
  ...bare,
  load: 'M:main',
  volts: 119,
  amps: 5,
  mustBeClosed: ['CS:A-B', 'TF:link', 'F1:link', 'DS:C-NO'],
  anyOf: [['PB:1-2', 'M:hold']],
  wires: ['supply.L1~CS.A', 'CS.B~TF.1', 'TF.2~F1.1', 'F1.2~DS.C', 'M.5~supply.N'],
  order: [['CS:A-B'], ['TF:link'], ['F1:link'], ['DS:C-NO'], ['PB:1-2', 'M:hold'], ['M:main']],
  path: [
    ['supply.L1~CS.A'],
    ['CS:A-B'],
    ['CS.B~TF.1'],
    ['TF:link'],
    ['TF.2~F1.1'],
    ['F1:link'],
    ['F1.2~DS.C'],
    ['DS:C-NO'],
    ['DS.NO~PB.1'],
    ['PB.1~M.6'],
    ['PB:1-2', 'M:hold'],
    ['PB.2~M.4'],
    ['M:main'],
    ['M.5~supply.N'],
  ],
  poles: ['L1', 'N'],
  holdsItself: true,
}

/** The motor as it runs on: only its hold contact is closed. */
export const motorRunning: LoadTrace = {
  ...motorStarting,
  mustBeClosed: [...motorStarting.mustBeClosed, 'M:hold'],
  anyOf: [],
}

const contact = { name: '1-2', ends: ['1', '2'] as const, figure: contactFigure('open', 'hand') }
const load = { name: '1-2', ends: ['1', '2'] as const, role: 'load' as const, figure: bodies.heater }
/** Circuits that are half typed, wrong or rare, by what is odd about them. */
export const oddCircuits: Record<string, Circuit> = {
  'an empty circuit': circuitOf({ parts: [], wires: [] }),
  'a supply alone': circuitOf({ poles: ['L', 'N', 'G'], parts: [], wires: [] }),
  'a single element': circuitOf({ parts: [{ name: 'H', elements: [load] }], wires: [] }),
  'a single element across the supply': circuitOf({
    poles: ['L', 'N'],
    parts: [{ name: 'H', elements: [load] }],
    wires: [...wires('BK', 'supply.L', 'H.1'), ...wires('WH', 'H.2', 'supply.N')],
  }),
  'a string with no supply': circuitOf({
    parts: ['A', 'B', 'C'].map((name) => ({ name, elements: [contact] })),
    wires: [...wires('RD', 'A.2', 'B.1'), ...wires('RD', 'B.2', 'C.1')],
  }),
  'a part shorted by a wire': circuitOf({
    poles: ['L', 'N'],
    parts: [
      { name: 'H', elements: [load] },
      { name: 'K', elements: [contact] },
    ],
    wires: [...wires('BK', 'supply.L', 'K.1', 'K.2', 'H.1'), ...wires('WH', 'H.2', 'supply.N')],
  }),
  'a dead end': circuitOf({
    poles: ['L', 'N'],
    parts: [
      { name: 'K', elements: [contact] },
      { name: 'J', elements: [contact] },
    ],
    wires: wires('BK', 'supply.L', 'K.1', 'J.2'),
  }),
  'an island beside the rest': circuitOf({
    poles: ['L', 'N'],
    parts: ['H', 'I', 'J'].map((name) => ({ name, elements: [load] })),
    wires: [
      ...wires('BK', 'supply.L', 'H.1'),
      ...wires('WH', 'H.2', 'supply.N'),
      ...wires('RD', 'I.1', 'J.1'),
      ...wires('RD', 'I.2', 'J.2'),
    ],
  }),
  'a wire typed twice': circuitOf({
    poles: ['L', 'N'],
    parts: [{ name: 'H', elements: [load] }],
    wires: [...wires('BK', 'supply.L', 'H.1'), ...wires('RD', 'H.1', 'supply.L'), ...wires('WH', 'H.2', 'supply.N')],
  }),
  'a dead short across the supply': circuitOf({
    poles: ['L', 'N'],
    parts: [{ name: 'H', elements: [load] }],
    wires: [...wires('BK', 'supply.L', 'H.1', 'supply.N'), ...wires('BK', 'supply.L', 'supply.N')],
  }),
  'a neutral strap': circuitOf({
    poles: ['L1', 'L2', 'N'],
    parts: [{ name: 'H', elements: [load] }],
    wires: [
      ...wires('BK', 'supply.L1', 'H.1'),
      ...wires('RD', 'H.2', 'supply.L2'),
      ...wires('', 'supply.N', 'chassis'),
    ],
  }),
  'a load that returns through the chassis': circuitOf({
    poles: ['L', 'N', 'G'],
    parts: [{ name: 'I', elements: [load] }],
    wires: [...wires('BK', 'supply.L', 'I.1'), ...wires('GNYE', 'I.2', 'chassis', 'supply.G')],
  }),
  'a load between neutral and the second leg': circuitOf({
    poles: ['L1', 'L2', 'N'],
    parts: [
      { name: 'A', elements: [load] },
      { name: 'B', elements: [load] },
    ],
    wires: [
      ...wires('BK', 'supply.L1', 'A.1'),
      ...wires('WH', 'A.2', 'supply.N'),
      ...wires('RD', 'supply.L2', 'B.1'),
      ...wires('WH', 'B.2', 'supply.N'),
    ],
  }),
  'a bridge': circuitOf({
    poles: ['L', 'N'],
    parts: ['A', 'B', 'C', 'D', 'E'].map((name) => ({ name, elements: [contact] })),
    wires: [
      ...wires('BK', 'supply.L', 'A.1', 'B.1'),
      ...wires('RD', 'A.2', 'C.1', 'E.1'),
      ...wires('BU', 'B.2', 'D.1', 'E.2'),
      ...wires('WH', 'C.2', 'D.2', 'supply.N'),
    ],
  }),
  'a changeover': circuitOf({
    poles: ['L', 'N'],
    parts: [
      {
        name: 'S',
        label: 'Door switch',
        elements: [
          { name: 'C-NO', ends: ['C', 'NO'], note: 'shut' },
          { name: 'C-NC', ends: ['C', 'NC'], throwOf: 'C-NO', note: 'open' },
        ],
      },
      { name: 'H', elements: [load] },
      { name: 'I', elements: [{ ...load, figure: bodies.lamp }] },
    ],
    wires: [
      ...wires('BK', 'supply.L', 'S.C'),
      ...wires('RD', 'S.NO', 'H.1'),
      ...wires('BU', 'S.NC', 'I.1'),
      ...wires('WH', 'H.2', 'I.2', 'supply.N'),
    ],
  }),
  'a changeover fed at its throws': circuitOf({
    poles: ['L1', 'L2', 'N'],
    parts: [
      {
        name: 'S',
        elements: [
          { name: 'C-A', ends: ['C', 'A'] },
          { name: 'C-B', ends: ['C', 'B'], throwOf: 'C-A' },
        ],
      },
      { name: 'K', elements: [contact] },
      { name: 'J', elements: [contact] },
      { name: 'H', elements: [load] },
    ],
    wires: [
      ...wires('BK', 'supply.L1', 'K.1', 'J.1'),
      ...wires('BK', 'K.2', 'S.A'),
      ...wires('BK', 'J.2', 'S.B'),
      ...wires('RD', 'S.C', 'H.1'),
      ...wires('WH', 'H.2', 'supply.N'),
    ],
  }),
  'a splice': circuitOf({
    poles: ['L', 'N'],
    parts: ['A', 'B', 'C'].map((name) => ({ name, elements: [load] })),
    wires: [
      ...wires('BK', 'supply.L', 'SP1'),
      ...wires('RD', 'SP1', 'A.1'),
      ...wires('BU', 'SP1', 'B.1'),
      ...wires('YE', 'SP1', 'C.1'),
      ...wires('WH', 'A.2', 'B.2', 'C.2', 'supply.N'),
    ],
  }),
  'a terminal block on the way, and a wire into nothing': circuitOf({
    poles: ['L', 'N'],
    parts: [
      { name: 'K', elements: [contact] },
      { name: 'H', elements: [load] },
    ],
    wires: [
      ...wires('BK', 'supply.L', 'TB.1', 'K.1'),
      ...wires('RD', 'K.2', 'TB.2', 'H.1'),
      ...wires('WH', 'H.2', 'TB.9'),
      ...wires('GY', 'TB.5', 'TB.6'),
    ],
  }),
  'parts mounted on each other': circuitOf({
    poles: ['L', 'N'],
    parts: [
      { name: 'HL', elements: [contact] },
      { name: 'TC', elements: [{ name: '1-2', ends: ['HL.2', '2'] }] },
      { name: 'H', elements: [{ ...load, ends: ['TC.2', 'supply.N'] }] },
    ],
    wires: wires('BK', 'supply.L', 'HL.1'),
  }),
}
