import { describe, expect, it } from 'vitest'
import { cursor, isProblem, messages, parse, place, print, quote, spanOf, statements, strip } from './index.ts'
import { DEEPEST } from './parse.ts'
import type { Line } from './tree.ts'

/** An invented unit in the shape of the real thing. */
const oven = `# Bench oven, invented. Two elements, one cutoff.

unit "Bench oven, 240 V"  model "demo only"

supply split-phase 240 V 60 Hz by cord breaker 40 A  area block

area block  "Cord terminal block"  4 min
area rear   "Rear panel"           9 min after block

control selector  "Selector"  off, bake, broil
control door      "Door"      shut, open

zone cavity  warms with HB, HT  normal 260 C

thermostat  CT "Cavity thermostat"  opens 260 C closes 250 C  zone cavity  area rear  # the adjustable one
cutoff      TC "Cavity cutoff"      opens 330 C               zone cavity  area rear
heater      HB "Bake element"       2600 W at 240 V           area rear

selector SS "Selector switch" turned by selector  area rear
  chart  off  bake  broil
  1-2    o    x     o      "bake"
  1-3    o    o     x      "broil"

wire BK    supply.L1  TC.1
wire RD    TC.2       CT.1
run  BU    CT.2 > SS.1
run  YE    SS.2 > HB > supply.L2
wire GNYE  supply.G   chassis
`

function firstLine(text: string): Line {
  const [line] = parse(text).netlist.lines
  if (!line) throw new Error('a text has a line')
  return line
}

describe('a whole netlist', () => {
  it('[N7] has no problems', () => expect(parse(oven).problems).toEqual([]))

  it('[N16] printed by hand in its canonical form stays as it is', () => expect(print(parse(oven).netlist)).toBe(oven))

  it('[N1] is the same with any line ends', () => {
    const lines = strip(parse(oven).netlist)
    for (const end of ['\r\n', '\r']) expect(strip(parse(oven.replaceAll('\n', end)).netlist)).toEqual(lines)
  })

  it('[N3] nests a chart under its part', () => {
    const selector = statements(parse(oven).netlist).find(({ line }) => line.tokens[0]?.text === 'selector')
    if (!selector) throw new Error('the oven has a selector')
    expect(selector.children.map(({ line }) => line.tokens[0]?.text)).toEqual(['chart', '1-2', '1-3'])
    const { from, to } = spanOf(selector)
    expect(oven.slice(from, to)).toMatch(/^selector SS (.|\n)*"broil"$/)
  })

  it('is read at ten thousand lines in 50 ms', () => {
    const long = oven.repeat(400)
    expect(parse(long).netlist.lines.length).toBeGreaterThan(10_000)
    expect(fastest(() => parse(long))).toBeLessThan(50)
  })

  // A slip into time that grows with the square of the text takes many seconds here.
  it.each([
    ['one long word', 'a'.repeat(200_000)],
    ['open quotes', '"a '.repeat(60_001)],
    ['curly quotes', '“'.repeat(200_000)],
    ['digits', `${'9'.repeat(200_000)}-`],
    ['lines that open a quote', 'a "\n'.repeat(20_000)],
    ['a staircase', Array.from({ length: 4000 }, (_, step) => `${' '.repeat(step % 200)}a`).join('\n')],
    ['wide and narrow columns', `${'a'.repeat(100_000)}\tb\n${'a\tb # c\n'.repeat(20_000)}`],
  ])('takes time in proportion to the text: %s', (_, text) => {
    const { netlist } = parse(text)
    const [line] = netlist.lines
    expect(fastest(() => parse(text))).toBeLessThan(300)
    expect(fastest(() => print(netlist))).toBeLessThan(600)
    expect(fastest(() => line && cursor(line).takeQuantity())).toBeLessThan(100)
  })
})

/** Milliseconds of the fastest of a few runs, which other work on the machine disturbs least. */
function fastest(run: () => unknown): number {
  let least = Number.POSITIVE_INFINITY
  for (let turn = 0; turn < 8 && least > 20; turn++) {
    const start = performance.now()
    run()
    least = Math.min(least, performance.now() - start)
  }
  return least
}

describe('the form of lines', () => {
  it('[N1] a text that ends with a line end has a blank last line', () => {
    expect(parse('').netlist.lines.length).toBe(1)
    expect(parse('lamp LP').netlist.lines.length).toBe(1)
    expect(parse('lamp LP\n').netlist.lines.map(({ number, tokens }) => [number, tokens.length])).toEqual([
      [1, 2],
      [2, 0],
    ])
    expect(print(parse('lamp LP').netlist)).toBe('lamp LP')
    expect(print(parse('lamp LP\r\n').netlist)).toBe('lamp LP\n')
  })

  it('[N2] a mark that says how a file is encoded takes no room', () => {
    expect(parse('\ufeffunit "Oven"').problems).toEqual([])
  })

  it('[N9] a line stands under at most twelve others', () => {
    const stairs = (steps: number) => Array.from({ length: steps }, (_, step) => `${' '.repeat(step)}a`).join('\n')
    expect(DEEPEST).toBe(12)
    expect(parse(stairs(13)).problems).toEqual([])
    const { netlist, problems } = parse(stairs(15))
    expect(problems.map(({ code, from }) => [code, place(netlist.text, from)])).toEqual([
      ['too-deep', { line: 14, column: 14 }],
      ['too-deep', { line: 15, column: 15 }],
    ])
    expect(netlist.lines.map(({ depth }) => depth)).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 12, 12])
  })

  it('[N7] each problem covers what it is about', () => {
    const covered = (text: string) => parse(text).problems.map(({ from, to }) => text.slice(from, to))
    expect(covered('switch DS "Door switch \nlamp LP')).toEqual(['"Door switch'])
    expect(covered('  lamp LP # note')).toEqual(['lamp LP # note'])
    expect(covered('lamp L\u200bP')).toEqual(['L\u200bP'])
    expect(parse('lamp L\u200bP').problems[0]?.message).toContain('U+200B')
  })

  it('[N7] every code has its sentences', () => {
    for (const { message, hint } of Object.values(messages)) {
      expect(message('x')).toMatch(/\.$/)
      expect(hint('Write V.')).toMatch(/\.$/)
    }
  })
})

describe('white space within a line', () => {
  it.each([
    ['a b', 'space'],
    ['a  b', 'column'],
    ['a\tb', 'column'],
    ['a\u00a0b', 'space'],
    ['a,b', 'none'],
    ['a ,b', 'space'],
    ['a  ,b', 'column'],
  ])('[N17] %j is set off by: %s', (text, gap) => {
    expect(firstLine(text).tokens[1]?.gap).toBe(gap)
  })
})

describe('quotes', () => {
  it.each([
    ['Door switch', '"Door switch"'],
    ['1/4" tab', '"1/4” tab"'],
    ['two\r\nlines', '"two lines"'],
    ['', '""'],
  ])('[N20] %j becomes %s', (text, quoted) => {
    expect(quote(text)).toBe(quoted)
    expect(parse(quoted).problems).toEqual([])
    expect(firstLine(quoted).tokens.map(({ kind }) => kind)).toEqual(['string'])
  })

  it('[N20] a string made with a quote inside is not printed', () => {
    const broken = {
      ...firstLine('"a"'),
      tokens: [{ kind: 'string', text: 'a"b', gap: 'none', from: 0, to: 3 }],
    } as const
    expect(() => print({ lines: [broken] })).toThrow('a string holds no quote')
  })
})

describe('places', () => {
  it.each([
    ['', 0, 1, 1],
    ['ab', 2, 1, 3],
    ['a\nb', 1, 1, 2],
    ['a\nb', 2, 2, 1],
    ['a\r\nb', 2, 1, 3],
    ['a\r\nb', 3, 2, 1],
    ['a\rb', 2, 2, 1],
    ['🔥b\n', 2, 1, 3],
    ['a\n\n', 3, 3, 1],
  ])('[N23] in %j, offset %i is line %i, column %i', (text, offset, line, column) => {
    expect(place(text, offset)).toEqual({ line, column })
  })

  it('[N23] outside the text is a mistake of ours', () => {
    expect(() => place('ab', 3)).toThrow('offset 3')
    expect(() => place('ab', -1)).toThrow('offset -1')
  })
})

describe('a cursor', () => {
  it('[N24] reads a line clause by clause', () => {
    const read = cursor(firstLine('fuse F1 "Motor fuse" blows 15 A B 3950 a=b'))
    expect(read.takeWord('lamp')).toBe(false)
    expect(read.takeWord('fuse')).toBe(true)
    expect(read.peek()?.text).toBe('F1')
    expect(read.peek(2)?.text).toBe('blows')
    expect(read.takeString()).toBeUndefined()
    expect(read.next()?.text).toBe('F1')
    expect(read.takeString()).toBe('Motor fuse')
    expect(read.takeQuantity()).toBeUndefined()
    expect(read.takeWord('blows')).toBe(true)
    expect(read.takeNumber()).toBe(15)
    expect(read.span).toEqual({ from: 30, to: 42 })
    expect(read.rest().map(({ text }) => text)).toEqual(['A', 'B', '3950', 'a', '=', 'b'])
    expect(read.done).toBe(true)
    expect(read.span).toEqual({ from: 42, to: 42 })
    expect([read.next(), read.peek(), read.takeString(), read.takeMark('='), read.rest()]).toEqual([
      undefined,
      undefined,
      undefined,
      false,
      [],
    ])
  })

  it('[N24] takes a number with its unit, or the problem with it, and stands behind', () => {
    const read = cursor(firstLine('120 V 5A 2,4 ohm 15 amps 22 area'))
    const found = Array.from({ length: 5 }, () => {
      const one = read.takeQuantity()
      return one && (isProblem(one) ? one.code : `${one.value} ${one.unit}`)
    })
    expect(found).toEqual(['120 V', '5 A', 'decimal-comma', 'unknown-unit', 'missing-unit'])
    expect(read.takeWord('area')).toBe(true)
  })

  it('[N8] takes the words of a quote that is not closed', () => {
    expect(cursor(firstLine('"Door swi')).takeString()).toBe('Door swi')
    expect(cursor(firstLine('1-"Door')).takeString()).toBeUndefined()
    expect(cursor(firstLine('"a"b"c')).takeString()).toBeUndefined()
  })

  it('[N24] does not take a word for a string, nor a string for a word', () => {
    const read = cursor(firstLine('"area" , area'))
    expect(read.takeWord('area')).toBe(false)
    expect(read.takeString()).toBe('area')
    expect(read.takeMark('=')).toBe(false)
    expect(read.takeMark(',')).toBe(true)
    expect(read.takeString()).toBeUndefined()
    expect(read.takeWord('area')).toBe(true)
  })
})
