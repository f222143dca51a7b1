import { readdirSync, readFileSync } from 'node:fs'
import path from 'node:path'
import { type Browser, chromium, type Page } from '@playwright/test'
import Elk from 'elkjs/lib/elk.bundled.js'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { type Circuit, readCircuit } from '../../core/circuit/index.ts'
import {
  dryer,
  dryerCooling,
  dryerRunning,
  heaterOff,
  heaterOn,
  motorRunning,
  motorStarting,
} from '../../core/drawing/fixtures.ts'
import { drawCircuit, type Plan, renderSvg, stringSvg } from '../../core/drawing/index.ts'
import { traceSetting } from '../../core/strings/index.ts'
import type { Frame, LoadTrace } from '../../core/strings/trace.ts'
import { browserLaunchOptions } from '../browser.mjs'
import { unitText } from './units.ts'

// What a person would see, by the boxes and strokes of a real browser with the real fonts: no lettering on lettering, on
// a symbol, on a mark or on a wire.

const launch = browserLaunchOptions()
const fonts = path.join(import.meta.dirname, '../../node_modules/@fontsource/atkinson-hyperlegible-next/files')
const demos = path.join(import.meta.dirname, '../../schematics-demo')
const engine = new Elk()
const elk = (graph: Parameters<typeof engine.layout>[0]) => engine.layout(graph)

let browser: Browser
let page: Page

beforeAll(async () => {
  if (!launch) return
  browser = await chromium.launch({ ...launch, args: [...launch.args, '--no-sandbox'] })
  page = await browser.newPage({ viewport: { width: 1600, height: 1000 } })
  const faces = [400, 600, 700, 800].map((weight) => {
    const data = readFileSync(path.join(fonts, `atkinson-hyperlegible-next-latin-${weight}-normal.woff2`)).toString(
      'base64',
    )
    return `@font-face{font-family:"Atkinson Hyperlegible Next";font-weight:${weight};src:url(data:font/woff2;base64,${data})}`
  })
  await page.setContent(`<style>${faces.join('')}body{margin:0}</style>`)
  await page.evaluate(() =>
    Promise.all([400, 600, 700, 800].map((w) => document.fonts.load(`${w} 16px "Atkinson Hyperlegible Next"`))),
  )
})
afterAll(async () => {
  await browser?.close()
})

/** Every piece of lettering that something lies on, in words, in any of the sheets. */
async function collisions(...sheets: readonly string[]): Promise<string[]> {
  const found: string[] = []
  for (let i = 0; i < sheets.length; i += 12) found.push(...(await page.evaluate(look, sheets.slice(i, i + 12))))
  return found
}

/** Runs in the page. */
function look(sheets: readonly string[]): string[] {
  const found: string[] = []
  const paperOnly = /(^| )(hit|wirehit|lifted|lifted-edge|sheetfill|selection|flag|frame)( |$)/
  const straight = /^M(-?[\d.]+) (-?[\d.]+)(?:H(-?[\d.]+)|V(-?[\d.]+))$/
  const band = 20
  const sizes = new Map<string, number>()
  const widths = new Map<string, number>()
  for (const sheet of sheets) {
    document.body.innerHTML = sheet
    // Ink of lettering: from the tops of its capitals to its baseline.
    const letters = [...document.querySelectorAll<SVGTextElement>('svg text')].map((e) => {
      const box = e.getBoundingClientRect()
      const named = e.getAttribute('class') ?? ''
      const size = sizes.get(named) ?? Number.parseFloat(getComputedStyle(e).fontSize)
      sizes.set(named, size)
      const base = Number(e.getAttribute('y')) + box.y - e.getBBox().y
      return { text: e.textContent ?? '', x1: box.x, x2: box.right, y1: base - size * 0.72, y2: base }
    })
    // Letters by bands of height, with some to spare for the width of strokes.
    const bands = new Map<number, typeof letters>()
    for (const l of letters) {
      for (let b = Math.floor((l.y1 - 4) / band); b <= Math.floor((l.y2 + 4) / band); b++) {
        const list = bands.get(b)
        if (list) list.push(l)
        else bands.set(b, [l])
      }
    }
    letters.forEach((a, i) => {
      for (const b of letters.slice(i + 1)) {
        if (a.x1 + 0.5 < b.x2 && b.x1 + 0.5 < a.x2 && a.y1 + 0.5 < b.y2 && b.y1 + 0.5 < a.y2)
          found.push(`“${a.text}” on “${b.text}”`)
      }
    })
    for (const e of document.querySelectorAll<SVGGeometryElement>('svg path, svg rect, svg circle, svg ellipse')) {
      const named = e.getAttribute('class') ?? ''
      if (paperOnly.test(named)) continue
      const width = widths.get(named) ?? (Number.parseFloat(getComputedStyle(e).strokeWidth) || 0)
      // What is drawn heavier at work has its width from an element around it.
      if (!e.closest('.on')) widths.set(named, width)
      const half = width / 2 - 0.8
      const matrix = e.getScreenCTM()
      if (!matrix) continue
      // Points along a path are dear: only where lettering is near at all.
      const box = e.getBoundingClientRect()
      const near = (l: (typeof letters)[number]) =>
        box.right > l.x1 - 4 && box.left < l.x2 + 4 && box.bottom > l.y1 - 4 && box.top < l.y2 + 4
      let close = false
      for (let b = Math.floor((box.top - 4) / band); b <= Math.floor((box.bottom + 4) / band) && !close; b++)
        close = (bands.get(b) ?? []).some(near)
      if (!close) continue
      const seen = new Set<string>()
      const touch = (x1: number, y1: number, x2: number, y2: number) => {
        const [left, right, top, foot] = [Math.min(x1, x2), Math.max(x1, x2), Math.min(y1, y2), Math.max(y1, y2)]
        for (let b = Math.floor(top / band); b <= Math.floor(foot / band); b++) {
          for (const l of bands.get(b) ?? []) {
            if (right > l.x1 - half && left < l.x2 + half && foot > l.y1 - half && top < l.y2 + half) seen.add(l.text)
          }
        }
      }
      const at = (x: number, y: number) =>
        [matrix.a * x + matrix.c * y + matrix.e, matrix.b * x + matrix.d * y + matrix.f] as const
      const [, x = '', y = '', h = x, v = y] = straight.exec(e.getAttribute('d') ?? '') ?? []
      if (x !== '') touch(...at(Number(x), Number(y)), ...at(Number(h), Number(v)))
      else {
        const length = e.getTotalLength()
        const steps = Math.max(4, Math.ceil(length / 1.5))
        for (let i = 0; i <= steps && length > 0; i++) {
          const p = e.getPointAtLength((length * i) / steps)
          touch(...at(p.x, p.y), ...at(p.x, p.y))
        }
      }
      for (const text of seen) found.push(`“${text}” under a ${named}`)
    }
  }
  return found
}

const standalone = { standalone: true, legend: true } as const

test.skipIf(!launch)('the check sees lettering that is moved onto a symbol', { timeout: 60_000 }, async () => {
  const svg = renderSvg(await drawCircuit(dryer(), elk), standalone)
  const [, y] = svg.match(/<text class="name" x="[\d.]+" y="([\d.]+)" text-anchor="middle">OT</) ?? []
  expect(
    await collisions(
      svg.replace(/(<text class="name" x="[\d.]+" y=")[\d.]+(" text-anchor="middle">OT<)/, `$1${Number(y) + 46}$2`),
    ),
  ).not.toEqual([])
})

test.skipIf(!launch)('a dryer: nothing lies on lettering in any view', { timeout: 60_000 }, async () => {
  const circuit = dryer()
  const plan = await drawCircuit(circuit, elk)
  const running = dryerRunning(circuit)
  const cooling = dryerCooling(circuit)
  for (const [frame, trace] of [
    [running, heaterOn],
    [running, motorStarting],
    [running, motorRunning],
    [cooling, heaterOff],
  ] as const) {
    expect(await collisions(renderSvg(plan, { ...standalone, frame, trace }))).toEqual([])
    expect(await collisions(stringSvg(circuit, frame, trace, { width: 1440, standalone: true }))).toEqual([])
    expect(await collisions(stringSvg(circuit, frame, trace, { width: 700, standalone: true }))).toEqual([])
    expect(await collisions(stringSvg(circuit, frame, trace, { width: 390, upright: true, standalone: true }))).toEqual(
      [],
    )
  }
})

const files = readdirSync(demos).filter((name) => name.endsWith('.circuit'))

test.skipIf(!launch).each(files)(
  '%s: nothing lies on lettering, whatever is set and shown',
  { timeout: 300_000 },
  async (name) => {
    const { circuit } = readCircuit(readFileSync(path.join(demos, name), 'utf8'))
    const plan = await drawCircuit(circuit, elk)
    const sheets = new Set([renderSvg(plan, standalone)])
    for (const given of settings(circuit)) {
      const { story, loads } = traceSetting(circuit, given)
      for (const trace of loads) {
        const frame = (story.findLast((s) => s.frame.on.has(trace.load)) ?? story.at(-1))?.frame
        if (!frame) continue
        sheets.add(renderSvg(plan, { ...standalone, frame, trace }))
        sheets.add(stringSvg(circuit, frame, trace, { width: 1440, standalone: true }))
        sheets.add(stringSvg(circuit, frame, trace, { width: 390, upright: true, standalone: true }))
      }
    }
    expect(await collisions(...sheets)).toEqual([])
  },
)

/** How many generated units are looked at; `DRAWING_UNITS=200` for all. */
const units = Number(process.env.DRAWING_UNITS ?? 60)

test.skipIf(!launch)(
  'units of 30 to 60 parts: nothing lies on lettering, at rest and with every contact held open',
  { timeout: 900_000 },
  async () => {
    const found: string[] = []
    for (let seed = 0; seed < units; seed++) {
      const { circuit } = readCircuit(unitText(seed))
      const plan = await drawCircuit(circuit, elk, { starts: 1 })
      const worst = heldOpen(circuit)
      const seen = await collisions(
        renderSvg(plan, standalone),
        renderSvg(plan, { ...standalone, frame: worst, trace: heldTrace(plan, worst) }),
      )
      found.push(...seen.map((what) => `unit ${seed}: ${what}`))
    }
    expect(found).toEqual([])
  },
)

/** All contacts open, each for the longest of the reasons there may be. */
function heldOpen(circuit: Circuit): Frame {
  const why = new Map<string, string>()
  for (const { id, figure, laws } of circuit.elements.values()) {
    if (figure.kind !== 'contact') continue
    const reasons = laws.flatMap(({ when }) =>
      when.flat().flatMap(({ of }) => {
        const control = circuit.controls.get(of)
        const actor = circuit.actors.get(of)
        if (control) return control.positions.map((p) => (figure.by === 'dial' ? `chart: o at ${p}` : `${of} ${p}`))
        return (actor?.states ?? []).map((state) => `${actor?.part || of} ${state.replaceAll('-', ' ')}`)
      }),
    )
    const longest = reasons.sort((a, b) => b.length - a.length)[0]
    if (longest !== undefined) why.set(id, longest)
  }
  const ids = [...circuit.elements.keys()]
  return {
    setting: {},
    conditions: {},
    conducts: new Set(ids.filter((id) => !why.has(id))),
    feed: new Map(ids.map((id) => [id, 'fed'])),
    why,
    on: new Set(),
  }
}

/** A string that has everything in it, so that every mark is drawn. */
function heldTrace(plan: Plan, frame: Frame): LoadTrace {
  const ids = plan.elements.map((e) => e.id)
  return {
    ...heaterOff,
    load: ids.find((id) => id.startsWith('H')) ?? '',
    order: ids.map((id) => [id]),
    path: [],
    poles: [],
    heldOpen: [...frame.why].map(([element, reason]) => ({ element, reason })),
    enablers: [],
  }
}

/** Every position of every control that stays where it is put, the others as they normally stand. */
function settings(circuit: Circuit): Readonly<Record<string, string>>[] {
  return [...circuit.controls.values()]
    .filter((c) => !c.springsBack)
    .flatMap((c) => c.positions.map((position) => ({ [c.name]: position })))
}
