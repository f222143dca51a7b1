import { expect, test } from 'vitest'
import { readCircuit } from '../circuit/index.ts'
import { traceSetting } from '../strings/index.ts'
import { stopsOf } from './beads.ts'
import { dryer, dryerCooling, dryerRunning, heaterOff, heaterOn, motorStarting } from './fixtures.ts'
import { drawString } from './string.ts'

const circuit = dryer()
const running = dryerRunning(circuit)
const cooling = dryerCooling(circuit)

test('beads stand in the order current meets them, a test point between each two', () => {
  const stops = stopsOf(circuit, running, heaterOn)
  expect(stops.map((s) => (s.kind === 'point' ? s.wires.join() : s.beads.map((b) => b.name).join('|')))).toEqual([
    'supply.L1~CS.A',
    'CS:A-C',
    'CS.C~OT.1',
    'OT',
    'OT.2~HL.1',
    'HL',
    'HL.2~TC.1',
    'TC',
    'TC.2~H1.1',
    'H1',
    'H1.2~M.1',
    'M:heat',
    'M.2~supply.L2',
  ])
})

test('a lying string is one straight line where it fits', () => {
  const { plan } = drawString(circuit, running, heaterOn, { width: 1440 })
  expect(plan.beads.map((b) => b.id)).toEqual(['CS:A-C', 'OT:1-2', 'HL:1-2', 'TC:link', 'H1:1-2', 'M:heat'])
  expect(plan.points).toHaveLength(7)
  expect(new Set([...plan.beads, ...plan.points].map((p) => p.y)).size).toBe(1)
  const along = [...plan.beads, ...plan.points].sort((a, b) => a.x - b.x)
  expect(along.every((p, i) => 'wires' in p === (i % 2 === 0))).toBe(true)
  expect(plan.size.width).toBe(1440)
})

test.each([1440, 1000, 800, 640, 480])(
  'at %i px a string never leaves the sheet, and targets do not touch',
  (width) => {
    const { plan } = drawString(circuit, running, motorStarting, { width })
    expect(plan.size.width).toBeLessThanOrEqual(Math.max(width, 480))
    const all = [...plan.beads.map((b) => ({ ...b, half: 56 })), ...plan.points.map((p) => ({ ...p, half: 24 }))]
    all.forEach((a, i) => {
      for (const b of all.slice(i + 1))
        if (a.y === b.y) expect(Math.abs(a.x - b.x)).toBeGreaterThanOrEqual(a.half + b.half - 8)
    })
    for (const p of all) expect(p.x + p.half).toBeLessThanOrEqual(plan.size.width)
  },
)

test('an upright string keeps to a narrow window, 48 px a target', () => {
  const { plan } = drawString(circuit, running, heaterOn, { width: 390, upright: true })
  expect(plan.size.width).toBe(390)
  const ys = [...plan.beads, ...plan.points].map((p) => p.y).sort((a, b) => a - b)
  expect(Math.min(...ys.slice(1).map((y, i) => y - (ys[i] ?? 0)))).toBeGreaterThanOrEqual(48)
})

test('parallel elements stand side by side in one place, in one dotted collar', () => {
  const { plan, svg } = drawString(circuit, running, motorStarting, { width: 1440 })
  const at = (id: string) => plan.beads.find((b) => b.id === id)
  expect(at('PB:1-2')?.x).toBe(at('M:hold')?.x)
  expect(at('PB:1-2')?.y).not.toBe(at('M:hold')?.y)
  expect(svg.match(/class="anyof"/g)).toHaveLength(1)
})

test('a string that is off shows where it is held open, and what would have to be closed', () => {
  const beads = stopsOf(circuit, cooling, heaterOff).flatMap((s) => (s.kind === 'place' ? s.beads : []))
  const by = (name: string) => beads.find((b) => b.name === name)
  expect(by('CS:A-C')).toMatchObject({ blade: 'wide', reason: 'chart: o at cool-down', mark: 'none' })
  expect(by('OT')).toMatchObject({ blade: 'closed', mark: 'must-be-closed' })
  expect(by('H1')).toMatchObject({ mark: 'load' })
  expect(by('M:heat')).toMatchObject({ flag: 'M', area: 'Drum out, 5 min' })
})

test('a bead entered at its second end is turned round', () => {
  const trace = { ...heaterOn, path: [...heaterOn.path].reverse(), poles: ['L2', 'L1'] as const }
  const beads = stopsOf(circuit, running, trace).flatMap((s) => (s.kind === 'place' ? s.beads : []))
  expect(beads.map((b) => [b.name, b.flipped, ...b.tags])).toEqual([
    ['M:heat', true, '2', '1'],
    ['H1', true, '2', '1'],
    ['TC', true, '2', '1'],
    ['HL', true, '2', '1'],
    ['OT', true, '2', '1'],
    ['CS:A-C', true, 'C', 'A'],
  ])
})

test('a load that nothing ever feeds is a bead on its own', () => {
  const { plan, svg } = drawString(
    circuit,
    cooling,
    { ...heaterOff, path: [], order: [], poles: [], heldOpen: [] },
    { width: 800 },
  )
  expect(plan.beads.map((b) => b.id)).toEqual(['H1:1-2'])
  expect(plan.points).toEqual([])
  expect(svg).not.toContain('rail')
})

/** Two stretches of two and one element side by side, between fuses; and a load with many in its way. */
const stretches = `supply single-phase 120 V 60 Hz
control a off, on
control b off, on
control c off, on
fuse F1 blows 15 A
switch SA when a=on
switch SB when b=on
switch SC when c=on
heater H1 1000 W at 120 V
run supply.L > F1 > SA > SB > H1 > supply.N
wire F1.2 SC.1
wire SC.2 H1.1`

const many = `supply single-phase 120 V 60 Hz
${Array.from({ length: 14 }, (_, i) => `fuse F${i} "Fuse number ${i}" blows 15 A`).join('\n')}
heater H1 1000 W at 120 V
run supply.L > ${Array.from({ length: 14 }, (_, i) => `F${i}`).join(' > ')} > H1 > supply.N`

function traceOf(text: string, given: Readonly<Record<string, string>>) {
  const { circuit, problems } = readCircuit(text)
  expect(problems.filter((p) => p.severity === 'error')).toEqual([])
  const trace = traceSetting(circuit, given)
  const frame = trace.story.at(-1)?.frame
  const load = trace.loads[0]
  if (!frame || !load) throw new Error('it has a load and a frame')
  return { circuit, frame, load }
}

test('stretches of several elements stand side by side, each in its own row', async () => {
  const { circuit, frame, load } = traceOf(stretches, { a: 'on', b: 'on', c: 'on' })
  const place = stopsOf(circuit, frame, load).find((s) => s.kind === 'place' && s.beads.length > 1)
  if (place?.kind !== 'place') throw new Error('there is a place of several')
  expect(place.rows.map((row) => row.map((b) => b.name)).sort()).toEqual([['SA', 'SB'], ['SC']])
  for (const row of place.rows) for (const b of row) expect(b.flipped).toBe(false)
  const { plan, svg } = drawString(circuit, frame, load, { width: 1440, standalone: true })
  const at = (id: string) => plan.beads.find((b) => b.id.startsWith(`${id}:`)) ?? { x: 0, y: 0 }
  expect(at('SA').y).toBe(at('SB').y)
  expect(at('SA').x).toBeLessThan(at('SB').x)
  expect(at('SC').y).not.toBe(at('SA').y)
  await expect(svg).toMatchFileSnapshot('golden/string of two stretches.svg')
  const upright = drawString(circuit, frame, load, { width: 390, upright: true, standalone: true })
  const up = (id: string) => upright.plan.beads.find((b) => b.id.startsWith(`${id}:`)) ?? { x: 0, y: 0 }
  expect(up('SA').x).toBe(up('SB').x)
  expect(up('SA').y).toBeLessThan(up('SB').y)
  await expect(upright.svg).toMatchFileSnapshot('golden/string of two stretches, upright.svg')
})

test('a string of many beads goes on in rows, each whole, none beyond the sheet', async () => {
  const { circuit, frame, load } = traceOf(many, {})
  const { plan, svg } = drawString(circuit, frame, load, { width: 1000, standalone: true })
  expect(plan.beads).toHaveLength(15)
  expect(new Set(plan.beads.map((b) => b.y)).size).toBeGreaterThan(2)
  for (const { x } of plan.beads) expect(x + 56).toBeLessThanOrEqual(plan.size.width)
  expect(plan.size.width).toBe(1000)
  await expect(svg).toMatchFileSnapshot('golden/string of many beads.svg')
})
