import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { readCircuit } from '../../core/circuit/index.ts'
import { type Problem, parse } from '../../core/netlist/index.ts'
import { allProblems } from '../../core/review/index.ts'
import { traceSetting } from '../../core/strings/index.ts'
import { random } from '../generated/circuits.ts'

/** What people hand in that is no netlist, or a spoilt one: told clearly, the rest understood, in time, nothing lost. */

const demos = readdirSync('schematics-demo')
  .filter((f) => f.endsWith('.circuit'))
  .map((file) => ({ file, text: readFileSync(`schematics-demo/${file}`, 'utf8') }))

const good = `unit "Heater"
supply split-phase 240 V 60 Hz
control knob off, on
switch SW when knob=on
heater H1 2000 W at 240 V
run supply.L1 > SW > H1 > supply.L2
`

/** Every character that is no white space is in a token or in a comment: nothing typed is lost. */
function expectNothingLost(text: string): void {
  const { netlist } = parse(text)
  expect(netlist.text).toBe(text)
  let at = 0
  for (const line of netlist.lines) {
    for (const { from, to } of [...line.tokens, ...(line.comment ? [line.comment] : [])]) {
      expect(text.slice(at, from).trim()).toBe('')
      at = to
    }
  }
  expect(text.slice(at).trim()).toBe('')
}

function expectClear(problem: Problem, text: string): void {
  expect(problem.from).toBeGreaterThanOrEqual(0)
  expect(problem.to).toBeGreaterThanOrEqual(problem.from)
  expect(problem.to).toBeLessThanOrEqual(text.length)
  expect(problem.code).toMatch(/^[a-z][a-z-]*$/)
  expect(problem.message).toMatch(/^\S[\s\S]*[.!?]$/)
  expect(problem.hint).not.toBe('undefined')
}

const withLine = (line: string): string => good.replace('heater H1', `${line}\nheater H1`)

describe('bad input is told clearly, and the rest is understood', () => {
  it.each<[string, string, readonly string[]]>([
    ['nothing at all', '', []],
    ['white space', ' \t\n\r\n  ', []],
    ['a name used twice', withLine('lamp SW 5 W at 120 V'), ['name-taken']],
    ['a terminal that is not there', withLine('wire H1.3 supply.N'), ['unknown-terminal']],
    ['a part that is not there', withLine('wire H9.1 supply.N'), ['unknown-part']],
    [
      'a chart row a cell short',
      withLine('cycle-switch CS turned by knob\n  chart off on\n  A-B o'),
      ['cells-do-not-match'],
    ],
    [
      'a chart row a cell long',
      withLine('cycle-switch CS turned by knob\n  chart off on\n  A-B o x x'),
      ['cells-do-not-match'],
    ],
    ['a unit that is missing', withLine('fuse F1 blows 15'), ['missing-unit']],
    ['a unit that is another', withLine('fuse F1 blows 15 V'), ['wrong-quantity']],
    ['a unit that is none', withLine('fuse F1 blows 15 amperes'), ['unknown-unit']],
    ['a decimal comma', withLine('resistor R1 2,4 ohm'), ['decimal-comma']],
    ['a quote that is open', withLine('fuse F1 "Motor fuse blows 15 A'), ['unclosed-quote']],
    ['a line of no kind', withLine('fuze F1 blows 15 A'), ['unknown-kind']],
    ['marks alone', withLine('> = , >'), ['unknown-kind']],
    ['a character that cannot be seen', withLine('fuse F\u200d1 blows 15 A'), ['control-character', 'no-name']],
    ['line ends of another system', good.replaceAll('\n', '\r\n'), []],
    ['line ends of an old system', good.replaceAll('\n', '\r'), []],
    ['tabs', good.replaceAll(' ', '\t'), []],
    ['a byte-order mark', `\ufeff${good}`, []],
    ['labels in any script', withLine('fuse F1 "保険丝 Предохранитель 🔥 ﬁ e\u0301" blows 15 A'), []],
    ['tags and positions in any script', withLine('control тест "T" выкл, вкл'), ['no-name']],
    ['a word of 10,000 characters', withLine(`fuse F1 blows 15 A ${'x'.repeat(10_000)}`), ['unknown-word']],
    ['a line of 10,000 characters', withLine(`# ${'x'.repeat(10_000)}`), []],
    ['a name of 10,000 characters', withLine(`splice ${'S'.repeat(10_000)}`), []],
    [
      'a number of 10,000 digits',
      withLine(`fuse F1 blows ${'9'.repeat(10_000)} A`),
      ['clause-incomplete', 'unknown-word'],
    ],
    [
      'lines indented ever further',
      withLine(Array.from({ length: 50 }, (_, i) => `${' '.repeat(i)}lamp L${i} 5 W at 120 V`).join('\n')),
      ['unknown-line', 'indented-too-far', 'too-deep'],
    ],
    [
      'names of every record',
      withLine('splice constructor\nsplice __proto__\nsplice toString'),
      ['reserved-name', 'no-name'],
    ],
  ])('%s', (_, text, codes) => {
    const { circuit, problems } = readCircuit(text)
    expect([...new Set(problems.map((p) => p.code))].toSorted()).toEqual(codes.toSorted())
    for (const problem of allProblems(text, { circuit, problems })) expectClear(problem, text)
    expectNothingLost(text)
    if (text.includes('H1')) {
      const [load] = traceSetting(circuit, { knob: 'on' }).loads.filter((l) => l.load === 'H1:1-2')
      expect(load?.on, 'the heater is understood').toBe(true)
    }
  })

  it('a file that is no text', () => {
    const r = random(1)
    const bytes = Uint8Array.from({ length: 50_000 }, () => r.below(256))
    const text = new TextDecoder('latin1').decode(bytes)
    const { problems } = readCircuit(text)
    expect(problems.length).toBeGreaterThan(0)
    for (const problem of problems) expectClear(problem, text)
    const { netlist } = parse(text)
    expect(netlist.text).toBe(text)
  })
})

/** Milliseconds that this process alone works, at the fastest of three runs: others may keep the machine busy. */
function timeOf(run: () => void): number {
  let best = Number.POSITIVE_INFINITY
  for (let i = 0; i < 3; i++) {
    const { user, system } = process.cpuUsage()
    run()
    const after = process.cpuUsage({ user, system })
    best = Math.min(best, (after.user + after.system) / 1000)
  }
  return best
}

describe('the time it takes grows with the text, not with its square', { timeout: 240_000 }, () => {
  const many = (n: number, line: (i: number) => string) => Array.from({ length: n }, (_, i) => line(i)).join('\n')
  const heaters = (n: number): string =>
    `supply split-phase 240 V\n${many(n, (i) => `heater H${i} 2000 W at 240 V\nwire H${i}.1 supply.L1\nwire H${i}.2 supply.L2`)}`
  it.each<[string, number, (n: number) => string]>([
    ['parts with their wires', 3000, heaters],
    ['lines of no kind', 10_000, (n) => many(n, (i) => `zzz${i} is nothing at all`)],
    ['names used twice', 5000, (n) => many(n, () => 'splice S1')],
    ['one long line', 20_000, (n) => `wire ${many(n, () => 'supply.L1').replaceAll('\n', ' ')}`],
    ['one long run', 5000, (n) => `${heaters(2)}\nrun ${many(n, (i) => `H${i % 2}`).replaceAll('\n', ' > ')}`],
    ['one long list of positions', 1000, (n) => `control dial ${many(n, (i) => `p${i}`).replaceAll('\n', ', ')}`],
    [
      'a long chart',
      2000,
      (n) => `control dial off, on\ncycle-switch CS turned by dial\n  chart off on\n${many(n, (i) => `  A${i}-B o x`)}`,
    ],
    ['quotes never closed', 10_000, (n) => many(n, (i) => `lamp L${i} "open`)],
    ['lines indented ever further', 400, (n) => many(n, (i) => `${' '.repeat(i)}lamp L${i} 5 W at 120 V`)],
    ['blank lines and comments', 100_000, (n) => many(n, (i) => (i % 2 ? '' : '# nothing'))],
  ])('%s', (_, n, textOf) => {
    const [small, large] = [textOf(n), textOf(4 * n)]
    const [quick, slow] = [timeOf(() => readCircuit(small)), timeOf(() => readCircuit(large))]
    // Four times the text; sixteen times the time would be its square. A tenth of a second is no measure.
    const grown = large.length / small.length
    expect(slow).toBeLessThan(Math.max(100, 2.5 * grown * quick))
  })

  it('10,000 parts are all there', () => {
    const { circuit, problems } = readCircuit(heaters(10_000))
    expect(problems).toEqual([])
    expect(circuit.parts.size).toBe(10_001)
    expect(circuit.elements.size).toBe(30_004)
  })
  it('5 MB are read', () => {
    const text = many(100_000, (i) => `heater H${i} "Heating element" 2000 W at 240 V # ${i}`).slice(0, 5_000_000)
    const { circuit } = readCircuit(text)
    expect(circuit.parts.size).toBeGreaterThan(85_000)
    const noise = 'lorem ipsum dolor sit amet, consectetur = adipiscing > elit\n'.repeat(80_000)
    expect(readCircuit(noise).problems.length).toBe(80_000)
  })
})

/** `RUNS` makes the run larger; by default it is always the same. */
const RUNS = Number(process.env.RUNS ?? 20_000)

describe('spoilt demos', { timeout: 900_000 }, () => {
  const characters = [...'aZ0 .,-=>#"“"\n\t/:_°\u0000\u200d\ud800', '\r\n', '  ']
  const r = random(7)
  const spoilt = Array.from({ length: RUNS }, (): { text: string; how: string } => {
    const { file, text } = r.pick(demos)
    const at = r.below(text.length)
    const put = r.pick(characters)
    switch (r.below(4)) {
      case 0:
        return { text: text.slice(0, at), how: `${file} up to ${at}` }
      case 1:
        return { text: text.slice(0, at) + text.slice(at + 1), how: `${file} without ${at}` }
      case 2:
        return {
          text: text.slice(0, at) + put + text.slice(at + 1),
          how: `${file} with ${JSON.stringify(put)} for ${at}`,
        }
      default:
        return { text: text.slice(0, at) + put + text.slice(at), how: `${file} with ${JSON.stringify(put)} at ${at}` }
    }
  })
  it(`${RUNS} of them are read: none throws, each problem is clear and in its place`, () => {
    for (const { text, how } of spoilt) {
      try {
        const { problems } = readCircuit(text)
        let last = 0
        for (const p of problems) {
          if (!(p.from >= last && p.to >= p.from && p.to <= text.length && p.message !== ''))
            throw new Error(`${p.code} at ${p.from}…${p.to}`)
          last = p.from
        }
      } catch (error) {
        throw new Error(how, { cause: error })
      }
    }
  })
  it('some of them are operated and reviewed', () => {
    for (const { text, how } of spoilt.slice(0, 120)) {
      try {
        const reading = readCircuit(text)
        for (const p of allProblems(text, reading, 8)) expectClear(p, text)
        traceSetting(reading.circuit)
        expectNothingLost(text)
      } catch (error) {
        throw new Error(how, { cause: error })
      }
    }
  })
})
