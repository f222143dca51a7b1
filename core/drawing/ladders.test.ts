import ELK from 'elkjs/lib/elk.bundled.js'
import { expect, test } from 'vitest'
import { readCircuit } from '../circuit/index.ts'
import { drawCircuit } from './index.ts'
import type { Plan } from './plan.ts'
import { renderSvg } from './svg.ts'

const engine = new ELK()
const draw = (...lines: string[]) => drawCircuit(readCircuit(lines.join('\n')).circuit, (graph) => engine.layout(graph))

const rail = (plan: Plan, name: string) => {
  const found = plan.rails.find((r) => r.name === name)
  if (!found) throw new Error(`no rail ${name}`)
  return found
}
const element = (plan: Plan, id: string) => {
  const found = plan.elements.find((e) => e.id === id)
  if (!found) throw new Error(`no element ${id}`)
  return found
}
/** Whether y is within the reach of a rail. */
const at = (plan: Plan, name: string, id: string) => {
  const { y1, y2 } = rail(plan, name)
  const { y } = element(plan, id)
  return y > y1 && y < y2
}

const furnace = [
  'supply single-phase 120 V 60 Hz',
  'control call none, heat',
  'control door shut, open',
  'switch DS when door=shut',
  'transformer T1 40 VA',
  '  primary 1-2 120 V 30 ohm',
  '  secondary R-C 24 V 2 ohm',
  'switch TH when call=heat',
  'relay K1',
  '  coil 1-2 24 V 100 ohm',
  '  contact 3-4 closed when in',
  'heater H1 80 W at 120 V',
  'run supply.L > DS > T1.1',
  'wire T1.2 supply.N',
  'wire DS.2 K1.3',
  'run K1.4 > H1 > supply.N',
  'run T1.R > TH > K1.1',
  'wire K1.2 T1.C',
  'wire T1.C chassis',
]

test('a transformer is the border between two ladders', async () => {
  const plan = await draw(...furnace)
  expect(plan.crossings).toBe(0)
  expect(plan.rails.map(({ name, side }) => `${side} ${name}`)).toEqual([
    'left L',
    'left T1.R',
    'right N',
    'right T1.C',
  ])
  // The primary is the last rung of its ladder, at its right end; the secondary the first of its own, right below it.
  const primary = element(plan, 'T1:primary')
  const secondary = element(plan, 'T1:secondary')
  expect(at(plan, 'N', 'T1:primary')).toBe(true)
  expect(primary.y).toBe(Math.max(...['K1:3-4', 'H1:1-2', 'DS:1-2', 'T1:primary'].map((id) => element(plan, id).y)))
  expect(at(plan, 'T1.R', 'T1:secondary')).toBe(true)
  expect(at(plan, 'T1.C', 'T1:secondary')).toBe(true)
  expect(secondary.x).toBe(primary.x)
  expect(secondary.y).toBeLessThan(element(plan, 'K1:coil').y)
  expect(rail(plan, 'T1.C').y1).toBeGreaterThan(rail(plan, 'N').y2)
  // Current runs from left to right in both.
  expect(element(plan, 'TH:1-2').x).toBeLessThan(element(plan, 'K1:coil').x)
  // Its frame holds the two windings, and the strap to the chassis stands apart.
  expect(plan.frames.map((f) => f.part)).toContain('T1')
  expect(plan.loose.map((l) => [l.from.text, l.to.text])).toEqual([['T1.C', 'chassis']])
})

test('every supply has rails of its own, and no two of one name', async () => {
  const plan = await draw(
    'supply split-phase 240 V 60 Hz',
    'supply aux split-phase 240 V 60 Hz',
    'supply low dc 12 V',
    'control knob off, on',
    'switch S1 when knob=on',
    'switch S2 when knob=on',
    'heater H1 2000 W at 240 V',
    'heater H2 2000 W at 240 V',
    'lamp LP 5 W at 12 V',
    'run supply.L1 > S1 > H1 > supply.L2',
    'run aux.L1 > S2 > H2 > aux.L2',
    'wire low.+ LP.1',
    'wire LP.2 low.−',
    'wire supply.G chassis',
    'wire aux.G chassis',
  )
  const names = plan.rails.map((r) => r.name)
  expect([...names].sort()).toEqual(['L1', 'L2', 'N', 'aux.L1', 'aux.L2', 'aux.N', 'low.+', 'low.−'].sort())
  expect(at(plan, 'L1', 'H1:1-2') && at(plan, 'L2', 'H1:1-2')).toBe(true)
  expect(at(plan, 'aux.L1', 'H2:1-2') && at(plan, 'aux.L2', 'H2:1-2')).toBe(true)
  expect(at(plan, 'low.+', 'LP:1-2') && at(plan, 'low.−', 'LP:1-2')).toBe(true)
  for (const side of ['left', 'right']) {
    const upright = plan.rails.filter((r) => r.side === side).sort((a, b) => a.y1 - b.y1)
    upright.slice(1).forEach((r, i) => {
      expect(r.y1).toBeGreaterThan((upright[i]?.y2 ?? 0) + 30)
    })
  }
  expect(plan.loose.map((l) => l.from.text)).toEqual(['G', 'aux.G'])
  expect(renderSvg(plan, {})).toContain('>aux.L1<')
})

test('a load between neutral and the second leg hangs on a second tag of that leg, at the left', async () => {
  const plan = await draw(
    'supply split-phase 240 V 60 Hz',
    'lamp LA 10 W at 120 V',
    'lamp LB 10 W at 120 V',
    'heater H1 2000 W at 240 V',
    'wire supply.L1 H1.1',
    'wire H1.2 supply.L2',
    'wire supply.L1 LA.1',
    'wire LA.2 supply.N',
    'wire supply.L2 LB.1',
    'wire LB.2 supply.N',
  )
  expect(plan.crossings).toBe(0)
  expect(plan.bends).toBe(0)
  expect(plan.rails.map(({ name, side }) => `${side} ${name}`)).toEqual(['left L1', 'left L2', 'right L2', 'right N'])
})

test('a rail whose taps another rail parts is drawn in two pieces, and nothing crosses', async () => {
  const plan = await draw(
    'supply split-phase 240 V 60 Hz',
    'supply aux single-phase 120 V 60 Hz',
    'transformer T1 20 VA',
    '  primary 1-2 120 V',
    '  secondary 3-4 24 V',
    'lamp LA 10 W at 120 V',
    'lamp LB 10 W at 24 V',
    'lamp LC 10 W at 24 V',
    'lamp LD 10 W at 120 V',
    'run supply.L1 > LA > chassis',
    'run aux.L > T1.1',
    'run T1.2 > aux.N',
    'run aux.L > LD > aux.N',
    'run T1.3 > LB > T1.4',
    'run T1.3 > LC > chassis',
  )
  expect(plan.crossings).toBe(0)
  expect(plan.rails.filter((r) => r.name === 'chassis')).toHaveLength(2)
  expect(plan.elements).toHaveLength(6)
})
