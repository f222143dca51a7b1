import ELK from 'elkjs/lib/elk.bundled.js'
import { expect, test } from 'vitest'
import {
  circuitOf,
  dryer,
  dryerCooling,
  dryerRunning,
  heaterOff,
  heaterOn,
  motorStarting,
  oddCircuits,
  wires,
} from './fixtures.ts'
import { drawCircuit, drawingCss, renderSvg, stringSvg } from './index.ts'
import { pennant } from './marks.ts'

const engine = new ELK()
const elk = (graph: Parameters<typeof engine.layout>[0]) => engine.layout(graph)
const circuit = dryer()
const plan = drawCircuit(circuit, elk)
const running = dryerRunning(circuit)

/** The group of one element, as text. */
function group(svg: string, id: string): string {
  const from = svg.indexOf(`data-element="${id}"`)
  return svg.slice(svg.lastIndexOf('<g', from), svg.indexOf('\n', from))
}

/** Classes of the wire pieces that start or end at a point. */
function weights(svg: string, x: number, y: number): string[] {
  return [...svg.matchAll(/<path class="wire (\w+)" d="M([\d.-]+) ([\d.-]+)(?:H([\d.-]+)|V([\d.-]+))"/g)]
    .filter(
      ([, , x1, y1, h, v]) =>
        (Number(x1) === x && Number(y1) === y) || (Number(h ?? x1) === x && Number(v ?? y1) === y),
    )
    .map((m) => m[1] ?? '')
}

test('a must-be-closed contact wears a collar, the load a seat, an enabler its flag', async () => {
  const svg = renderSvg(await plan, { frame: running, trace: heaterOn })
  for (const id of ['CS:A-C', 'OT:1-2', 'HL:1-2', 'TC:link', 'M:heat'])
    expect(group(svg, id)).toContain('class="collar"')
  for (const id of ['CS:A-B', 'TF:link', 'PB:1-2', 'H1:1-2']) expect(group(svg, id)).not.toContain('class="collar"')
  expect(group(svg, 'H1:1-2')).toContain('class="load"')
  expect(group(svg, 'M:heat')).toMatch(/class="flagt"[^>]*>M</)
  // The hold contact waits for the motor too, but not in the heater's string.
  expect(group(svg, 'M:hold')).not.toContain('class="flag"')
})

test('an open contact is drawn open, with its reason where there is one', async () => {
  const svg = renderSvg(await plan, { frame: running, trace: heaterOn })
  expect(group(svg, 'PB:1-2')).toMatch(/class="reason"[^>]*>start released</)
  expect(group(svg, 'PB:1-2')).toContain('M-16 0L5 -21')
  expect(group(svg, 'DS:C-NO')).toContain('M-16 0L20 -3')
  expect(group(svg, 'DS:C-NO')).not.toContain('reason')
})

test('neighbours of an any-of group share one dotted collar', async () => {
  const svg = renderSvg(await plan, { frame: running, trace: motorStarting })
  expect(svg.match(/class="anyof"/g)).toHaveLength(1)
  expect(group(svg, 'PB:1-2')).not.toContain('anyof')
})

test('a branch that carries nothing is lighter than the line it leaves', async () => {
  const at = await plan
  const svg = renderSvg(at, { frame: running })
  const end = (id: string, n: 0 | 1) => at.elements.find((e) => e.id === id)?.ends[n] ?? { x: 0, y: 0 }
  const of = (id: string, n: 0 | 1) => weights(svg, end(id, n).x, end(id, n).y)
  // Wires DS.NO, PB.1, M.6 carry the motor's current past the open button.
  expect(of('DS:C-NO', 1)).toEqual(['live'])
  expect(of('M:hold', 0)).toEqual(['live'])
  expect(of('PB:1-2', 0)).toEqual(['fed'])
  expect(of('M:hold', 1)).toEqual(['live'])
  expect(of('PB:1-2', 1)).toEqual(['fed'])
  expect(of('M:main', 1)).toEqual(['live'])
  expect(of('M:start', 1)).toEqual(['dead'])
})

test('a dead sheet has no live wire', async () => {
  const dead = { ...running, feed: new Map([...running.feed.keys()].map((id) => [id, 'dead' as const])) }
  const svg = renderSvg(await plan, { frame: dead })
  expect(svg).not.toMatch(/class="(wire|lead) (live|fed)"/)
})

test('elements can be reached by keyboard in reading order, and say what they are', async () => {
  const svg = renderSvg(await plan, { frame: running, trace: heaterOn })
  expect(svg.match(/data-element="[^"]*" tabindex="0" role="button"/g)).toHaveLength(15)
  expect(svg).toContain('aria-label="Wire OT.2 to HL.1, RD, carries current"')
  expect(svg).toContain('aria-label="OT Operating thermostat, closed, must be closed"')
  expect(svg).toContain('aria-label="PB Start switch, open: start released"')
  expect(svg).toContain('aria-label="H1 Heating element, on, the load of this string"')
  expect(svg).toContain('data-wire="OT.2~HL.1"')
  expect(svg).toContain('data-terminal="OT.1"')
})

test('every wire can be touched', async () => {
  const svg = renderSvg(await plan, {})
  const touched = new Set([...svg.matchAll(/data-wire="([^"]*)"/g)].flatMap((m) => (m[1] ?? '').split(' ')))
  expect(
    [...circuit.elements.values()].filter((e) => e.role === 'wire' && !touched.has(e.id)).map((e) => e.id),
  ).toEqual([])
})

test('no attribute of style: the policy of the page forbids it', async () => {
  const sheets = [
    renderSvg(await plan, { frame: running, trace: heaterOn, selected: 'OT:1-2' }),
    stringSvg(circuit, running, heaterOn, { width: 1000 }),
    stringSvg(circuit, running, motorStarting, { width: 390, upright: true }),
  ]
  for (const svg of sheets) expect(svg).not.toMatch(/\sstyle=|<style|\son\w+=/)
})

test('every class that is used has a rule', async () => {
  const used = new Set<string>()
  for (const svg of [
    renderSvg(await plan, { frame: dryerCooling(circuit), trace: heaterOff, legend: true, selected: 'OT:1-2' }),
    renderSvg(await plan, { frame: running, trace: motorStarting, legend: true }),
    stringSvg(circuit, running, heaterOn, { width: 1000, selected: 'OT:1-2' }),
    stringSvg(circuit, running, motorStarting, { width: 390, upright: true }),
    renderSvg(await plan, {
      frame: running,
      trace: heaterOn,
      legend: true,
      verdicts,
      readings,
      next: ['OT.1', 'TC.2'],
      selected: 'OT.2~HL.1',
    }),
    renderSvg(await plan, { frame: running, symbols: 'ieee' }),
  ]) {
    for (const m of svg.matchAll(/class="([^"]*)"/g)) for (const c of (m[1] ?? '').split(' ')) used.add(c)
  }
  // These carry no look of their own: handles for the page.
  for (const handle of ['element', 'bead', 'testpoint', 'drawing', 'string', 'glyph', 'letter', '']) used.delete(handle)
  expect([...used].filter((c) => !new RegExp(`\\.${c}[{,.: ]`).test(drawingCss))).toEqual([])
})

test('text from a netlist is escaped', async () => {
  const odd = circuitOf({
    poles: ['L', 'N'],
    parts: [{ name: 'K', label: '<script>"&\'', elements: [{ name: '1-2', ends: ['1', '2'] }] }],
    wires: [...wires('<b>', 'supply.L', 'K.1'), ...wires('WH', 'K.2', 'supply.N')],
  })
  const svg = renderSvg(await drawCircuit(odd, elk), { standalone: true, legend: true })
  expect(svg).not.toContain('<script')
  expect(svg).not.toContain('<b>')
  expect(svg).toContain('&lt;script&gt;&quot;&amp;&#39;')
})

test('the legend explains what is on the sheet and nothing else', async () => {
  const rest = renderSvg(await plan, { legend: true, standalone: true })
  expect(rest).not.toContain('carries current')
  expect(rest).not.toContain('must be closed')
  expect(rest).toContain('>ground<')
  const heat = renderSvg(await plan, { legend: true, standalone: true, frame: running, trace: heaterOn })
  for (const words of [
    'carries current',
    'fed, no current',
    'must be closed',
    'the load',
    'has to work first',
    'why it is open',
  ])
    expect(heat).toContain(`>${words}<`)
  expect(heat).not.toContain('>any of<')
  expect(heat).toContain('>dead<')
})

test('a standalone sheet is well-formed and stands without the app', { timeout: 60_000 }, async () => {
  for (const odd of Object.values(oddCircuits)) {
    const svg = renderSvg(await drawCircuit(odd, elk), { standalone: true, legend: true })
    const opened = svg.match(/<(svg|g|style|text)[ >]/g)?.length
    expect(svg.match(/<\/(svg|g|style|text)>/g)?.length).toBe(opened)
    expect(svg).not.toContain('NaN')
    expect(svg).not.toContain('tabindex')
    // Every variable it uses it also sets.
    const uses = new Set([...svg.matchAll(/var\((--[\w-]+)/g)].map((m) => m[1]))
    expect([...uses].filter((name) => !svg.includes(`${name}:`))).toEqual([])
  }
})

const verdicts = new Map([
  ['TC:link', { kind: 'suspect', rank: 1, percent: 60 }],
  ['OT:1-2', { kind: 'cleared', by: 'r3' }],
  ['HL:1-2', { kind: 'found', says: 'found open' }],
  ['OT.2~HL.1', { kind: 'suspect', rank: 2, percent: 12 }],
] as const)
const readings = new Map([
  ['CS:A-C', { says: '0.2 Ω', agrees: true }],
  ['H1:1-2', { says: 'OL', agrees: false }],
])

test('verdicts and readings have marks of their own, words, and their lines in the legend', async () => {
  const bare = renderSvg(await plan, { legend: true, frame: running, trace: heaterOn })
  for (const words of ['suspect', 'cleared', 'found bad', 'reading', 'next test']) expect(bare).not.toContain(words)
  const next = ['OT.1', 'TC.2'] as const
  const svg = renderSvg(await plan, { legend: true, frame: running, trace: heaterOn, verdicts, readings, next })
  expect(group(svg, 'TC:link')).toMatch(/class="rank"[^>]*>1<.*class="percent"[^>]*>60 %</)
  expect(svg).toContain('must be closed, suspect 1, 60 per cent"')
  expect(group(svg, 'OT:1-2')).toContain('class="tick"')
  expect(group(svg, 'HL:1-2')).toContain('class="found"')
  expect(group(svg, 'HL:1-2')).not.toContain('class="collar"')
  expect(group(svg, 'CS:A-C')).toMatch(/class="value"[^>]*>0.2 Ω<.*class="tick"/)
  expect(group(svg, 'H1:1-2')).toContain('class="differs"')
  for (const words of [
    'suspect: rank, how likely',
    'cleared, by which reading',
    'found bad',
    'reading, as expected',
    'reading, not as expected',
    'next test: parked probe, moving probe',
  ])
    expect(svg).toContain(`>${words}<`)
})

test('a pennant’s fly grows with how likely it is, on one scale', async () => {
  const tip = (percent: number) => {
    const svg = pennant(0, 0, 1, percent)
    return Number(/class="pennant" d="M0 0h([\d.]+)/.exec(svg)?.[1])
  }
  expect(tip(80) - tip(60)).toBeCloseTo(tip(60) - tip(40))
  expect(tip(1)).toBeGreaterThan(18)
})

test('on paper nothing is grey or coloured', async () => {
  const svg = renderSvg(await plan, { standalone: true, theme: 'print', frame: running, trace: heaterOn, verdicts })
  const tokens = new Map([...svg.matchAll(/(--[\w-]+):([^;}]+)/g)].map((m) => [m[1] ?? '', m[2] ?? '']))
  const colours = [...tokens].filter(([name, value]) => value.startsWith('#') && !name.startsWith('--c-'))
  expect(colours.length).toBeGreaterThan(8)
  for (const [, value] of colours) expect(['#000', '#fff']).toContain(value)
  expect(tokens.get('--c-RD')).toBe('#fff')
})
