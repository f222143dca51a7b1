import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { command } from './verbs.ts'

const dryer = path.resolve('schematics-demo/bench-dryer.circuit')
let folder: string
beforeAll(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'command-'))
})
afterAll(() => rmSync(folder, { recursive: true }))

async function run(...args: readonly string[]) {
  const out: string[] = []
  const err: string[] = []
  const status = await command(args, { say: (text) => out.push(text), tell: (text) => err.push(text) })
  return { status, out: out.join('\n'), err: err.join('\n') }
}
const json = async (...args: readonly string[]) => JSON.parse((await run(...args, '--json')).out)
function file(name: string, text: string): string {
  const at = path.join(folder, name)
  writeFileSync(at, text)
  return at
}

describe('a call that is wrong ends with 2 and says how to call', () => {
  it.each([
    ['no verb', []],
    ['another verb', ['solve', dryer]],
    ['no file', ['check']],
    ['a file that is not there', ['check', '/no/such.circuit']],
    ['a folder', ['check', '/']],
    ['two files', ['check', dryer, dryer]],
    ['another option', ['check', dryer, '--fast']],
    ['a control that is not there', ['trace', dryer, '--set', 'dail=off']],
    ['a position that is not there', ['trace', dryer, '--set', 'dial=of']],
    ['a state that is not there', ['trace', dryer, '--when', 'M=fast']],
    ['a setting without its sign', ['trace', dryer, '--set', 'dial']],
    ['a spring-back control to turn', ['table', dryer, '--controls', 'start']],
    ['a place that cannot be written', ['draw', dryer, '-o', '/no/such/out.svg']],
  ])('%s', async (_, args) => {
    const { status, out, err } = await run(...args)
    expect([status, out]).toEqual([2, ''])
    expect(err).toMatch(/usage: halfsplit/)
  })
  it('suggests the name that was meant', async () => {
    expect((await run('trace', dryer, '--set', 'dail=off')).err).toContain('Did you mean dial?')
  })
  it('refuses what is not text', async () => {
    const at = path.join(folder, 'bytes.circuit')
    writeFileSync(at, Uint8Array.of(0xff, 0xfe, 0x00))
    expect(await run('check', at)).toMatchObject({ status: 2 })
  })
  it('asks for fewer controls than 2,000 rows', async () => {
    const controls = Array.from({ length: 11 }, (_, i) => `control c${i} off, on`).join('\n')
    const { status, err } = await run('table', file('many.circuit', controls))
    expect(status).toBe(2)
    expect(err).toContain('2048 rows')
    expect((await run('table', path.join(folder, 'many.circuit'), '--controls', 'c1,c2')).status).toBe(0)
  })
})

describe('check', () => {
  it('passes the demos', async () => {
    expect(await run('check', dryer)).toMatchObject({ status: 0, err: '' })
    expect(await json('check', dryer)).toEqual({ ok: true, problems: [] })
  })
  it('gives every problem its place, code, sentence and way out', async () => {
    const bad = file('bad.circuit', 'supply split-phase 240 V 60 Hz\nheater H1 5400 W at 240 V\nwire supply.L1 H2.1\n')
    const { status, err } = await run('check', bad)
    expect(status).toBe(1)
    expect(err).toMatch(/bad\.circuit:3:16: [a-z-]+: .+\. .+\.?/)
    const { ok, problems } = await json('check', bad)
    expect(ok).toBe(false)
    expect(problems[0]).toMatchObject({ severity: 'error', line: 3, column: 16, length: 4 })
    expect(Object.keys(problems[0])).toEqual(['code', 'severity', 'line', 'column', 'length', 'message', 'hint'])
  })
  it('lets warnings pass', async () => {
    const warned = file('warned.circuit', 'supply split-phase 240 V\nsplice A\nsplice B\nwire RED A B\n')
    expect((await run('check', warned)).status).toBe(0)
  })
})

describe('trace', () => {
  it('answers with the fields that are agreed', async () => {
    const answer = await json('trace', dryer, '--set', 'dial=timed-high,door=shut')
    expect(Object.keys(answer)).toEqual(['setting', 'conditions', 'story', 'loads'])
    expect(answer.setting).toEqual({ dial: 'timed-high', door: 'shut', start: 'released' })
    expect(answer.conditions.M).toBe('at-speed')
    expect(Object.keys(answer.story[0])).toEqual(['step', 'text'])
    const agreed =
      'load on weak volts amps mustBeClosed through wires mustBeOpen shorts toStart anyOf complete order heldOpen enablers mustRest holdsItself falsePaths'
    expect(Object.keys(answer.loads[0])).toEqual(expect.arrayContaining(agreed.split(' ')))
  })
  it('holds conditions that are forced, and takes a sequence of its own', async () => {
    const blown = await json('trace', dryer, '--set', 'dial=timed-high', '--when', 'TC=blown')
    expect(blown.loads.find((l: { load: string }) => l.load === 'H1:1-2').on).toBe(false)
    const sequence = ['--sequence', 'start=held; start=released; door=open']
    const opened = await json('trace', dryer, '--set', 'dial=timed-high', ...sequence)
    expect(opened.setting.door).toBe('open')
    expect(opened.conditions.M).toBe('at-rest')
  })
  it('says it to people too', async () => {
    const { out } = await run('trace', dryer, '--set', 'dial=cool-down')
    expect(out).toContain('held open     CS:A-C: chart: o at cool-down')
    expect(out).toContain('L1 > CS:A-B > TF > F1 > M:hold > M:main > DS:C-NO > N')
  })
  it('works out what is understood of a circuit with errors, and ends with 1', async () => {
    const half = file('half.circuit', `${readFileSync(dryer, 'utf8')}\nheater H9 54\n`)
    const { status, out, err } = await run('trace', half, '--set', 'dial=timed-high', '--json')
    expect(status).toBe(1)
    expect(err).toContain('half.circuit:')
    expect(JSON.parse(out).loads.find((l: { load: string }) => l.load === 'H1:1-2').on).toBe(true)
  })
})

it('table lists every row with its strings', async () => {
  const { loads, rows } = await json('table', dryer)
  expect(loads).toHaveLength(5)
  expect(rows).toHaveLength(10)
  expect(rows[2].strings['H1:1-2']).toEqual(['CS:A-C', 'OT:1-2', 'HL:1-2', 'TC:link', 'M:heat'])
  expect((await run('table', dryer)).out.split('\n')).toHaveLength(11)
})

describe('draw', () => {
  it('gives positions without crossings', async () => {
    const { nodes, edges, size, crossings } = JSON.parse((await run('draw', dryer)).out)
    expect(crossings).toBe(0)
    expect(nodes.length).toBeGreaterThan(20)
    expect(edges.length).toBeGreaterThan(10)
    expect(size.width).toBeGreaterThan(500)
  })
  it('writes a sheet that stands alone', async () => {
    const out = path.join(folder, 'out.svg')
    expect((await run('draw', dryer, '-o', out, '--set', 'dial=timed-high')).status).toBe(0)
    const svg = readFileSync(out, 'utf8')
    expect(svg).toMatch(/^<svg /)
    expect(svg).toContain('<style>')
    expect(svg).toContain('Operating thermostat')
    // Its fonts go with it: WOFF2 begins with `wOF2`.
    const fonts = [...svg.matchAll(/url\(data:font\/woff2;base64,([^)]+)\)/g)].map((m) =>
      Buffer.from(m[1] ?? '', 'base64'),
    )
    expect(fonts.map((font) => font.toString('latin1', 0, 4))).toEqual(Array(6).fill('wOF2'))
    expect(svg.length).toBeLessThan(200_000)
  })
  it('draws after IEC 60617 or IEEE 315, and knows no third', async () => {
    const sheet = async (...options: string[]) => {
      const out = path.join(folder, 'symbols.svg')
      expect((await run('draw', dryer, '-o', out, ...options)).status).toBe(0)
      return readFileSync(out, 'utf8')
    }
    const iec = await sheet()
    expect(await sheet('--symbols', 'iec')).toBe(iec)
    expect(await sheet('--symbols', 'ieee')).not.toBe(iec)
    expect(await run('draw', dryer, '--symbols', 'jis')).toMatchObject({ status: 2 })
  })
})
