import { overlap } from './geometry.ts'
import type { Box, Point } from './plan.ts'
import { countCrossings, joints, type Line, mergeLines } from './segments.ts'

/** The way of one edge, and the net it belongs to. */
export interface Way {
  readonly net: number
  readonly points: readonly Point[]
}

/** Pieces of two nets side by side keep at least so far apart, px. */
const apart = 9

/**
 * Takes steps out of ways: a level piece between two upright ones moves to the height of the piece before or after it,
 * where nothing stands there and nothing more is crossed. The layout has no reason of its own to choose between the two.
 */
export function straighten(ways: readonly Way[], obstacles: readonly Box[]): Way[] {
  const out = ways.map((w) => ({ ...w }))
  const members = new Map<number, number[]>()
  out.forEach((w, i) => {
    const list = members.get(w.net)
    if (list) list.push(i)
    else members.set(w.net, [i])
  })
  const merged = new Map([...members].map(([net, list]) => [net, linesOf(list.map((i) => out[i]?.points ?? []))]))
  for (let pass = 0; pass < 3; pass++) {
    let changed = false
    out.forEach((way, w) => {
      for (let again = way.points.length > 5; again; ) {
        again = false
        for (const tried of stepsOut(way.points)) {
          if (obstacles.some((o) => tried.fresh.some((line) => hits(o, line)))) continue
          const own = (members.get(way.net) ?? []).map((i) => (i === w ? tried.points : (out[i]?.points ?? [])))
          const before = merged.get(way.net) ?? []
          const after = linesOf(own)
          if (joints(after).bends >= joints(before).bends) continue
          const others = [...merged].filter(([net]) => net !== way.net).map(([, lines]) => lines)
          if (others.some((lines) => lines.some((l) => tried.fresh.some((line) => crowds(l, line))))) continue
          if (crossingsOf(after, others) > crossingsOf(before, others)) continue
          way.points = tried.points
          merged.set(way.net, after)
          changed = true
          again = way.points.length > 5
          break
        }
      }
    })
    if (!changed) break
  }
  return out
}

function linesOf(ways: readonly (readonly Point[])[]): Line[] {
  return mergeLines(ways.flatMap((points) => points.slice(1).map((p, i) => between(points[i] ?? p, p))))
}

const between = (a: Point, b: Point): Line => ({
  x1: Math.min(a.x, b.x),
  y1: Math.min(a.y, b.y),
  x2: Math.max(a.x, b.x),
  y2: Math.max(a.y, b.y),
})

/** Every way to leave one step out, with the pieces that are new ground. */
function* stepsOut(points: readonly Point[]): Generator<{ points: Point[]; fresh: Line[] }> {
  for (let i = 1; i + 4 < points.length; i++) {
    const [a, b, c, d] = points.slice(i, i + 4) as [Point, Point, Point, Point]
    if (a.x !== b.x || b.y !== c.y || c.x !== d.x) continue
    const late = { x: c.x, y: a.y }
    yield { points: [...points.slice(0, i), late, ...points.slice(i + 3)], fresh: [between(a, late), between(late, d)] }
    const early = { x: a.x, y: d.y }
    yield {
      points: [...points.slice(0, i + 1), early, ...points.slice(i + 4)],
      fresh: [between(a, early), between(early, d)],
    }
  }
}

function hits(box: Box, l: Line): boolean {
  return overlap(box, { x: l.x1, y: l.y1, width: l.x2 - l.x1, height: l.y2 - l.y1 }, -1)
}

/** Runs beside another piece, too near it. */
function crowds(a: Line, b: Line): boolean {
  const level = a.y1 === a.y2
  if (level !== (b.y1 === b.y2)) return false
  return level
    ? Math.abs(a.y1 - b.y1) < apart && a.x1 < b.x2 && b.x1 < a.x2
    : Math.abs(a.x1 - b.x1) < apart && a.y1 < b.y2 && b.y1 < a.y2
}

function crossingsOf(lines: readonly Line[], others: readonly (readonly Line[])[]): number {
  return countCrossings([lines, ...others]) - countCrossings(others)
}
