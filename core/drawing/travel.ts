import type { ElementId, TerminalId } from '../circuit/model.ts'
import type { Plan, PlannedNet, Point } from './plan.ts'

export type Way = 'left' | 'right' | 'up' | 'down'

/**
 * The neighbour of an element or a wire in a direction of the sheet: of what a net joins to it first, else of all that is
 * drawn, so that whatever is on the sheet can be reached. `to` says what to stop at.
 */
export function neighbour(plan: Plan, from: ElementId, way: Way, to: 'elements' | 'wires'): ElementId | undefined {
  const here = placeOf(plan, from)
  if (!here) return undefined
  const wires = placesOfWires(plan)
  const all: readonly Stop[] =
    to === 'wires' ? [...wires].map(([id, at]) => ({ id, ...at })) : plan.elements.map(({ id, x, y }) => ({ id, x, y }))
  const others = all.filter((stop) => stop.id !== from)
  const { own, rails } = joinedTo(plan, from)
  const among = (ids: ReadonlySet<ElementId>) => others.filter((stop) => ids.has(stop.id))
  return (
    nearest(here, way, among(own)) ??
    nearest(here, way, among(rails)) ??
    nearest(here, way, others) ??
    nearest(here, way, others, Number.POSITIVE_INFINITY)
  )
}

interface Stop extends Point {
  readonly id: ElementId
}

/**
 * Aside counts more than ahead; what lies much more aside than ahead is no neighbour this way. Rows are closer than
 * columns: up and down may lead farther aside.
 */
function nearest(
  from: Point,
  way: Way,
  stops: readonly Stop[],
  slant = way === 'left' || way === 'right' ? 2 : 4,
): ElementId | undefined {
  let best: { id: ElementId; worth: number } | undefined
  for (const { id, x, y } of stops) {
    const dx = x - from.x
    const dy = y - from.y
    const ahead = { left: -dx, right: dx, up: -dy, down: dy }[way]
    const aside = Math.abs(way === 'left' || way === 'right' ? dy : dx)
    if (ahead <= 1 || aside > slant * ahead) continue
    const worth = ahead + 2 * aside
    if (!best || worth < best.worth) best = { id, worth }
  }
  return best?.id
}

/** Elements and wires of the nets that an element or a wire is on, and those of all taps of their rails. */
function joinedTo(plan: Plan, id: ElementId): { own: ReadonlySet<ElementId>; rails: ReadonlySet<ElementId> } {
  const ends = new Set<TerminalId>(plan.elements.find((e) => e.id === id)?.terminals ?? [])
  const nets = plan.nets.filter((net) => net.wires.includes(id) || net.terminals.some((t) => ends.has(t)))
  const railsOf = (net: PlannedNet) =>
    net.segments.flatMap((s) => s.sides?.flat() ?? []).filter((name) => name.startsWith('rail:'))
  const rails = new Set(nets.flatMap(railsOf))
  const on = (some: readonly PlannedNet[]) =>
    new Set([
      ...some.flatMap((net) => net.wires),
      ...plan.elements
        .filter((e) => some.some((net) => e.terminals.some((t) => net.terminals.includes(t))))
        .map((e) => e.id),
    ])
  return { own: on(nets), rails: on(plan.nets.filter((net) => railsOf(net).some((rail) => rails.has(rail)))) }
}

function placeOf(plan: Plan, id: ElementId): Point | undefined {
  return plan.elements.find((e) => e.id === id) ?? placesOfWires(plan).get(id)
}

/** The middle of a piece of each wire: the longest of those that fewest others share; side by side where all are shared. */
function placesOfWires(plan: Plan): Map<ElementId, Point> {
  const best = new Map<ElementId, Point & { readonly shared: number; readonly length: number }>()
  for (const net of plan.nets) {
    for (const s of net.segments) {
      const length = Math.abs(s.x2 - s.x1) + Math.abs(s.y2 - s.y1)
      const shared = s.wires.length
      for (const wire of s.wires) {
        const was = best.get(wire)
        if (!was || shared < was.shared || (shared === was.shared && length > was.length))
          best.set(wire, { x: (s.x1 + s.x2) / 2, y: (s.y1 + s.y2) / 2, shared, length })
      }
    }
  }
  const places = new Map<ElementId, Point>()
  const taken = new Map<string, number>()
  for (const [wire, { x, y }] of best) {
    const before = taken.get(`${x},${y}`) ?? 0
    taken.set(`${x},${y}`, before + 1)
    places.set(wire, { x: x + 3 * before, y })
  }
  for (const l of plan.loose) places.set(l.wire, { x: (l.x1 + l.x2) / 2, y: l.y })
  return places
}
