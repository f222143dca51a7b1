import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import type { Problem, Span } from '../netlist/tree.ts'
import { type Circuit, catalogue, holds, readCircuit, temperatureText } from './index.ts'
import type { Kind } from './kind.ts'
import { messages } from './messages.ts'
import { allLoads, anyLoad, bothNeeds, followSense, standsIn } from './needs.ts'

// Part two of core/netlist/SPEC.md: its tables are these tests. What stands in each is explained there.

const folder = new URL('.', import.meta.url)
const spec = readFileSync(new URL('../netlist/SPEC.md', folder), 'utf8')
const meaning = spec.slice(spec.indexOf('# Part two: meaning'), spec.indexOf('# Part three: kinds'))
const kinds = spec.slice(spec.indexOf('# Part three: kinds'))
const beside = /```beside\n(.*?)\n```/s.exec(meaning)?.[1] ?? ''
const plain = (cell: string): string => cell.replace(/^`([^`]*)`$/, '$1')

/** Rows of the tables of a rule, or of all, with exactly these headings; cells without their backquotes. */
function rows(rule: string | undefined, ...headings: readonly string[]): readonly (readonly string[])[] {
  const from = rule === undefined ? 0 : meaning.indexOf(`**${rule} `)
  const to = rule === undefined ? -1 : meaning.indexOf('\n**', from)
  const found = meaning
    .slice(from, to === -1 ? undefined : to)
    .split('\n\n')
    .map((block) => block.split('\n').filter((line) => line.startsWith('|')))
    .map((table) => table.map((row) => row.split('|').slice(1, -1)))
    .map((table) => table.map((row) => row.map((cell) => plain(cell.trim()))))
    .filter(([head]) => head?.join() === headings.join())
    .flatMap((table) => table.slice(2))
  expect(found.length, `${rule ?? 'the rules'} have a table of ${headings.join(', ')}`).toBeGreaterThan(0)
  return found
}

interface Typed {
  readonly text: string
  /** Where the lines of the table begin. */
  readonly from: number
  readonly marked: readonly Span[]
}

/** The text that a cell stands for, behind `before`, and what it marks. */
function typedText(cell: string, before: string): Typed {
  const marked: Span[] = []
  let text = before === '' ? '' : `${before}\n`
  const from = text.length
  let open = -1
  for (const character of cell.replaceAll('⏎', '\n')) {
    if (character === '‹') open = text.length
    else if (character === '›') marked.push({ from: open, to: text.length })
    else text += character
  }
  return { text, from, marked }
}

const read = (cell: string) => readCircuit(typedText(cell, beside).text)

/** What a cell adds to the lines beside: its elements. */
function addedElements(cell: string) {
  const known = readCircuit(beside).circuit.elements
  return [...read(cell).circuit.elements.values()].filter((e) => !known.has(e.id))
}

const partsOfCell = (cell: string): readonly string[] =>
  cell === '—' ? [] : cell.split(' · ').map((one) => one.replaceAll('`', ''))

function checkProblems(rule: string, heading: 'typed' | 'typed alone' = 'typed'): void {
  for (const [cell = '', code = ''] of rows(rule, heading, 'problem')) {
    const { text, marked } = typedText(cell, heading === 'typed' ? beside : '')
    const { problems } = readCircuit(text)
    const found = problems.map(({ code, from, to }) => ({ code, words: text.slice(from, to), from, to }))
    const expected = marked.map(({ from, to }) => ({ code, words: text.slice(from, to), from, to }))
    expect(found, cell).toEqual(code === '—' ? [] : expected)
    expect(marked.length, cell).toBe(code === '—' ? 0 : 1)
    for (const one of problems) checkWording(one, cell)
  }
}

/** One sentence that says what is wrong, and one that says what to do. */
function checkWording({ message, hint }: Problem, cell: string): void {
  for (const sentence of [message, hint]) {
    expect(sentence, cell).toMatch(/^[A-Z“`\d−.-].*[.?]$|^(door|dial|knob|top) .*\.$/)
    expect(sentence, cell).not.toMatch(/undefined|NaN|\[object|: \.|\b[Tt]oken|[Pp]arse|syntax|invalid/)
    expect(sentence.length, cell).toBeLessThan(200)
  }
  expect(message, cell).not.toBe(hint)
}

function checkElements(rule: string): void {
  for (const [cell = '', expected = ''] of rows(rule, 'typed', 'elements')) {
    const shown = addedElements(cell).map((e) => `${e.id} ${e.ends.join(' ')}`)
    expect(shown, cell).toEqual(partsOfCell(expected))
  }
}

function checkWires(rule: string): void {
  for (const [cell = '', expected = ''] of rows(rule, 'typed', 'wires')) {
    const shown = addedElements(cell).map((e) => [e.id, e.wire?.colour].filter(Boolean).join(' '))
    expect(shown, cell).toEqual(partsOfCell(expected))
  }
}

const onlyAdded = <T extends { readonly name: string }>(
  cell: string,
  things: (circuit: Circuit) => ReadonlyMap<string, T>,
) => {
  const thing = things(read(cell).circuit).get('X1')
  if (!thing) throw new Error(`${cell} brings no X1`)
  return thing
}

describe('every rule has a test, every problem a line, every kind a word', () => {
  it('C rules are tested here or in another test of this folder', () => {
    const rules = [...meaning.matchAll(/^\*\*(C\d+) /gm)].map((match) => match[1])
    const sources = readdirSync(folder).filter((name) => name.endsWith('.test.ts'))
    const tested = sources.flatMap((name) =>
      [...readFileSync(new URL(name, folder), 'utf8').matchAll(/'\[(C\d+)\]/g)].map((match) => match[1]),
    )
    expect(rules).toEqual(rules.map((_, index) => `C${index + 1}`))
    expect([...new Set(tested)].sort()).toEqual([...rules].sort())
  })

  /** What the tables of problems show, of both parts: each table's codes, with — where nothing is told. */
  const shown = (meaning + kinds)
    .split('\n\n')
    .map((block) => block.split('\n').filter((line) => line.startsWith('|')))
    .filter(([head]) => /\| problem +\|$/.test(head ?? ''))
    .map((table) => table.slice(2).flatMap((row) => (row.split('|').at(-2) ?? '').trim().split(' · ').map(plain)))

  it('every code that can be told has a line, and a harmless one in the same table', () => {
    expect(Object.keys(messages).filter((code) => !shown.flat().includes(code))).toEqual([])
    for (const table of shown) expect(table).toContain('—')
  })

  it('every code that is shown is told by the reader or the parser', () => {
    const known = new Set([...Object.keys(messages), 'missing-unit', '—'])
    expect(shown.flat().filter((code) => !known.has(code))).toEqual([])
  })

  it('the lines beside are understood', () => {
    expect(readCircuit(beside).problems).toEqual([])
  })
})

describe('reading', () => {
  it('[C1] half a line gives what it already says', () => checkElements('C1'))

  it('[C2] order says nothing', () => {
    for (const [one = '', other = ''] of rows('C2', 'typed', 'same as')) {
      expect(withoutPlaces(read(one).circuit), one).toEqual(withoutPlaces(read(other).circuit))
      expect(read(one).problems, one).toEqual([])
    }
  })

  it('[C3] one mistake is told once', () => checkProblems('C3', 'typed alone'))

  it('[C4] kinds of line', () => {
    const shown = rows('C4', 'word', 'what it is', 'lines under it')
    const under = ({ children, holds }: Kind): string => {
      const words = Object.keys(children).map((word) => `\`${word}\``)
      return holds ? 'parts' : words.length === 1 ? plain(words.join()) : words.join(' · ') || '—'
    }
    expect(shown).toEqual(catalogue.map((kind) => [kind.word, kind.title, under(kind)]))
    for (const { word } of catalogue) {
      expect((meaning + kinds).match(new RegExp(`\`‹?${word}[ ›\`⏎]`, 'g'))?.length, word).toBeGreaterThan(1)
    }
    checkProblems('C4')
  })

  it('[C4] the examples of all kinds are one circuit, each of its own kind', () => {
    const text = catalogue.map(({ example }) => example).join('\n')
    const { circuit, problems } = readCircuit(text)
    expect(problems).toEqual([])
    for (const { word, example } of catalogue) expect(example.split(' ')[0]).toBe(word)
    expect([...circuit.parts.values()].map(({ kind }) => kind)).toEqual([
      'supply',
      ...catalogue.filter(({ round }) => round === 2).map(({ word }) => word),
    ])
  })

  it('[C4] the catalogue stands in the order in which lines speak of each other', () => {
    const rounds = catalogue.map(({ round }) => round)
    expect(rounds).toEqual(rounds.toSorted())
  })

  it('[C5] names', () => {
    checkProblems('C5')
    const nameless = catalogue.filter(({ named }) => named === 'no').map(({ word }) => `\`${word}\``)
    expect(meaning).toContain(`every line but ${nameless.slice(0, -1).join(', ')} and ${nameless.at(-1)}`)
    const own = catalogue.filter(({ named }) => named === 'own').map(({ word }) => word)
    expect(own).toEqual(['area', 'zone'])
    expect(catalogue.filter(({ namedBefore }) => namedBefore).map(({ word }) => word)).toEqual(['supply'])
  })

  it('[C6] labels', () => {
    checkProblems('C6')
    expect(onlyAdded('fuse X1 blows 15 A "Motor fuse"', (c) => c.parts).label).toBe('Motor fuse')
    expect(onlyAdded('control X1 off, on "Knob"', (c) => c.controls).label).toBe('Knob')
    expect(onlyAdded('control X1 off, on "Knob"', (c) => c.controls).positions).toEqual(['off', 'on'])
  })

  it('[C7] clauses', () => checkProblems('C7'))
})

describe('values', () => {
  it('[C8] values with units', () => checkProblems('C8'))
  it('[C9] values that cannot be right', () => checkProblems('C9'))

  it('[C10] the nearest name', () => {
    for (const [cell = '', expected = ''] of rows('C10', 'typed', 'way out')) {
      const hints = read(cell).problems.map(({ hint }) => hint)
      expect(hints, cell).toContain(expected)
    }
  })
})

describe('what the parts stand in', () => {
  it('[C11] supply', () => {
    checkProblems('C11', 'typed alone')
    const { supplies, parts, elements } = readCircuit(
      'supply split-phase 240 V 50 Hz breaker 30 A source 0.1 ohm',
    ).circuit
    const [supply] = supplies
    expect(supply?.poles.map(({ terminal, re }) => [terminal, re])).toEqual([
      ['supply.L1', 120],
      ['supply.L2', -120],
      ['supply.N', 0],
      ['supply.G', 0],
    ])
    expect(supply?.hertz).toBe(50)
    expect(supply?.breaker).toBe(30)
    expect(parts.get('supply')?.terminals).toEqual(['supply.L1', 'supply.L2', 'supply.N', 'supply.G'])
    const ohms = [...elements.values()].map(({ laws: [first] }) => first?.law.kind === 'path' && first.law.ohms)
    expect(ohms).toEqual([0.1, 0.1, 0.1, 0.1])
    const tripped = [...elements.values()].filter((e) => !e.laws.some((l) => holds(l.when, {}, { breaker: 'tripped' })))
    expect(tripped.map(({ id }) => id)).toEqual(['supply:L1', 'supply:L2'])
    expect(readCircuit('supply split-phase 240 V').circuit.supplies[0]?.hertz).toBe(60)
  })

  it('[C12] areas', () => {
    checkProblems('C12')
    const area = 'area X1 "Front" 8 min after top refit 90 s tool "nut driver"'
    expect(onlyAdded(area, (c) => c.areas)).toEqual({
      name: 'X1',
      label: 'Front',
      minutes: 8,
      after: 'top',
      refit: 1.5,
      tool: 'nut driver',
    })
    const circle = read('area X1 8 min after X2\narea X2 5 min after X1').circuit.areas
    expect([circle.get('X1')?.after, circle.get('X2')?.after]).toEqual([undefined, 'X1'])
  })

  it('[C13] controls', () => {
    checkProblems('C13')
    for (const [cell = '', positions = '', normally] of rows('C13', 'typed', 'positions', 'stands at')) {
      const control = onlyAdded(cell, (c) => c.controls)
      expect(control.positions, cell).toEqual(positions.split(', '))
      expect(control.normally, cell).toBe(normally)
      expect(control.springsBack, cell).toBe(cell.includes('springs back'))
    }
  })

  it('[C14] conditions', () => {
    checkProblems('C14')
    const settings = ['off', 'low', 'high'].flatMap((dial) => ['shut', 'open'].map((door) => ({ dial, door })))
    for (const [condition = '', closedAt = ''] of rows('C14', 'condition', 'closed at')) {
      const { circuit, problems } = read(`switch X1 when ${condition}`)
      expect(problems, condition).toEqual([])
      const laws = circuit.elements.get('X1:1-2')?.laws ?? []
      const closed = settings.filter((setting) => laws.some(({ when }) => holds(when, setting, { M: 'at-rest' })))
      expect(
        closed.map(({ dial, door }) => `${dial} ${door}`),
        condition,
      ).toEqual(partsOfCell(closedAt))
    }
  })

  it('[C14] what moves by itself', () => {
    const lines: Readonly<Record<string, string>> = {
      motor: 'motor X1 120 V 5 A',
      drive: 'drive X1 turned by M',
      airflow: 'airflow X1 moved by M',
      thermostat: 'thermostat X1',
      cutoff: 'cutoff X1',
      fuse: 'fuse X1',
    }
    for (const [what = '', rests = '', moves = ''] of rows('C14', 'what', 'rests', 'moves to')) {
      const actors = read(lines[what] ?? '').circuit.actors
      const actor = actors.get(what in lines ? 'X1' : 'breaker')
      expect(actor?.states, what).toEqual([plain(rests), plain(moves)])
    }
  })
})

describe('parts', () => {
  it('[C15] terminals', () => {
    checkProblems('C15')
    for (const [cell = '', expected = ''] of rows('C15', 'typed', 'terminals')) {
      const { circuit, problems } = read(cell)
      expect(problems, cell).toEqual([])
      expect(circuit.parts.get('X1')?.terminals, cell).toEqual(partsOfCell(expected))
      for (const terminal of partsOfCell(expected)) expect(circuit.terminals, cell).toContain(terminal)
    }
  })

  it('[C16] names of elements', () => {
    checkElements('C16')
    for (const [cell = ''] of rows('C16', 'typed', 'elements')) expect(read(cell).problems, cell).toEqual([])
  })

  it('[C17] contacts at rest', () => {
    for (const [cell = '', expected = ''] of rows('C17', 'typed', 'rests')) {
      expect(read(cell).problems, cell).toEqual([])
      const shown = addedElements(cell).map((e) => `${e.id} ${e.figure.kind === 'contact' ? e.figure.rest : '?'}`)
      expect(shown, cell).toEqual(partsOfCell(expected))
    }
  })

  it('[C18] switches and buttons', () => checkProblems('C18'))

  it('[C19] changeovers', () => {
    checkProblems('C19')
    const [one, other] = addedElements('changeover X1 C to NO when door=shut else NC')
    expect([one?.throwOf, other?.throwOf]).toEqual([undefined, 'X1:C-NO'])
    for (const door of ['shut', 'open']) {
      const closed = [one, other].filter((e) => e?.laws.some(({ when }) => holds(when, { door }, {})))
      expect(closed.map((e) => e?.id)).toEqual([door === 'shut' ? 'X1:C-NO' : 'X1:C-NC'])
    }
    const [left] = addedElements('changeover X1 C to C when door=shut else NC')
    expect([left?.id, left?.throwOf]).toEqual(['X1:C-NC', undefined])
  })

  it('[C20] cycle switches', () => {
    checkProblems('C20')
    const [ab, ac] = addedElements(
      'cycle-switch X1 turned by dial\n  chart off low high\n  A-B o x x "motor"\n  A-C o x o',
    )
    const closedAt = (e: typeof ab) =>
      ['off', 'low', 'high'].filter((dial) => e?.laws.some(({ when }) => holds(when, { dial }, {})))
    expect([closedAt(ab), closedAt(ac)]).toEqual([['low', 'high'], ['low']])
    expect([ab?.note, ab?.charted]).toEqual(['motor', true])
  })

  it('[C21] fuses, cutoffs, thermostats', () => {
    checkProblems('C21')
    const headings = ['typed', 'moves to', 'when it reaches', 'comes back at']
    const text = (t: { readonly value: number; readonly unit: 'C' | 'F' } | undefined) =>
      t ? temperatureText(t).replace('°', '') : '—'
    for (const [cell = '', moves = '', up, down] of rows('C21', ...headings)) {
      const { states, sense } = onlyAdded(cell, (c) => c.actors)
      const [point] = sense.by === 'heat' ? sense.points : []
      expect([states[1], text(point?.up), text(point?.down)], cell).toEqual([moves, up, down])
    }
    const { sense } = onlyAdded('fuse X1 blows 500 mA', (c) => c.actors)
    expect(sense).toEqual({ by: 'current', elements: ['X1:link'], amps: 0.5 })
  })

  it('[C22] loads', () => {
    checkProblems('C22')
    for (const [cell = '', ohms, meter, works = ''] of rows('C22', 'typed', 'ohms', 'meter', 'works from')) {
      const [load] = addedElements(cell)
      const law = load?.laws[0]?.law
      if (law?.kind !== 'impedance') throw new Error(`${cell} brings no load`)
      expect([law.re, law.im, law.dc], cell).toEqual([Number(ohms), 0, Number(meter)])
      expect(load?.load?.works, cell).toBeCloseTo(Number.parseFloat(works) / 100, 12)
    }
  })

  it('[C23] motors', () => {
    checkProblems('C23')
    const { circuit } = read(
      'motor X1 120 V 5 A 360 W start 20 A\n  winding main 4-5 2.4 ohm\n  winding start 3-5\n  contact heat 1-2 closed at speed',
    )
    expect(circuit.actors.get('X1')?.sense).toEqual({
      by: 'needs',
      to: allLoads(['X1:main', 'X1:start'], 0.7),
      stay: anyLoad(['X1:main'], 0.7),
      hums: true,
    })
    const main = circuit.elements.get('X1:main')
    const ohmsAt = (state: string): number => {
      const law = main?.laws.find(({ when }) => holds(when, {}, { X1: state }))?.law
      return law?.kind === 'impedance' ? Math.hypot(law.re, law.im) : Number.NaN
    }
    expect(ohmsAt('at-speed')).toBeCloseTo(120 / 5, 9)
    expect(ohmsAt('at-rest')).toBeCloseTo(120 / 20, 9)
    const running = main?.laws.find(({ when }) => holds(when, {}, { X1: 'at-speed' }))?.law
    // Power is I²R: 360 W at 5 A.
    expect(running?.kind === 'impedance' && running.re).toBeCloseTo(360 / 25, 9)
    expect(running?.kind === 'impedance' && running.dc).toBe(2.4)
    const heat = circuit.elements.get('X1:heat')
    const closed = ['at-rest', 'at-speed'].filter((X1) => heat?.laws.some((l) => holds(l.when, {}, { X1 })))
    expect(closed).toEqual(['at-speed'])
  })

  it('[C24] resistors and splices', () => {
    checkProblems('C24')
    expect(onlyAdded('splice X1 "Joint" area top', (c) => c.parts)).toMatchObject({
      kind: 'splice',
      label: 'Joint',
      area: 'top',
      terminals: ['X1'],
      elements: [],
    })
  })
})

describe('what joins them', () => {
  it('[C25] drives, airflows, zones', () => {
    checkProblems('C25')
    expect(onlyAdded('drive X1 turned by M', (c) => c.actors).sense).toEqual(followSense('M'))
    const turns = bothNeeds(standsIn('M', ['at-rest'], true), standsIn('X1-belt', ['whole']))
    expect(onlyAdded('drive X1 turned by M belt', (c) => c.actors).sense).toEqual({
      by: 'needs',
      to: turns,
      stay: turns,
    })
    const zone = 'zone X1 warms with H1, M, H1 airflow X2 normal 110 C blocked 400 °F\nairflow X2 moved by M'
    expect(onlyAdded(zone, (c) => c.zones)).toEqual({
      name: 'X1',
      warmsWith: [...anyLoad(['H1:1-2'], 0.2), ...anyLoad(['M:main'], 0.7), ...anyLoad(['H1:1-2'], 0.2)],
      airflow: 'X2',
      normal: { value: 110, unit: 'C' },
      blocked: { value: 400, unit: 'F' },
    })
  })

  it('[C26] wires', () => {
    checkProblems('C26')
    checkWires('C26')
    const [wire] = addedElements('wire GNYE supply.G chassis gauge 10 AWG length 3 ft')
    expect(wire?.wire).toEqual({ colour: 'GNYE', gauge: '10 AWG', length: '3 ft' })
  })

  it('[C27] runs', () => {
    checkProblems('C27')
    checkWires('C27')
  })

  it('[C28] colours', () => {
    checkProblems('C28')
    const kept = addedElements('wire T DS.NO F1.1').map((e) => e.wire?.colour)
    expect(kept).toEqual(['T'])
  })
})

/** A circuit as plain data without its places in the text, whatever the order of its lines. */
function withoutPlaces(circuit: Circuit): unknown {
  return JSON.parse(
    JSON.stringify(circuit, (key, value) => {
      if (key === 'at') return undefined
      if (value instanceof Map) return [...value].toSorted(([a], [b]) => (a < b ? -1 : 1))
      return value instanceof Set ? [...value].toSorted() : value
    }),
  )
}
