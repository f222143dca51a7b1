import { expect, test } from 'vitest'
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
