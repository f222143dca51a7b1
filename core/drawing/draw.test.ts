import ELK from 'elkjs/lib/elk.bundled.js'
import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { Circuit } from '../circuit/model.ts'
import {
  bodies,
  type CircuitSpec,
  circuitOf,
  contactFigure,
  dryer,
  dryerCooling,
  dryerRunning,
  type ElementSpec,
  frameOf,
  heaterOff,
  heaterOn,
  motorRunning,
  motorStarting,
  oddCircuits,
} from './fixtures.ts'
import { letterBox, overlap } from './geometry.ts'
import { drawCircuit, positions } from './index.ts'
import { nameSize, noteSize, tagSize } from './measure.ts'
import type { Box, Lettering, Plan } from './plan.ts'
import { countCrossings, type Line, mergeLines } from './segments.ts'
import { renderSvg } from './svg.ts'

const engine = new ELK()
const elk = (graph: Parameters<typeof engine.layout>[0]) => engine.layout(graph)
const one = (circuit: Circuit) => drawCircuit(circuit, elk, { starts: 1 })

const drawnIds = (circuit: Circuit) =>
  [...circuit.elements.values()].filter((e) => e.role !== 'wire' && (e.role !== 'source' || e.coupled)).map((e) => e.id)

/** What is wrong with a plan, in words; nothing where nothing is. */
function faults(circuit: Circuit, plan: Plan): string[] {
  const wrong: string[] = []
  const ids = plan.elements.map((e) => e.id)
  const want = drawnIds(circuit)
  if (ids.length !== want.length || new Set(ids).size !== ids.length || want.some((id) => !ids.includes(id)))
    wrong.push('not every element stands once')
  for (const net of plan.nets) {
    for (const s of net.segments) {
      if (s.x1 !== s.x2 && s.y1 !== s.y2) wrong.push(`${net.id} slopes`)
      for (const e of plan.elements) {
        // Leads run into the box of their own element; the symbol itself nothing may enter.
        const box = { x: e.x - 31, y: e.y - 23, width: 62, height: 46 }
        if (overlap(box, { x: s.x1, y: s.y1, width: s.x2 - s.x1, height: s.y2 - s.y1 }))
          wrong.push(`${net.id} runs through ${e.id}`)
      }
    }
  }
  plan.elements.forEach((a, i) => {
    for (const b of plan.elements.slice(i + 1)) if (overlap(a.box, b.box, -0.5)) wrong.push(`${a.id} stands on ${b.id}`)
  })
  for (const wire of [...circuit.elements.values()].filter((e) => e.role === 'wire')) {
    const drawn =
      plan.nets.some((n) => n.wires.includes(wire.id)) ||
      plan.loose.some((l) => l.wire === wire.id) ||
      plan.elements.some((e) => e.loop && wire.ends.some((t) => e.terminals.includes(t)))
    if (!drawn) wrong.push(`${wire.id} is not drawn`)
  }
  for (const e of plan.elements) {
    for (const box of [e.box, ...plan.loose.map((l) => ({ x: l.x1, y: l.y - 4, width: l.x2 - l.x1, height: 8 }))]) {
      if (box.x < 0 || box.y < 0 || box.x + box.width > plan.size.width || box.y + box.height > plan.size.height)
        wrong.push(`${e.id} is off the sheet`)
    }
  }
  return wrong
}

interface Placed {
  readonly what: string
  readonly box: Box
}

/** Lettering on lettering, on a symbol, or on a wire. */
function collisions(plan: Plan): string[] {
  const letters = (l: Lettering, size: number, weight: 400 | 600 | 700 | 800): Placed[] =>
    l.text === '' ? [] : [{ what: `"${l.text}"`, box: letterBox(l, size, weight) }]
  const texts: Placed[] = [
    ...plan.elements.flatMap((e) => [
      ...letters(e.name, nameSize, 700),
      ...e.lines.flatMap((l) => letters(l, noteSize, 400)),
      ...e.tags.flatMap((t) => letters(t, tagSize, 600)),
    ]),
    ...plan.codes.flatMap((c) => letters(c, tagSize, 600)),
    ...plan.frames.flatMap((f) => (f.title ? letters(f.title, noteSize, 600) : [])),
    ...plan.rails.flatMap((r) => letters(r.label, 20, 800)),
    ...plan.nets.flatMap((n) => n.joints.flatMap((j) => (j.label ? letters(j.label, tagSize, 600) : []))),
    ...plan.loose.flatMap((l) => [
      ...letters(l.from, l.pole ? 20 : noteSize, l.pole ? 800 : 600),
      ...letters(l.to, noteSize, 400),
      ...(l.code ? letters(l.code, tagSize, 600) : []),
    ]),
  ]
  const symbols: Placed[] = plan.elements.map((e) => ({
    what: e.id,
    // Of the other throw of a changeover only the upright lead stands here.
    box:
      e.throwOf === undefined
        ? { x: e.x - 32, y: e.y - 22, width: 64, height: 44 }
        : { x: e.x + (e.flipped ? -18 : 14), y: e.y - 90, width: 4, height: 90 },
  }))
  const lines: Placed[] = plan.nets.flatMap((n) =>
    n.segments.map((s) => ({
      what: `wire of ${n.id}`,
      box: { x: s.x1 - 1, y: s.y1 - 1, width: s.x2 - s.x1 + 2, height: s.y2 - s.y1 + 2 },
    })),
  )
  lines.push(
    ...plan.rails.map((r) => ({ what: `rail ${r.name}`, box: { x: r.x - 3, y: r.y1, width: 6, height: r.y2 - r.y1 } })),
  )
  const found: string[] = []
  texts.forEach((t, i) => {
    for (const other of [...texts.slice(i + 1), ...symbols, ...lines])
      if (overlap(t.box, other.box, -1)) found.push(`${t.what} on ${other.what}`)
  })
  return found
}

const figures = [
  contactFigure('open', 'hand'),
  contactFigure('closed', 'heat'),
  contactFigure('open', 'dial'),
  contactFigure('closed', 'heat-once'),
  contactFigure('open', 'speed'),
  contactFigure('open', 'push'),
] as const
const loads = [bodies.heater, bodies.winding, bodies.lamp, bodies.motor] as const
const colours = ['BK', 'RD', 'BU', 'WH/RD', 'GNYE', ''] as const
const labels = ['', 'Fuse', 'Operating thermostat', 'A rather long label of a part nobody has heard of'] as const

/** Any circuit at all: wires where they fall, dead ends, islands, shorted parts, changeovers, doubled wires. */
const anyCircuit: fc.Arbitrary<Circuit> = fc
  .record({
    poles: fc.constantFrom([], ['L1', 'L2', 'N', 'G'], ['L', 'N', 'G'], ['+', '−'], ['L1', 'L2', 'G']),
    parts: fc.array(
      fc.record({
        contacts: fc.integer({ min: 0, max: 3 }),
        loads: fc.integer({ min: 0, max: 2 }),
        changeover: fc.boolean(),
        figure: fc.nat(),
        label: fc.nat(),
      }),
      { minLength: 0, maxLength: 9 },
    ),
    joins: fc.array(fc.record({ a: fc.nat(), b: fc.nat(), colour: fc.nat() }), { minLength: 0, maxLength: 34 }),
    splices: fc.integer({ min: 0, max: 2 }),
  })
  .map(({ poles, parts, joins, splices }) => {
    const made = parts.map((p, n) => {
      const elements: ElementSpec[] = []
      for (let i = 0; i < p.contacts; i++) {
        elements.push({
          name: `${2 * i}-${2 * i + 1}`,
          ends: [`${2 * i}`, `${2 * i + 1}`],
          figure: figures[(p.figure + i) % figures.length] ?? figures[0],
          note: 'a note',
        })
      }
      for (let i = 0; i < p.loads; i++) {
        elements.push({
          name: `w${i}`,
          ends: [`A${i}`, 'Z'],
          role: 'load',
          figure: loads[(p.figure + i) % loads.length] ?? loads[0],
        })
      }
      if (p.changeover) {
        elements.push(
          { name: 'C-NO', ends: ['C', 'NO'], note: 'one way' },
          { name: 'C-NC', ends: ['C', 'NC'], throwOf: 'C-NO', note: 'the other' },
        )
      }
      if (elements.length === 0) elements.push({ name: '1-2', ends: ['1', '2'], role: 'link', figure: bodies.fuse })
      return { name: `P${n}`, label: labels[p.label % labels.length] ?? '', elements }
    })
    const terminals = [
      ...poles.map((p) => `supply.${p}`),
      'chassis',
      ...Array.from({ length: splices }, (_, i) => `S${i}`),
      ...made.flatMap((p) => [...new Set(p.elements.flatMap((e) => e.ends))].map((t) => `${p.name}.${t}`)),
    ]
    const spec: CircuitSpec = {
      poles,
      parts: made,
      wires: joins.flatMap(({ a, b, colour }) => {
        const ends = [
          terminals[a % terminals.length] ?? 'chassis',
          terminals[b % terminals.length] ?? 'chassis',
        ] as const
        const code = colours[colour % colours.length] ?? ''
        return ends[0] === ends[1] ? [] : [{ ends, ...(code !== '' && { colour: code }) }]
      }),
    }
    return circuitOf(spec)
  })

/** A sensible unit: rungs of contacts and a load between two poles, some of them sharing a leg or a branch. */
const rungs: fc.Arbitrary<Circuit> = fc
  .array(
    fc.record({
      contacts: fc.integer({ min: 0, max: 5 }),
      pole: fc.nat(),
      shared: fc.boolean(),
      parallel: fc.boolean(),
    }),
    { minLength: 1, maxLength: 7 },
  )
  .map((rows) => {
    const parts: { name: string; label: string; elements: ElementSpec[] }[] = []
    const wired: { ends: readonly [string, string]; colour: string }[] = []
    let joint = 'supply.L1'
    rows.forEach((row, r) => {
      let at = row.shared ? joint : 'supply.L1'
      for (let i = 0; i < row.contacts; i++) {
        const name = `K${r}_${i}`
        parts.push({
          name,
          label: labels[(r + i) % 3] ?? '',
          elements: [{ name: '1-2', ends: ['1', '2'], figure: figures[(r + i) % figures.length] ?? figures[0] }],
        })
        wired.push({ ends: [at, `${name}.1`], colour: colours[(r + i) % 4] ?? 'BK' })
        if (row.parallel && i === 1) {
          parts.push({ name: `${name}p`, label: 'Beside', elements: [{ name: '1-2', ends: ['1', '2'] }] })
          wired.push(
            { ends: [`${name}.1`, `${name}p.1`], colour: 'YE' },
            { ends: [`${name}.2`, `${name}p.2`], colour: 'YE' },
          )
        }
        at = `${name}.2`
        if (i === 0) joint = at
      }
      parts.push({
        name: `H${r}`,
        label: 'A load',
        elements: [{ name: '1-2', ends: ['1', '2'], role: 'load', figure: bodies.heater }],
      })
      wired.push(
        { ends: [at, `H${r}.1`], colour: 'RD' },
        { ends: [`H${r}.2`, row.pole % 2 ? 'supply.N' : 'supply.L2'], colour: 'WH' },
      )
    })
    return circuitOf({ poles: ['L1', 'L2', 'N', 'G'], parts, wires: wired })
  })

/** Nets that join two elements, or an element and a rail, and nothing else. */
const twoEnded = (plan: Plan) =>
  plan.nets.filter(
    (n) =>
      n.dots.length === 0 &&
      n.segments.length > 0 &&
      new Set(n.segments.flatMap((s) => s.sides?.flat() ?? [])).size === 2,
  )

test('a dryer is drawn without a crossing, and no lettering lies on anything', { timeout: 60_000 }, async () => {
  const circuit = dryer()
  const plan = await drawCircuit(circuit, elk)
  expect(plan.crossings).toBe(0)
  expect(plan.bends).toBeLessThanOrEqual(6)
  expect(faults(circuit, plan)).toEqual([])
  expect(collisions(plan)).toEqual([])
  // Every wire that joins just two things is one straight line.
  expect(twoEnded(plan).length).toBe(10)
  expect(twoEnded(plan).filter((n) => n.segments.length !== 1)).toEqual([])
  const at = (id: string) => plan.elements.find((e) => e.id === id)
  // The heater's string stands on one line, its load in the same row as its contacts.
  expect(new Set(['CS:A-C', 'OT:1-2', 'HL:1-2', 'TC:link', 'H1:1-2', 'M:heat'].map((id) => at(id)?.y)).size).toBe(1)
  // L2 above N, as a sheet has them.
  expect(plan.rails.map((r) => r.name)).toEqual(['L1', 'L2', 'N'])
  expect(plan.rails[1]?.y1).toBeLessThan(plan.rails[2]?.y1 ?? 0)
})

test('the same circuit gives the same plan', { timeout: 60_000 }, async () => {
  expect(await drawCircuit(dryer(), elk)).toEqual(await drawCircuit(dryer(), elk))
})

test('a plan is plain data', async () => {
  const plan = await drawCircuit(dryer(), elk)
  expect(JSON.parse(JSON.stringify(plan))).toEqual(plan)
})

test('positions list every element, rail and wire', async () => {
  const circuit = dryer()
  const at = positions(await drawCircuit(circuit, elk))
  expect(at.nodes.map((n) => n.id).sort()).toEqual([...drawnIds(circuit), 'rail:L1', 'rail:L2', 'rail:N'].sort())
  const listed = at.edges.flatMap((e) => e.wires)
  expect(listed.sort()).toEqual(
    [...circuit.elements.values()]
      .filter((e) => e.role === 'wire')
      .map((e) => e.id)
      .sort(),
  )
  expect(at.crossings).toBe(0)
})

test.each(Object.keys(oddCircuits))('%s is drawn', async (name) => {
  const circuit = oddCircuits[name]
  if (!circuit) throw new Error(name)
  const plan = await one(circuit)
  expect(faults(circuit, plan)).toEqual([])
  expect(collisions(plan)).toEqual([])
  expect(renderSvg(plan, { standalone: true, legend: true })).toContain('</svg>')
})

test('sensible units: nothing overlaps, wires of two terminals are straight', { timeout: 120_000 }, async () => {
  let straight = 0
  let pairs = 0
  await fc.assert(
    fc.asyncProperty(rungs, async (circuit) => {
      const plan = await one(circuit)
      expect(faults(circuit, plan)).toEqual([])
      expect(collisions(plan)).toEqual([])
      const two = twoEnded(plan)
      pairs += two.length
      straight += two.filter((n) => n.segments.length === 1).length
    }),
    { seed: 7, numRuns: 40 },
  )
  expect(straight / pairs).toBeGreaterThan(0.97)
})

test('any circuit: drawn once each, level or upright, through no symbol', { timeout: 120_000 }, async () => {
  await fc.assert(
    fc.asyncProperty(anyCircuit, async (circuit) => {
      const plan = await one(circuit)
      expect(faults(circuit, plan)).toEqual([])
      expect(plan.crossings).toBe(slowCrossings(plan.nets.map((n) => n.segments)))
    }),
    { seed: 11, numRuns: 100 },
  )
})

test('any circuit gives the same plan twice', { timeout: 120_000 }, async () => {
  await fc.assert(
    fc.asyncProperty(anyCircuit, async (circuit) => {
      expect(await one(circuit)).toEqual(await one(circuit))
    }),
    { seed: 12, numRuns: 12 },
  )
})

/** The plain way: every piece against every other; on a shared line, one place a pair of pieces. */
function slowCrossings(nets: readonly (readonly Line[])[]): number {
  const places = new Set<string>()
  nets.forEach((a, i) => {
    nets.forEach((b, j) => {
      if (j <= i) return
      for (const p of a) {
        for (const q of b) {
          const x = Math.max(p.x1, q.x1)
          const y = Math.max(p.y1, q.y1)
          if (x <= Math.min(p.x2, q.x2) && y <= Math.min(p.y2, q.y2)) places.add(`${i} ${j} ${x} ${y}`)
        }
      }
    })
  })
  return places.size
}

const grid = fc.integer({ min: 0, max: 8 })
const lineArb: fc.Arbitrary<Line> = fc
  .record({ level: fc.boolean(), at: grid, from: grid, to: grid })
  .map(({ level, at, from, to }) => {
    const [a, b] = [Math.min(from, to), Math.max(from, to) + 1]
    return level ? { x1: a, y1: at, x2: b, y2: at } : { x1: at, y1: a, x2: at, y2: b }
  })

test('crossings are those that the plain way counts', () => {
  fc.assert(
    fc.property(fc.array(fc.array(lineArb, { maxLength: 5 }), { maxLength: 5 }), (nets) => {
      const merged = nets.map(mergeLines)
      expect(countCrossings(merged)).toBe(slowCrossings(merged))
    }),
    { seed: 3, numRuns: 400 },
  )
})

test('merged pieces cover the same ground, and share none of it', () => {
  const cells = (lines: readonly Line[]) =>
    lines.flatMap((l) => {
      const out: string[] = []
      for (let x = l.x1; x < l.x2; x++) out.push(`h${x},${l.y1}`)
      for (let y = l.y1; y < l.y2; y++) out.push(`v${l.x1},${y}`)
      return out
    })
  fc.assert(
    fc.property(fc.array(lineArb, { maxLength: 12 }), (lines) => {
      const merged = cells(mergeLines(lines))
      expect(new Set(merged).size).toBe(merged.length)
      expect(new Set(merged)).toEqual(new Set(cells(lines)))
    }),
    { seed: 4, numRuns: 400 },
  )
})

test('no setting moves anything: what is placed is placed alike in every view', async () => {
  const circuit = dryer()
  const plan = await drawCircuit(circuit, elk)
  const places = (svg: string) =>
    [...svg.matchAll(/<text class="(?:name|tag|code|railname|frametitle)"[^>]*>[^<]*/g)].map((m) => m[0])
  const rest = places(renderSvg(plan, {}))
  for (const [frame, trace] of [
    [dryerRunning(circuit), heaterOn],
    [dryerCooling(circuit), heaterOff],
    [dryerRunning(circuit), motorRunning],
    [frameOf(circuit, {}, {}, 'dead'), motorStarting],
  ] as const) {
    expect(places(renderSvg(plan, { frame, trace, selected: 'OT:1-2' }))).toEqual(rest)
  }
})
