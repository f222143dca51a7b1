import type { Point } from './plan.ts'

/** Straight and level or upright; ends in any order. */
export interface Line {
  readonly x1: number
  readonly y1: number
  readonly x2: number
  readonly y2: number
}

/** Half a pixel: ELK's numbers are sums of decimals. */
const near = 0.5

/**
 * The union of lines of one net: no piece lies on another, pieces meet only at their ends. Two edges that share a trunk
 * give the trunk once, else dashes would close and opacity double.
 */
export function mergeLines(lines: readonly Line[]): Line[] {
  const rounded = lines.map(tidy).filter((l) => l.x1 !== l.x2 || l.y1 !== l.y2)
  const level = union(rounded.filter((l) => l.y1 === l.y2).map((l) => ({ at: l.y1, from: l.x1, to: l.x2 })))
  const upright = union(rounded.filter((l) => l.y1 !== l.y2).map((l) => ({ at: l.x1, from: l.y1, to: l.y2 })))
  const pieces: Line[] = []
  for (const span of level) {
    const cuts = upright
      .filter((v) => v.at >= span.from && v.at <= span.to && v.from <= span.at && v.to >= span.at)
      .map((v) => v.at)
    for (const [from, to] of pairs(span, cuts)) pieces.push({ x1: from, y1: span.at, x2: to, y2: span.at })
  }
  for (const span of upright) {
    const cuts = level
      .filter((h) => h.at >= span.from && h.at <= span.to && h.from <= span.at && h.to >= span.at)
      .map((h) => h.at)
    for (const [from, to] of pairs(span, cuts)) pieces.push({ x1: span.at, y1: from, x2: span.at, y2: to })
  }
  return pieces
}

/** Ends to whole half pixels, in rising order. */
function tidy(l: Line): Line {
  const [x1, y1, x2, y2] = [l.x1, l.y1, l.x2, l.y2].map((v) => Math.round(v / near) * near) as [
    number,
    number,
    number,
    number,
  ]
  return { x1: Math.min(x1, x2), y1: Math.min(y1, y2), x2: Math.max(x1, x2), y2: Math.max(y1, y2) }
}

interface Span {
  readonly at: number
  readonly from: number
  readonly to: number
}

function union(spans: readonly Span[]): Span[] {
  const sorted = [...spans].sort((a, b) => a.at - b.at || a.from - b.from || a.to - b.to)
  const out: Span[] = []
  for (const span of sorted) {
    const last = out.at(-1)
    if (last && last.at === span.at && span.from <= last.to) {
      out[out.length - 1] = { at: last.at, from: last.from, to: Math.max(last.to, span.to) }
    } else out.push(span)
  }
  return out
}

function pairs(span: Span, cuts: readonly number[]): [number, number][] {
  const stops = [...new Set([span.from, ...cuts, span.to])].sort((a, b) => a - b)
  return stops.slice(1).map((to, i) => [stops[i] ?? to, to])
}

export const key = (p: Point): string => `${p.x},${p.y}`
export const endsOf = (l: Line): [Point, Point] => [
  { x: l.x1, y: l.y1 },
  { x: l.x2, y: l.y2 },
]

/** How the pieces of one net meet: dots where three or more do, bends where two do at a corner. */
export function joints(pieces: readonly Line[]): { readonly dots: Point[]; readonly bends: number } {
  const meet = new Map<string, { at: Point; level: number; upright: number }>()
  for (const piece of pieces) {
    for (const at of endsOf(piece)) {
      const found = meet.get(key(at)) ?? { at, level: 0, upright: 0 }
      if (piece.y1 === piece.y2) found.level++
      else found.upright++
      meet.set(key(at), found)
    }
  }
  const all = [...meet.values()]
  return {
    dots: all.filter((m) => m.level + m.upright > 2).map((m) => m.at),
    bends: all.filter((m) => m.level === 1 && m.upright === 1).length,
  }
}

/** Places where a piece of one net crosses or touches a piece of another. */
export function countCrossings(nets: readonly (readonly Line[])[]): number {
  const level: (Line & { net: number })[] = []
  const upright: (Line & { net: number })[] = []
  nets.forEach((pieces, net) => {
    for (const piece of pieces) (piece.y1 === piece.y2 ? level : upright).push({ ...piece, net })
  })
  const places = new Set<string>()
  const note = (a: number, b: number, x: number, y: number) =>
    places.add(`${Math.min(a, b)} ${Math.max(a, b)} ${x} ${y}`)
  upright.sort((a, b) => a.x1 - b.x1)
  for (const h of level) {
    for (let i = lowest(upright, h.x1); i < upright.length; i++) {
      const v = upright[i]
      if (!v || v.x1 > h.x2) break
      if (v.net !== h.net && v.y1 <= h.y1 && v.y2 >= h.y1) note(v.net, h.net, v.x1, h.y1)
    }
  }
  // Pieces of two nets on one line: counted once a pair, where they begin to share.
  const along = (group: (Line & { net: number })[], span: (l: Line) => Span) => {
    const sorted = [...group].sort((a, b) => span(a).at - span(b).at || span(a).from - span(b).from)
    for (let i = 0; i < sorted.length; i++) {
      for (let j = i + 1; j < sorted.length; j++) {
        const a = sorted[i]
        const b = sorted[j]
        if (!a || !b || span(a).at !== span(b).at || span(b).from > span(a).to) break
        if (a.net !== b.net) note(a.net, b.net, b.x1, b.y1)
      }
    }
  }
  along(level, (l) => ({ at: l.y1, from: l.x1, to: l.x2 }))
  along(upright, (l) => ({ at: l.x1, from: l.y1, to: l.y2 }))
  return places.size
}

function lowest(sorted: readonly Line[], x: number): number {
  let low = 0
  let high = sorted.length
  while (low < high) {
    const mid = (low + high) >> 1
    if ((sorted[mid]?.x1 ?? x) < x) low = mid + 1
    else high = mid
  }
  return low
}
