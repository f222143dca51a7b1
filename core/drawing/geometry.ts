import type { Box, Lettering, Plan, Point } from './plan.ts'
import type { Line } from './segments.ts'
import { textWidth } from './text-width.ts'

/** Room taken by lettering of `size` px. */
export function letterBox(l: Lettering, size: number, weight: 400 | 600 | 700 | 800): Box {
  const width = textWidth(l.text, size, weight)
  const x = l.anchor === 'start' ? l.x : l.anchor === 'end' ? l.x - width : l.x - width / 2
  return { x, y: l.y - size * 0.78, width, height: size }
}

export function overlap(a: Box, b: Box, gap = 0): boolean {
  return (
    a.x < b.x + b.width + gap && b.x < a.x + a.width + gap && a.y < b.y + b.height + gap && b.y < a.y + a.height + gap
  )
}

/** Where nothing else stands yet. */
export class Taken {
  private readonly boxes: Box[] = []
  add(box: Box): void {
    this.boxes.push(box)
  }
  free(box: Box, gap = 1): boolean {
    return !this.boxes.some((b) => overlap(b, box, gap))
  }
}

export function lineBox(s: Line, thick = 3): Box {
  return { x: s.x1 - thick, y: s.y1 - thick, width: s.x2 - s.x1 + 2 * thick, height: s.y2 - s.y1 + 2 * thick }
}

/** Every place of the plan moved; boxes and lettering go with the point they belong to. */
export function move(plan: Plan, mx: (x: number) => number, my: (y: number) => number): Plan {
  const point = <T extends Point>(p: T): T => ({ ...p, x: mx(p.x), y: my(p.y) })
  const by = <T extends Point>(p: T, dx: number, dy: number): T => ({ ...p, x: p.x + dx, y: p.y + dy })
  const heights = new Map(plan.elements.map((e) => [e.id, my(e.y)]))
  return {
    ...plan,
    elements: plan.elements.map((e) => {
      const dx = mx(e.x) - e.x
      const dy = my(e.y) - e.y
      return {
        ...by(e, dx, dy),
        box: by(e.box, dx, dy),
        name: by(e.name, dx, dy),
        lines: e.lines.map((l) => by(l, dx, dy)),
        // The hinge of the other throw stands on the first throw's line.
        ends: [point(e.ends[0]), point(e.ends[1])],
        tags: [by(e.tags[0], dx, dy), by(e.tags[1], dx, dy)],
        ...(e.other && { other: { ...e.other, drop: (heights.get(e.other.id) ?? 0) - my(e.y) } }),
        ...(e.loop && { loop: { ...e.loop, says: by(e.loop.says, dx, dy) } }),
      }
    }),
    rails: plan.rails.map((r) => ({
      ...r,
      x: mx(r.x),
      y1: my(r.y1 + 26) - 26,
      y2: my(r.y2 - 26) + 26,
      label: { ...r.label, x: mx(r.x), y: my(r.y1 + 26) - 38 },
    })),
    nets: plan.nets.map((n) => ({
      ...n,
      segments: n.segments.map((s) => ({ ...s, x1: mx(s.x1), y1: my(s.y1), x2: mx(s.x2), y2: my(s.y2) })),
      dots: n.dots.map(point),
      joints: n.joints.map((j) => ({
        ...point(j),
        ...(j.label && { label: by(j.label, mx(j.x) - j.x, my(j.y) - j.y) }),
      })),
    })),
    frames: plan.frames.map((f) => ({
      ...f,
      outline: f.outline.map(point),
      ...(f.title && { title: by(f.title, mx(f.title.x) - f.title.x, my(f.title.y) - f.title.y) }),
    })),
    swatches: plan.swatches.map(point),
    codes: plan.codes.map((c) => ({ ...c, x: mx(c.x), y: my(c.y - 18) + 18 })),
    loose: plan.loose.map((l) => {
      const dx = mx(l.x1) - l.x1
      const dy = my(l.y) - l.y
      return {
        ...l,
        x1: l.x1 + dx,
        x2: l.x2 + dx,
        y: l.y + dy,
        from: by(l.from, dx, dy),
        to: by(l.to, dx, dy),
        ...(l.swatch && { swatch: by(l.swatch, dx, dy) }),
        ...(l.code && { code: by(l.code, dx, dy) }),
      }
    }),
  }
}
