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
import { drawCircuit, renderSvg, stringSvg } from '../../core/drawing/index.ts'
import { traceSetting } from '../../core/strings/index.ts'
import { browserLaunchOptions } from '../browser.mjs'

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
})
afterAll(async () => {
  await browser?.close()
})

/** Every piece of lettering that something lies on, in words. */
async function collisions(svg: string): Promise<string[]> {
  const faces = [400, 600, 700, 800].map((weight) => {
    const data = readFileSync(path.join(fonts, `atkinson-hyperlegible-next-latin-${weight}-normal.woff2`)).toString(
      'base64',
    )
    return `@font-face{font-family:"Atkinson Hyperlegible Next";font-weight:${weight};src:url(data:font/woff2;base64,${data})}`
  })
  await page.setContent(`<style>${faces.join('')}body{margin:0}</style>${svg}`)
  await page.evaluate(() => document.fonts.ready)
  return page.evaluate(() => {
    const found: string[] = []
    // Ink of lettering: from the tops of its capitals to its baseline.
    const letters = [...document.querySelectorAll<SVGTextElement>('svg text')].map((e) => {
      const box = e.getBoundingClientRect()
      const size = Number.parseFloat(getComputedStyle(e).fontSize)
      const base = Number(e.getAttribute('y')) + box.y - e.getBBox().y
      return { text: e.textContent ?? '', x1: box.x, x2: box.right, y1: base - size * 0.72, y2: base }
    })
    letters.forEach((a, i) => {
      for (const b of letters.slice(i + 1)) {
        if (a.x1 + 0.5 < b.x2 && b.x1 + 0.5 < a.x2 && a.y1 + 0.5 < b.y2 && b.y1 + 0.5 < a.y2)
          found.push(`“${a.text}” on “${b.text}”`)
      }
    })
    const paperOnly = /(^| )(hit|wirehit|lifted|lifted-edge|sheetfill|selection|flag|frame)( |$)/
    for (const e of document.querySelectorAll<SVGGeometryElement>('svg path, svg rect, svg circle, svg ellipse')) {
      const named = e.getAttribute('class') ?? ''
      const length = e.getTotalLength()
      const matrix = e.getScreenCTM()
      if (paperOnly.test(named) || !(length > 0) || !matrix) continue
      const half = (Number.parseFloat(getComputedStyle(e).strokeWidth) || 0) / 2 - 0.8
      const steps = Math.max(4, Math.ceil(length / 1.5))
      const seen = new Set<string>()
      for (let i = 0; i <= steps; i++) {
        const p = e.getPointAtLength((length * i) / steps).matrixTransform(matrix)
        for (const l of letters) {
          if (p.x > l.x1 - half && p.x < l.x2 + half && p.y > l.y1 - half && p.y < l.y2 + half) seen.add(l.text)
        }
      }
      for (const text of seen) found.push(`“${text}” under a ${named}`)
    }
    return found
  })
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
    expect(await collisions(renderSvg(plan, standalone))).toEqual([])
    for (const given of settings(circuit)) {
      const { story, loads } = traceSetting(circuit, given)
      for (const trace of loads) {
        const frame = (story.findLast((s) => s.frame.on.has(trace.load)) ?? story.at(-1))?.frame
        if (!frame) continue
        expect(await collisions(renderSvg(plan, { ...standalone, frame, trace }))).toEqual([])
        expect(await collisions(stringSvg(circuit, frame, trace, { width: 1440, standalone: true }))).toEqual([])
        expect(
          await collisions(stringSvg(circuit, frame, trace, { width: 390, upright: true, standalone: true })),
        ).toEqual([])
      }
    }
  },
)

/** Every position of every control that stays where it is put, the others as they normally stand. */
function settings(circuit: Circuit): Readonly<Record<string, string>>[] {
  return [...circuit.controls.values()]
    .filter((c) => !c.springsBack)
    .flatMap((c) => c.positions.map((position) => ({ [c.name]: position })))
}
