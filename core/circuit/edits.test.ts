import { readdirSync, readFileSync } from 'node:fs'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { generate } from '../../tests/generated/circuits.ts'
import { applyEdits, invertEdits, parse, type TextEdit } from '../netlist/index.ts'
import {
  addPart,
  addWire,
  deleteWire,
  type Edited,
  isRefusal,
  moveWireEnd,
  type Renamed,
  removePart,
  rename,
  rerate,
  setChartCell,
} from './edits.ts'
import { type Circuit, readCircuit } from './index.ts'
import { study } from './study.ts'

const dryer = `unit "Dryer"  # invented
supply split-phase 240 V 60 Hz
area rear "Rear" 5 min
area zone "Top" 4 min  after rear

control dial "Dial"  off, timed, cool-down   normally timed
control door         shut, open
drive drum turned by M belt
airflow duct moved by M
zone box  warms with H1, H2  airflow duct

cycle-switch CS "M and dial" turned by dial  area rear
  chart  off  timed  cool-down   # from the sheet
  A-B    o    x      x           "M"
  A-C    o    x
switch     DS  C-NO when door=shut and dial=timed, cool-down  area zone
changeover SW  C to NO when door=shut else NC
cutoff     TC  HL.2-2 opens 178 C  zone box
thermostat HL  opens 121 C closes 93 C zone box   # M is no part of it
heater     H1  3500 W at 240 V
heater     H2  1900 W at 240 V   area rear
splice     S1
motor M "M" 120 V 5 A
  winding main 4-5 2.4 ohm
  contact heat 1-2 closed at speed  # M

wire BK    supply.L1 CS.A
run  RD    CS.C > HL # in the box
run  WH    TC.2 > BU H1 > M.1
wire       H1.2 S1 H2.1  gauge 10 AWG
wire BU    M.2  supply.L2
wire       CS.B M.4  DS.C
wire WH    M.5  supply.N
`

const done = (text: string, edited: Edited): string => {
  if (isRefusal(edited)) throw new Error(`refused: ${edited.message}`)
  return applyEdits(text, edited)
}
/** The lines that an edit changed, as they are now. */
const changed = (text: string, edited: Edited): readonly string[] => {
  const before = text.split('\n')
  return done(text, edited)
    .split('\n')
    .filter((line) => !before.includes(line))
}

describe('rename', () => {
  it.each<[string, Renamed, string, readonly string[]]>([
    [
      'a motor, in what it turns, its terminals and conditions, not in labels and comments',
      { kind: 'part', name: 'M' },
      'MD',
      [
        'drive drum turned by MD belt',
        'airflow duct moved by MD',
        'motor MD "M" 120 V 5 A',
        'run  WH    TC.2 > BU H1 > MD.1',
        'wire BU    MD.2  supply.L2',
        'wire       CS.B MD.4  DS.C',
        'wire WH    MD.5  supply.N',
      ],
    ],
    [
      'a heater, in its zone and in runs',
      { kind: 'part', name: 'H1' },
      'HA',
      [
        'zone box  warms with HA, H2  airflow duct',
        'heater     HA  3500 W at 240 V',
        'run  WH    TC.2 > BU HA > M.1',
        'wire       HA.2 S1 H2.1  gauge 10 AWG',
      ],
    ],
    [
      'a part that another is mounted on',
      { kind: 'part', name: 'HL' },
      'LIM',
      [
        'cutoff     TC  LIM.2-2 opens 178 C  zone box',
        'thermostat LIM  opens 121 C closes 93 C zone box   # M is no part of it',
        'run  RD    CS.C > LIM # in the box',
      ],
    ],
    [
      'a splice',
      { kind: 'part', name: 'S1' },
      'joint',
      ['splice     joint', 'wire       H1.2 joint H2.1  gauge 10 AWG'],
    ],
    [
      'a part, to the word of a clause',
      { kind: 'part', name: 'H1' },
      'airflow',
      [
        'zone box  warms with "airflow", H2  airflow duct',
        'heater     airflow  3500 W at 240 V',
        'run  WH    TC.2 > BU airflow > M.1',
        'wire       airflow.2 S1 H2.1  gauge 10 AWG',
      ],
    ],
    [
      'a control',
      { kind: 'control', name: 'dial' },
      'knob',
      [
        'control knob "Dial"  off, timed, cool-down   normally timed',
        'cycle-switch CS "M and dial" turned by knob  area rear',
        'switch     DS  C-NO when door=shut and knob=timed, cool-down  area zone',
      ],
    ],
    [
      'an airflow',
      { kind: 'airflow', name: 'duct' },
      'pipe',
      ['airflow pipe moved by M', 'zone box  warms with H1, H2  airflow pipe'],
    ],
    [
      'an area',
      { kind: 'area', name: 'rear' },
      'back',
      [
        'area back "Rear" 5 min',
        'area zone "Top" 4 min  after back',
        'cycle-switch CS "M and dial" turned by dial  area back',
        'heater     H2  1900 W at 240 V   area back',
      ],
    ],
    [
      'an area, to the word of a clause',
      { kind: 'area', name: 'rear' },
      'works',
      [
        'area works "Rear" 5 min',
        'area zone "Top" 4 min  after works',
        'cycle-switch CS "M and dial" turned by dial  area works',
        'heater     H2  1900 W at 240 V   area "works"',
      ],
    ],
    [
      'a zone, where an area is called so too',
      { kind: 'zone', name: 'box' },
      'rear',
      [
        'zone rear  warms with H1, H2  airflow duct',
        'cutoff     TC  HL.2-2 opens 178 C  zone rear',
        'thermostat HL  opens 121 C closes 93 C zone rear   # M is no part of it',
      ],
    ],
    [
      'a position, in charts and conditions',
      { kind: 'position', control: 'dial', position: 'timed' },
      'high',
      [
        'control dial "Dial"  off, high, cool-down   normally high',
        '  chart  off  high  cool-down   # from the sheet',
        'switch     DS  C-NO when door=shut and dial=high, cool-down  area zone',
      ],
    ],
    [
      'a position to two words',
      { kind: 'position', control: 'dial', position: 'cool-down' },
      'cool = down',
      [
        'control dial "Dial"  off, timed, "cool = down"   normally timed',
        '  chart  off  timed  "cool = down"   # from the sheet',
        'switch     DS  C-NO when door=shut and dial=timed, "cool = down"  area zone',
      ],
    ],
    [
      'a tag of a contact chart',
      { kind: 'tag', part: 'CS', tag: 'A' },
      'TM',
      ['  TM-B    o    x      x           "M"', '  TM-C    o    x', 'wire BK    supply.L1 CS.TM'],
    ],
    [
      'a tag, quoted where it must be',
      { kind: 'tag', part: 'M', tag: '4' },
      '−',
      ['  winding main "−"-5 2.4 ohm', 'wire       CS.B M."−"  DS.C'],
    ],
    [
      'a tag that stands alone',
      { kind: 'tag', part: 'SW', tag: 'NO' },
      '13/14',
      ['changeover SW  C to 13/14 when door=shut else NC'],
    ],
    [
      'a tag that another part is mounted on',
      { kind: 'tag', part: 'HL', tag: '2' },
      'B',
      [
        'cutoff     TC  HL.B-2 opens 178 C  zone box',
        'thermostat HL 1-B  opens 121 C closes 93 C zone box   # M is no part of it',
      ],
    ],
  ])('%s', (_, it, name, lines) => expect(changed(dryer, rename(dryer, it, name))).toEqual(lines))

  it.each<[string, Renamed, string, string]>([
    ['what is not there', { kind: 'part', name: 'X' }, 'Y', 'no-such-thing'],
    ['to what is no name', { kind: 'part', name: 'M' }, '1M', 'bad-name'],
    ['to the name of a control', { kind: 'part', name: 'M' }, 'dial', 'name-in-use'],
    ['to a name that means something', { kind: 'part', name: 'M' }, 'chassis', 'would-be-wrong'],
    ['a splice to a colour', { kind: 'part', name: 'S1' }, 'toString', 'would-be-wrong'],
    ['a position to another', { kind: 'position', control: 'dial', position: 'off' }, 'timed', 'name-in-use'],
    ['a position to one with a quote', { kind: 'position', control: 'dial', position: 'off' }, 'o"ff', 'bad-position'],
    [
      'the first position of a line without a label to two words',
      { kind: 'position', control: 'door', position: 'shut' },
      'all shut',
      'label-needed',
    ],
    ['a tag to one with a dot', { kind: 'tag', part: 'M', tag: '4' }, 'a.b', 'bad-tag'],
    ['a tag to another', { kind: 'tag', part: 'M', tag: '4' }, '5', 'name-in-use'],
    ['a tag that the supply gives', { kind: 'tag', part: 'supply', tag: 'L1' }, 'X', 'not-written'],
  ])('is refused: %s', (_, it, name, code) => expect(rename(dryer, it, name)).toMatchObject({ code }))
})

describe('parts', () => {
  it.each<[string, Parameters<typeof addPart>[1], string, string]>([
    [
      'below its kind',
      { kind: 'heater', name: 'H3', words: '900 W at 240 V' },
      'heater     H2  1900 W at 240 V   area rear',
      'heater H3 900 W at 240 V',
    ],
    [
      'below the kinds before it',
      { kind: 'fuse', name: 'F1', words: 'blows 15 A' },
      'changeover SW  C to NO when door=shut else NC',
      'fuse F1 blows 15 A',
    ],
    [
      'with lines of its own',
      { kind: 'motor', name: 'M2', words: '120 V 3 A', under: ['winding main 1-2', 'winding start 1-3'] },
      '  contact heat 1-2 closed at speed  # M',
      'motor M2 120 V 3 A\n  winding main 1-2\n  winding start 1-3',
    ],
  ])('are added %s', (_, part, below, lines) => {
    expect(done(dryer, addPart(dryer, part))).toBe(dryer.replace(below, `${below}\n${lines}`))
  })
  it('are added to an empty text, and to one of another line end', () => {
    expect(done('', addPart('', { kind: 'lamp', name: 'LP', words: '5 W at 120 V' }))).toBe('lamp LP 5 W at 120 V')
    const windows = '# a note\r\n\r\n'
    const motor = { kind: 'motor', name: 'M', words: '120 V 3 A', under: ['winding main 1-2'] }
    expect(done(windows, addPart(windows, motor))).toBe('# a note\r\nmotor M 120 V 3 A\r\n  winding main 1-2\r\n\r\n')
  })
  it.each<[string, Parameters<typeof addPart>[1], string]>([
    ['a kind that is none', { kind: 'wire', name: 'X' }, 'no-such-kind'],
    ['a name in use', { kind: 'lamp', name: 'M' }, 'name-in-use'],
    ['words that are wrong', { kind: 'lamp', name: 'LP', words: '5 amps' }, 'would-be-wrong'],
  ])('are not added with %s', (_, part, code) => expect(addPart(dryer, part)).toMatchObject({ code }))

  it('are removed with their wires; neighbours are joined and lists go on', () => {
    expect(done(dryer, removePart(dryer, 'H1'))).toBe(
      dryer
        .replace('warms with H1, H2', 'warms with H2')
        .replace('heater     H1  3500 W at 240 V\n', '')
        .replace('TC.2 > BU H1 > M.1', 'TC.2 > BU M.1')
        .replace('wire       H1.2 S1 H2.1', 'wire       S1 H2.1'),
    )
    expect(done(dryer, removePart(dryer, 'M'))).toBe(
      dryer
        .replace('drum turned by M belt', 'drum belt')
        .replace('duct moved by M', 'duct')
        .replace(/motor M[^#]*# M\n/, '')
        .replace('H1 > M.1', 'H1')
        .replace('wire BU    M.2  supply.L2\n', '')
        .replace('CS.B M.4  DS.C', 'CS.B  DS.C')
        .replace('wire WH    M.5  supply.N\n', ''),
    )
  })
  it('are not removed while a condition or a tag speaks of them', () => {
    expect(removePart(dryer, 'HL')).toMatchObject({ code: 'spoken-of', from: dryer.indexOf('HL.2-2') })
    expect(removePart(dryer, 'door')).toMatchObject({ code: 'spoken-of' })
  })
})

describe('values', () => {
  it.each<[string, Parameters<typeof rerate>[1], string]>([
    ['a rating', { part: 'H1', value: '4000 W' }, 'heater     H1  4000 W at 240 V'],
    ['a clause', { part: 'H1', clause: 'at', value: '230 V' }, 'heater     H1  3500 W at 230 V'],
    [
      'a clause before a comment',
      { part: 'HL', clause: 'closes', value: '90C' },
      'thermostat HL  opens 121 C closes 90C zone box   # M is no part of it',
    ],
    [
      'a clause that is new',
      { part: 'H1', clause: 'area', value: 'rear' },
      'heater     H1  3500 W at 240 V  area rear',
    ],
    [
      'a rating that is new, by those there are',
      { part: 'H1', value: '16 ohm' },
      'heater     H1  3500 W 16 ohm at 240 V',
    ],
    [
      'a condition',
      { part: 'DS', clause: 'when', value: 'door=open' },
      'switch     DS  C-NO when door=open  area zone',
    ],
    ['a value of an indented line', { part: 'M', element: 'main', value: '3 ohm' }, '  winding main 4-5 3 ohm'],
    [
      'a clause of one',
      { part: 'M', element: 'heat', clause: 'closed', value: 'at rest' },
      '  contact heat 1-2 closed at rest  # M',
    ],
    [
      'of a zone',
      { part: 'box', clause: 'normal', value: '90 C' },
      'zone box  warms with H1, H2  airflow duct  normal 90 C',
    ],
  ])('are set: %s', (_, value, line) => expect(changed(dryer, rerate(dryer, value))).toEqual([line]))
  it.each<[string, Parameters<typeof rerate>[1], string]>([
    ['of another quantity', { part: 'HL', clause: 'opens', value: '15 A' }, 'bad-value'],
    ['that is more than one', { part: 'H1', value: '15 W 3 ohm' }, 'bad-value'],
    ['of a clause it has not', { part: 'H1', clause: 'opens', value: '15 C' }, 'no-such-clause'],
    ['that names nothing', { part: 'H1', clause: 'area', value: 'attic' }, 'would-be-wrong'],
  ])('are not set: %s', (_, value, code) => expect(rerate(dryer, value)).toMatchObject({ code }))
})

describe('wires', () => {
  it('are added below the others', () => {
    expect(done(dryer, addWire(dryer, 'SW.NC', 'S1', { colour: 'BK/RD', gauge: '10 AWG' }))).toBe(
      `${dryer.trimEnd()}\nwire BK/RD SW.NC S1 gauge 10 AWG\n`,
    )
    expect(addWire(dryer, 'M.4', 'CS.B')).toMatchObject({ code: 'wired-already' })
    expect(addWire(dryer, 'M.4', 'M.9')).toMatchObject({ code: 'no-such-terminal' })
    expect(addWire(dryer, 'M.4', 'M.4')).toMatchObject({ code: 'same-terminal' })
  })
  const long = `${dryer}run RD SW.C > BU CS.A > HL > GN H2 > M.1 # all\nwire GY SW.NO DS.NO H1.1 H2.2 length 3 ft # four\n`
  const tail = (edited: Edited) => done(long, edited).slice(dryer.length)
  it.each<[string, string, string]>([
    ['the first of a run', 'SW.C~CS.A', 'run BU CS.A > HL > GN H2 > M.1 # all'],
    ['the last of a run', 'H2.2~M.1', 'run RD SW.C > BU CS.A > HL > GN H2 # all'],
    ['one amid a run', 'CS.A~HL.1', 'run RD SW.C > BU CS.A # all\nrun BU HL > GN H2 > M.1'],
    ['one amid a wire', 'DS.NO~H1.1', 'wire GY SW.NO DS.NO length 3 ft # four\nwire GY H1.1 H2.2 length 3 ft'],
    ['the last of a wire', 'H1.1~H2.2', 'wire GY SW.NO DS.NO H1.1 length 3 ft # four'],
  ])('are deleted: %s', (_, id, lines) => expect(tail(deleteWire(long, id))).toContain(`${lines}\n`))
  it('are deleted with their line where they are all of it', () => {
    expect(done(dryer, deleteWire(dryer, 'supply.N~M.5'))).toBe(dryer.replace('wire WH    M.5  supply.N\n', ''))
    expect(deleteWire(dryer, 'M.1~M.2')).toMatchObject({ code: 'no-such-wire' })
  })
  it.each<[string, string, string, string, string]>([
    ['the free end of a wire', 'H1.1~H2.2', 'H2.2', 'M.2', 'wire GY SW.NO DS.NO H1.1 M.2 length 3 ft # four'],
    [
      'an end that others share',
      'SW.NO~DS.NO',
      'DS.NO',
      'M.2',
      'wire GY SW.NO M.2 length 3 ft # four\nwire GY DS.NO H1.1 H2.2 length 3 ft',
    ],
    ['the beginning of a run', 'SW.C~CS.A', 'SW.C', 'SW.NC', 'run RD SW.NC > BU CS.A > HL > GN H2 > M.1 # all'],
    ['a part of a run', 'HL.2~H2.1', 'H2.1', 'M.2', 'run RD SW.C > BU CS.A > HL > GN M.2 # all\nrun GN H2 > M.1'],
    [
      'the near side in a run',
      'HL.2~H2.1',
      'HL.2',
      'M.2',
      'run RD SW.C > BU CS.A > HL # all\nrun BU M.2 > GN H2 > M.1',
    ],
  ])('are moved: %s', (_, id, end, to, lines) => expect(tail(moveWireEnd(long, id, end, to))).toContain(`${lines}\n`))
  it('are not moved to themselves or to nothing', () => {
    expect(moveWireEnd(dryer, 'M.5~supply.N', 'M.5', 'supply.N')).toMatchObject({ code: 'same-terminal' })
    expect(moveWireEnd(dryer, 'M.5~supply.N', 'M.4', 'M.2')).toMatchObject({ code: 'no-such-end' })
    expect(moveWireEnd(dryer, 'M.5~supply.N', 'M.5', 'M.9')).toMatchObject({ code: 'no-such-terminal' })
  })
})

describe('cells of a chart', () => {
  it('are set where they stand', () => {
    expect(changed(dryer, setChartCell(dryer, 'CS', 'A-B', 'timed', 'o'))).toEqual([
      '  A-B    o    o      x           "M"',
    ])
    expect(setChartCell(dryer, 'CS', 'A-B', 'timed', 'x')).toEqual([])
  })
  it('that are missing are added', () => {
    expect(changed(dryer, setChartCell(dryer, 'CS', 'A-C', 'cool-down', 'o'))).toEqual(['  A-C    o    x  o'])
  })
  it('are not set where there is none', () => {
    expect(setChartCell(dryer, 'CS', 'A-D', 'off', 'x')).toMatchObject({ code: 'no-such-cell' })
    expect(setChartCell(dryer, 'CS', 'A-B', 'high', 'x')).toMatchObject({ code: 'no-such-cell' })
  })
})

// Laws, on demos and on generated circuits.

const demos = readdirSync('schematics-demo')
  .filter((f) => f.endsWith('.circuit'))
  .map((f) => readFileSync(`schematics-demo/${f}`, 'utf8'))
const text = fc.oneof(
  { weight: 1, arbitrary: fc.constantFrom(...demos) },
  { weight: 5, arbitrary: fc.integer({ min: 1, max: 100_000 }).map((seed) => generate(seed).text) },
)
/** A run of a law makes one edit to three, so that each edit is made a thousand times and more. */
const times = (numRuns: number) => ({ numRuns, seed: 20260 })
const runs = times(1000)
const pick = <T>(from: Iterable<T>, n: number): T | undefined => {
  const all = [...from]
  return all[n % Math.max(1, all.length)]
}

type Json = string | number | boolean | null | readonly Json[] | { readonly [key: string]: Json }
/** A circuit without places in the text, as plain data. */
const plain = (circuit: Circuit): Json =>
  JSON.parse(
    JSON.stringify(circuit, (key, value) =>
      key === 'at'
        ? undefined
        : key === 'momentary'
          ? Object.entries(value).flat()
          : value instanceof Map || value instanceof Set
            ? [...value]
            : value,
    ),
  )
/** Equal as plain data; compared as text first, which is quick. */
function expectSame(one: unknown, other: unknown): void {
  if (JSON.stringify(one) !== JSON.stringify(other)) expect(one).toEqual(other)
}
/** Every string changed, but for the ones under the keys. */
function mapped(
  json: Json,
  change: (s: string, key: string, owner: Json) => string,
  key = '',
  owner: Json = null,
): Json {
  if (typeof json === 'string') return change(json, key, owner)
  if (Array.isArray(json)) return json.map((it) => mapped(it, change, key, owner))
  if (typeof json !== 'object' || json === null) return json
  return Object.fromEntries(Object.entries(json).map(([k, v]) => [k, mapped(v, change, k, json)]))
}

/** What holds of every edit, whatever it is: undone to the letter, lines it is not about stay, and so do comments. */
function keepsTheRest(before: string, edits: readonly TextEdit[], mayChange: (line: string) => boolean): string {
  const after = applyEdits(before, edits)
  expect(applyEdits(after, invertEdits(before, edits))).toBe(before)
  const lines = after.split('\n')
  let at = 0
  for (const line of before.split('\n').filter((one) => !mayChange(one))) {
    const found = lines.indexOf(line, at)
    if (found < at) throw new Error(`the line “${line}” stays`)
    at = found + 1
  }
  return after
}
const has = (word: string) => (line: string) => new RegExp(`(?<![A-Za-z0-9_])${word}(?![A-Za-z0-9_])`).test(line)
const comments = (text: string) => parse(text).netlist.lines.flatMap((line) => line.comment?.text ?? [])

describe('laws', { timeout: 600_000 }, () => {
  it('a part, control, drive or airflow renamed is the same circuit under that name, and back again the same text', () => {
    const skip = [
      'label',
      'note',
      'title',
      'kind',
      'role',
      'states',
      'in',
      'positions',
      'normally',
      'colour',
      'd',
      'style',
      'by',
      'word',
      'area',
      'areas',
      'after',
      'zone',
      'zones',
    ]
    fc.assert(
      fc.property(text, fc.nat(), fc.constantFrom('Zz9', 'area', 'when', 'opens'), (before, n, name) => {
        const lines = study(before).lines.filter((line) => line.kind.named === 'shared' && line.kind.word !== 'supply')
        const old = pick(lines, n)
        if (!old) return
        const edits = rename(before, { kind: 'part', name: old.name }, name)
        if (isRefusal(edits)) {
          expect([edits.code, name]).toEqual([
            'would-be-wrong',
            edits.code === 'would-be-wrong' && name !== 'Zz9' ? name : '',
          ])
          return
        }
        const after = keepsTheRest(before, edits, has(old.name))
        expectSame(comments(after), comments(before))
        const wanted = mapped(plain(readCircuit(before).circuit), (s, key, owner) => {
          const inOwnNames = typeof owner === 'object' && owner !== null && ('minutes' in owner || 'warmsWith' in owner)
          if (skip.includes(key) || (key === 'name' && inOwnNames)) return s
          const isElementName = key === 'name' && typeof owner === 'object' && owner !== null && 'ends' in owner
          const dotted = new RegExp(`(^|[~-])${old.name}(?=[.:]|-belt$)`, 'g')
          const renamed = s.replace(dotted, `$1${name}`)
          return !isElementName && renamed === old.name ? name : renamed
        })
        expectSame(plain(readCircuit(after).circuit), wanted)
        expect(done(after, rename(after, { kind: 'part', name }, old.name)).replaceAll('"', '')).toBe(
          before.replaceAll('"', ''),
        )
      }),
      times(500),
    )
  })

  it('a position renamed changes its control, conditions and charts, and nothing else', () => {
    fc.assert(
      fc.property(
        text,
        fc.nat(),
        fc.nat(),
        fc.constantFrom('other', 'two words', 'a=b', 'normally'),
        (before, n, m, name) => {
          const { circuit } = readCircuit(before)
          const control = pick(circuit.controls.values(), n)
          const old = control && pick(control.positions, m)
          if (!control || old === undefined) return
          const edits = rename(before, { kind: 'position', control: control.name, position: old }, name)
          if (isRefusal(edits) && edits.code === 'label-needed') return
          if (isRefusal(edits) && /^(\d+ ?[CF]|lit|open)$/.test(old)) {
            expect(edits.code).toBe('would-change-more')
            return
          }
          const after = keepsTheRest(before, isRefusal(edits) ? [] : edits, (line) => line.includes(old))
          expect(isRefusal(edits) && edits.code).toBe(false)
          expectSame(comments(after), comments(before))
          const wanted = mapped(plain(circuit), (s, key, owner) => {
            const of = typeof owner === 'object' && owner !== null && 'of' in owner ? owner : undefined
            const own =
              typeof owner === 'object' && owner !== null && 'positions' in owner && 'name' in owner ? owner.name : ''
            if (key === 'in' && of?.of === control.name && s === old) return name
            return ['positions', 'normally', 'momentary'].includes(key) && own === control.name && s === old ? name : s
          })
          expectSame(plain(readCircuit(after).circuit), wanted)
        },
      ),
      runs,
    )
  })

  it('an area or a zone renamed changes those that name it, and nothing else', () => {
    fc.assert(
      fc.property(text, fc.nat(), fc.constantFrom('Zz9', 'after', 'zone', 'opens'), (before, n, name) => {
        const { circuit } = readCircuit(before)
        const old = pick(
          [
            ...[...circuit.areas.keys()].map((a) => ['area', a] as const),
            ...[...circuit.zones.keys()].map((z) => ['zone', z] as const),
          ],
          n,
        )
        if (!old) return
        const edits = rename(before, { kind: old[0], name: old[1] }, name)
        if (isRefusal(edits)) {
          expect(name).not.toBe('Zz9')
          return
        }
        const after = keepsTheRest(before, edits, has(old[1]))
        const isOwn = (owner: Json) =>
          typeof owner === 'object' && owner !== null && (old[0] === 'area' ? 'minutes' : 'warmsWith') in owner
        const wanted = mapped(plain(circuit), (s, key, owner) =>
          s === old[1] && ([old[0], `${old[0]}s`, 'after'].includes(key) || (key === 'name' && isOwn(owner)))
            ? name
            : s,
        )
        expectSame(plain(readCircuit(after).circuit), wanted)
      }),
      runs,
    )
  })

  it('a tag renamed renames its terminal, and nothing else', () => {
    fc.assert(
      fc.property(text, fc.nat(), fc.constantFrom('Z9', '13/14', '−', 'a b'), (before, n, tag) => {
        const { circuit } = readCircuit(before)
        const terminal = pick(
          [...circuit.terminals].filter((t) => t.includes('.') && !t.startsWith('supply.')),
          n,
        )
        if (terminal === undefined) return
        const [part = '', old = ''] = terminal.split('.')
        const edits = rename(before, { kind: 'tag', part, tag: old }, tag)
        if (isRefusal(edits) && edits.code === 'label-needed') return
        if (isRefusal(edits)) throw new Error(`${terminal}: ${edits.message}`)
        const after = keepsTheRest(before, edits, (line) => has(part)(line) || line.startsWith('  '))
        const now = readCircuit(after).circuit
        const rename1 = (t: string) => (t === terminal ? `${part}.${tag}` : t)
        expectSame([...now.terminals].toSorted(), [...circuit.terminals].map(rename1).toSorted())
        expect([...now.elements.values()].map((e) => [e.part, e.role, e.ends, e.laws])).toEqual(
          [...circuit.elements.values()].map((e) => [e.part, e.role, e.ends.map(rename1), e.laws]),
        )
        expectSame(comments(after), comments(before))
      }),
      runs,
    )
  })

  it('a part removed is spoken of by nothing, and the others stay as they were', () => {
    let removed = 0
    fc.assert(
      fc.property(text, fc.nat(), (before, n) => {
        const { circuit } = readCircuit(before)
        const part = pick(
          [...circuit.parts.keys()].filter((p) => p !== 'supply'),
          n,
        )
        if (part === undefined) return
        const edits = removePart(before, part)
        if (isRefusal(edits)) {
          expect(edits.code).toBe('spoken-of')
          return
        }
        removed++
        const own = study(before).lines.find((line) => line.name === part)?.statement
        const after = keepsTheRest(
          before,
          edits,
          (line) => has(part)(line) || (own?.children ?? []).some((c) => before.slice(c.line.from, c.line.to) === line),
        )
        const now = study(after)
        const { circuit: left } = now.reading
        expect(left.parts.has(part)).toBe(false)
        for (const line of now.lines) {
          for (const ref of line.references) {
            // A tag of another part may be spelt as the part was called.
            const said =
              ref.kind === 'name'
                ? ref.name
                : ref.kind === 'place'
                  ? ref.word
                  : ref.kind === 'tag'
                    ? `${ref.part}.${ref.tag}`
                    : ref.of
            expect(said === part || said.startsWith(`${part}.`)).toBe(false)
          }
        }
        const others = (one: Circuit) =>
          [...one.elements.values()]
            .filter((e) => e.part !== part && e.role !== 'wire')
            .map((e) => [e.id, e.ends, e.laws])
        expectSame(others(left), others(circuit))
        const wiresApart = (one: Circuit) =>
          new Set(
            [...one.elements.values()]
              .filter((e) => e.role === 'wire' && !e.ends.some((t) => t.startsWith(`${part}.`)))
              .map((e) => e.id),
          )
        for (const id of wiresApart(circuit))
          expect(left.elements.has(id) || left.elements.has(id.split('~').toReversed().join('~')), id).toBe(true)
      }),
      runs,
    )
    expect(removed).toBeGreaterThan(800)
  })

  it('a part added is one more, and taken out again leaves the text as it was', () => {
    fc.assert(
      fc.property(text, fc.constantFrom('fuse', 'lamp', 'thermostat', 'motor', 'splice'), (before, kind) => {
        const words = {
          fuse: 'blows 15 A',
          lamp: '5 W at 120 V',
          thermostat: 'opens 60 C closes 50 C',
          motor: '120 V 3 A',
          splice: '',
        }
        const edits = addPart(before, {
          kind,
          name: 'Zz9',
          words: words[kind],
          under: kind === 'motor' ? ['winding main 1-2 3 ohm'] : [],
        })
        if (isRefusal(edits)) throw new Error(edits.message)
        const after = keepsTheRest(before, edits, () => false)
        const old = readCircuit(before).circuit.parts
        expect([...readCircuit(after).circuit.parts.keys()].filter((p) => !old.has(p))).toEqual(['Zz9'])
        expect(done(after, removePart(after, 'Zz9'))).toBe(before)
      }),
      times(500),
    )
  })

  it('a wire added, moved and deleted is the only wire that changes', () => {
    const ids = (one: string) => {
      const { circuit } = readCircuit(one)
      return [...circuit.elements.values()]
        .filter((e) => e.role === 'wire')
        .map((e) => [e.ends.toSorted().join('~'), e.wire] as const)
        .toSorted(([a], [b]) => (a < b ? -1 : 1))
    }
    const without = (all: ReturnType<typeof ids>, id: string) => all.filter(([one]) => one !== id)
    let moved = 0
    fc.assert(
      fc.property(text, fc.nat(), fc.nat(), fc.boolean(), (before, n, m, first) => {
        const { circuit } = readCircuit(before)
        const old = ids(before)
        const wire = pick(
          [...circuit.elements.values()].filter((e) => e.role === 'wire'),
          n,
        )
        const to = pick(circuit.terminals, m)
        if (!wire || to === undefined) return
        const key = wire.ends.toSorted().join('~')
        const deleted = deleteWire(before, wire.id)
        if (isRefusal(deleted)) throw new Error(`${wire.id}: ${deleted.message}`)
        const line = study(before).lines.find((l) => l.wires.some((w) => w.id === wire.id))?.statement.line
        const own = (one: string) => one === before.slice(line?.from, line?.to)
        expectSame(ids(keepsTheRest(before, deleted, own)), without(old, key))

        const end = wire.ends[first ? 0 : 1]
        const change = moveWireEnd(before, wire.id, end, to)
        if (isRefusal(change)) {
          expect(['same-terminal', 'wired-already']).toContain(change.code)
          return
        }
        if (to === end) {
          expect(change).toEqual([])
          return
        }
        moved++
        const id = [to, wire.ends[first ? 1 : 0]].toSorted().join('~')
        const after = keepsTheRest(before, change, own)
        expect(ids(after).map(([one]) => one)).toEqual([...without(old, key).map(([one]) => one), id].toSorted())
        expectSame(without(ids(after), id), without(old, key))
        expectSame(ids(after).find(([one]) => one === id)?.[1], wire.wire)

        const added = addWire(before, end, to, { colour: 'VT' })
        if (!isRefusal(added)) {
          const one = [end, to].toSorted().join('~')
          const more = ids(keepsTheRest(before, added, () => false))
          expectSame(without(more, one), old)
          expect(more.find(([id]) => id === one)?.[1]).toEqual({ colour: 'VT' })
        }
      }),
      times(400),
    )
    expect(moved).toBeGreaterThan(300)
  })

  it('a cell set is the only one that changes', () => {
    fc.assert(
      fc.property(text, fc.nat(), fc.nat(), fc.constantFrom<('x' | 'o')[]>('x', 'o'), (before, n, m, cell) => {
        const { circuit } = readCircuit(before)
        const contact = pick(
          [...circuit.elements.values()].filter((e) => e.charted && e.throwOf === undefined),
          n,
        )
        const dial = contact?.laws[0]?.when[0]?.[0]?.of
        const oneControl = contact?.laws.every((l) => l.when.every((c) => c.every((x) => x.of === dial)))
        const isTurnedBy = new RegExp(`${contact?.part} [^\\n]*turned by ${dial}`).test(before)
        const position =
          dial === undefined || !oneControl || !isTurnedBy
            ? undefined
            : pick(circuit.controls.get(dial)?.positions ?? [], m)
        if (!contact || position === undefined) return
        const edits = setChartCell(before, contact.part, contact.name, position, cell)
        if (isRefusal(edits)) throw new Error(`${contact.id} at ${position}: ${edits.message}`)
        const after = readCircuit(keepsTheRest(before, edits, (line) => line.includes(contact.name))).circuit
        const closed = (one: Circuit) =>
          [...one.elements.values()].flatMap((e) =>
            e.charted
              ? (one.controls.get(dial ?? '')?.positions ?? []).map(
                  (p) => [e.id, p, e.laws.some((l) => l.when.some((c) => c.every((x) => x.in.includes(p))))] as const,
                )
              : [],
          )
        expectSame(
          closed(after),
          closed(circuit).map(([id, p, is]) => [id, p, id === contact.id && p === position ? cell === 'x' : is]),
        )
      }),
      runs,
    )
  })

  it('a value set is that of its part, and no other part changes', () => {
    fc.assert(
      fc.property(text, fc.nat(), fc.integer({ min: 20, max: 150 }), (before, n, value) => {
        const { circuit } = readCircuit(before)
        const part = pick(
          [...circuit.parts.values()].filter((p) => ['heater', 'lamp', 'thermostat', 'fuse'].includes(p.kind)),
          n,
        )
        if (!part) return
        const change = {
          heater: { value: `${value} W` },
          lamp: { value: `${value} W` },
          thermostat: { clause: 'opens', value: `${value} F` },
          fuse: { clause: 'blows', value: `${value} A` },
        }[part.kind]
        const edits = rerate(before, { part: part.name, ...(change ?? { value: '' }) })
        if (isRefusal(edits)) throw new Error(`${part.name}: ${edits.message}`)
        const after = keepsTheRest(before, edits, has(part.name))
        expect(after).toContain(change?.value)
        const others = (one: Circuit) =>
          [...one.elements.values()].filter((e) => e.part !== part.name).map(({ at: _, ...e }) => e)
        expectSame(others(readCircuit(after).circuit), others(circuit))
        expectSame(comments(after), comments(before))
      }),
      runs,
    )
  })

  it('no edit of a text that is half typed throws, or makes what it says worse', () => {
    fc.assert(
      fc.property(text, fc.nat(), fc.nat(), fc.nat(8), (whole, cut, n, what) => {
        const before = whole.slice(0, cut % (whole.length + 1))
        const { circuit } = readCircuit(before)
        const part = pick(circuit.parts.keys(), n) ?? 'X'
        const terminals = [...circuit.terminals]
        const wire = pick(
          [...circuit.elements.values()].filter((e) => e.role === 'wire'),
          n,
        )
        const edits = [
          () => rename(before, { kind: 'part', name: part }, 'Zz9'),
          () => removePart(before, part),
          () => addPart(before, { kind: 'lamp', name: 'Zz9', words: '5 W at 120 V' }),
          () => deleteWire(before, wire?.id ?? ''),
          () => moveWireEnd(before, wire?.id ?? '', wire?.ends[0] ?? '', pick(terminals, n) ?? ''),
          () => addWire(before, pick(terminals, n) ?? '', pick(terminals, n + 1) ?? ''),
          () => rerate(before, { part, value: '5 W' }),
          () => setChartCell(before, 'CS', 'A-B', 'off', 'x'),
          () => rename(before, { kind: 'tag', part, tag: '1' }, 'Z9'),
        ][what]?.()
        if (!edits || isRefusal(edits)) return
        const errors = (one: string) => readCircuit(one).problems.filter((p) => p.severity === 'error').length
        const after = applyEdits(before, edits)
        expect(errors(after)).toBeLessThanOrEqual(errors(before))
        expect(applyEdits(after, invertEdits(before, edits))).toBe(before)
      }),
      runs,
    )
  })
})
