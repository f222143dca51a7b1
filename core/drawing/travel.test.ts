import { readdirSync, readFileSync } from 'node:fs'
import ELK from 'elkjs/lib/elk.bundled.js'
import { expect, test } from 'vitest'
import { readCircuit } from '../circuit/index.ts'
import { drawCircuit } from './index.ts'
import { neighbour, type Way } from './travel.ts'

const engine = new ELK()
const demos = new URL('../../schematics-demo/', import.meta.url)
const ways: readonly Way[] = ['left', 'right', 'up', 'down']
const planOf = (file: string) =>
  drawCircuit(readCircuit(readFileSync(new URL(file, demos), 'utf8')).circuit, (graph) => engine.layout(graph))

test('arrows lead along the nets: straight on first, aside where a net leads aside', async () => {
  const plan = await planOf('one-string-heater.circuit')
  const row = [...plan.elements].sort((a, b) => a.x - b.x).map((e) => e.id)
  row.forEach((id, i) => {
    expect(neighbour(plan, id, 'right', 'elements')).toBe(row[i + 1])
    expect(neighbour(plan, id, 'left', 'elements')).toBe(row[i - 1])
  })
  const dryer = await planOf('bench-dryer.circuit')
  expect(neighbour(dryer, 'HL:1-2', 'right', 'elements')).toBe('TC:link')
  const { y: above = 0 } = dryer.elements.find((e) => e.id === 'HL:1-2') ?? {}
  const { y: below = 0 } = dryer.elements.find((e) => e.id === 'OT:1-2') ?? {}
  if (above < below) expect(neighbour(dryer, 'OT:1-2', 'up', 'elements')).toBe('HL:1-2')
})

test('a wire lies between two elements, either way', async () => {
  const plan = await planOf('bench-dryer.circuit')
  expect(neighbour(plan, 'HL:1-2', 'right', 'wires')).toBe('HL.2~TC.1')
  expect(neighbour(plan, 'HL.2~TC.1', 'right', 'elements')).toBe('TC:link')
  expect(neighbour(plan, 'HL.2~TC.1', 'left', 'elements')).toBe('HL:1-2')
})

const files = readdirSync(demos).filter((name) => name.endsWith('.circuit'))
test.each(files)('%s: every element and every wire can be reached by arrows from the first', async (file) => {
  const plan = await planOf(file)
  const first = plan.elements[0]?.id ?? ''
  const seen = new Set([first])
  const queue = [first]
  for (let id = queue.shift(); id !== undefined; id = queue.shift())
    for (const way of ways)
      for (const to of ['elements', 'wires'] as const) {
        const next = neighbour(plan, id, way, to)
        if (next === undefined || seen.has(next)) continue
        seen.add(next)
        queue.push(next)
      }
  const wires = [...plan.nets.flatMap((n) => n.segments).flatMap((s) => s.wires), ...plan.loose.map((l) => l.wire)]
  expect([...plan.elements.map((e) => e.id), ...wires].filter((id) => !seen.has(id))).toEqual([])
})
