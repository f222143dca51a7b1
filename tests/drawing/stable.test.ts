import { readFileSync } from 'node:fs'
import path from 'node:path'
import Elk from 'elkjs/lib/elk.bundled.js'
import { expect, test } from 'vitest'
import { type Circuit, type Element, readCircuit } from '../../core/circuit/index.ts'
import { drawCircuit, type Plan } from '../../core/drawing/index.ts'
import { unitText } from './units.ts'

// An edit changes little: what was drawn before stays where it was.

const engine = new Elk()
const elk = (graph: Parameters<typeof engine.layout>[0]) => engine.layout(graph)
const demo = (name: string) =>
  readCircuit(readFileSync(path.join(import.meta.dirname, '../../schematics-demo', name), 'utf8')).circuit

/** A thermostat put into a wire, in series. */
function withThermostatIn(circuit: Circuit, wire: Element): Circuit {
  const at = wire.at
  const [from, to] = wire.ends
  const elements = new Map<string, Element>()
  for (const [id, element] of circuit.elements) {
    if (id !== wire.id) elements.set(id, element)
    else {
      elements.set(`${from}~NEW.1`, { ...wire, id: `${from}~NEW.1`, ends: [from, 'NEW.1'] })
      elements.set(`NEW.2~${to}`, { ...wire, id: `NEW.2~${to}`, ends: ['NEW.2', to] })
    }
  }
  elements.set('NEW:1-2', {
    id: 'NEW:1-2',
    part: 'NEW',
    name: '1-2',
    role: 'contact',
    ends: ['NEW.1', 'NEW.2'],
    laws: [],
    figure: { kind: 'contact', rest: 'closed', by: 'heat' },
    note: '',
    at,
  })
  const part = { name: 'NEW', kind: 'thermostat', label: 'Thermostat', at }
  return {
    ...circuit,
    elements,
    parts: new Map([...circuit.parts, ['NEW', { ...part, terminals: ['NEW.1', 'NEW.2'], elements: ['NEW:1-2'] }]]),
    terminals: new Set([...circuit.terminals, 'NEW.1', 'NEW.2']),
  }
}

interface Change {
  /** Pairs of rows that stand the other way round, of all pairs. */
  readonly swapped: number
  /**
   * Mean way of the elements of the plan before, px. A part in series may need a column of its own; what stands to the
   * right of it then moves over by the width of that column, which is not counted.
   */
  readonly shift: number
}

function change(before: Plan, after: Plan): Change {
  const now = new Map(after.elements.map((e) => [e.id, e]))
  const kept = before.elements.flatMap((e) => {
    const to = now.get(e.id)
    return to ? [{ from: e, to }] : []
  })
  let pairs = 0
  let swapped = 0
  kept.forEach((a, i) => {
    for (const b of kept.slice(i + 1)) {
      const was = a.from.y - b.from.y
      if (Math.abs(was) < 1) continue
      pairs++
      if (was * (a.to.y - b.to.y) < 0) swapped++
    }
  })
  const column = after.size.width - before.size.width
  const ways = kept.map(({ from, to }) => {
    const dx = to.x - from.x
    return Math.hypot(Math.min(Math.abs(dx), Math.abs(dx - column)), to.y - from.y)
  })
  return { swapped: swapped / Math.max(1, pairs), shift: ways.reduce((a, b) => a + b, 0) / ways.length }
}

async function insertions(circuit: Circuit): Promise<Change[]> {
  const before = await drawCircuit(circuit, elk)
  const changes: Change[] = []
  for (const wire of circuit.elements.values()) {
    if (wire.role !== 'wire') continue
    changes.push(change(before, await drawCircuit(withThermostatIn(circuit, wire), elk, { previous: before })))
  }
  return changes
}

const median = (values: readonly number[]) => [...values].sort((a, b) => a - b)[values.length >> 1] ?? 0
const mean = (values: readonly number[]) => values.reduce((a, b) => a + b, 0) / values.length

test('a thermostat put into any wire of the dryer moves next to nothing', { timeout: 120_000 }, async () => {
  const changes = await insertions(demo('bench-dryer.circuit'))
  expect(changes.length).toBeGreaterThan(20)
  expect(mean(changes.map((c) => c.swapped))).toBeLessThanOrEqual(0.01)
  expect(median(changes.map((c) => c.shift))).toBeLessThanOrEqual(15)
})

test('nor does one put into any wire of a large unit', { timeout: 240_000 }, async () => {
  const changes = await insertions(readCircuit(unitText(10)).circuit)
  expect(mean(changes.map((c) => c.swapped))).toBeLessThanOrEqual(0.01)
  expect(median(changes.map((c) => c.shift))).toBeLessThanOrEqual(15)
})

test('the same circuit after its own drawing is the same drawing', { timeout: 60_000 }, async () => {
  for (const name of ['bench-dryer.circuit', 'furnace.circuit', 'water-heater.circuit']) {
    const circuit = demo(name)
    const before = await drawCircuit(circuit, elk)
    const after = await drawCircuit(circuit, elk, { previous: before })
    expect(change(before, after).swapped).toBe(0)
    expect(change(before, after).shift).toBeLessThan(30)
    expect(after.crossings).toBe(before.crossings)
  }
})

test('a drawing of another circuit is not kept to', { timeout: 60_000 }, async () => {
  const circuit = demo('bench-dryer.circuit')
  const other = await drawCircuit(demo('water-heater.circuit'), elk)
  expect(await drawCircuit(circuit, elk, { previous: other, starts: 1 })).toEqual(
    await drawCircuit(circuit, elk, { starts: 1 }),
  )
})

test('an edit that would tangle a drawing has it laid out afresh', { timeout: 60_000 }, async () => {
  // Every row the wrong way up: as bad a drawing before as there can be.
  const circuit = readCircuit(unitText(1)).circuit
  const fresh = await drawCircuit(circuit, elk, { starts: 1 })
  const upside: Plan = { ...fresh, elements: fresh.elements.map((e) => ({ ...e, y: ((e.y * 7919) % 1000) + e.x })) }
  const after = await drawCircuit(circuit, elk, { previous: upside })
  expect(after.crossings).toBeLessThanOrEqual(fresh.crossings + 1)
})
