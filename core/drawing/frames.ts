import type { Circuit } from '../circuit/model.ts'
import { letterBox, lineBox, move, overlap, Taken } from './geometry.ts'
import { nameSize, noteSize, tagSize } from './measure.ts'
import type { Box, Frame, Lettering, PlacedElement, Plan, Point } from './plan.ts'
import { textWidth } from './text-width.ts'

/** Room that the row below a title is moved down by, px. */
const titleRoom = 20

/**
 * Frames around neighbouring elements of one part, where nothing foreign stands between them, and room for their titles.
 * Only corners are drawn, so a wire may pass through.
 */
export function framesOf(circuit: Circuit, plan: Plan): Plan {
  let at = plan
  const framed: { part: string; members: readonly string[][] }[] = []
  for (const part of circuit.parts.values()) {
    const own = plan.elements.filter((e) => part.elements.includes(e.id) && !e.loop)
    // The throws of one changeover are seen to belong together without a frame.
    if (own.every((e) => e.other !== undefined || e.throwOf !== undefined) && own.length < 3) continue
    for (const rows of stacks(plan, own)) framed.push({ part: part.name, members: rows.map((r) => r.map((e) => e.id)) })
  }
  const build = (p: Plan): Frame[] =>
    framed.map(({ part, members }) => ({
      part,
      outline: outlineOf(members.map((row) => around(p.elements.filter((e) => row.includes(e.id))))),
    }))
  const frames: Frame[] = build(at)
  const done: (Lettering | undefined)[] = []
  for (let i = 0; i < frames.length; i++) {
    const part = circuit.parts.get(frames[i]?.part ?? '')
    const text = [part?.name, part?.label].filter(Boolean).join('  ')
    const place = (p: Plan): Lettering | undefined => {
      const all = build(p)
      const frame = all[i]
      const others = done.flatMap((title) => (title ? [title] : []))
      return frame && titleFor(p, frame, text, others)
    }
    let title = place(at)
    if (!title) {
      const frame = build(at)[i]
      if (frame) {
        const cut = topOf(frame).y
        const shifted = move(
          at,
          (x) => x,
          (y) => (y > cut ? y + titleRoom : y),
        )
        title = place(shifted)
        if (title) {
          at = shifted
          for (let j = 0; j < done.length; j++) {
            const t = done[j]
            if (t && t.y > cut) done[j] = { ...t, y: t.y + titleRoom }
          }
        }
      }
    }
    done.push(title)
  }
  return { ...at, frames: build(at).map((f, i) => ({ ...f, ...(done[i] && { title: done[i] }) })) }
}

/** Runs of neighbours in a row, stacked where one stands below another: each becomes a step of one outline. */
function stacks(plan: Plan, own: readonly PlacedElement[]): PlacedElement[][][] {
  const foreign = [
    ...plan.elements.filter((e) => !own.includes(e)).map((e) => around([e])),
    ...plan.rails.map((r) => ({ x: r.x - 4, y: r.y1, width: 8, height: r.y2 - r.y1 })),
  ]
  const clear = (box: Box) => !foreign.some((f) => overlap(box, f, -2))
  const runs: PlacedElement[][] = []
  for (const e of [...own].sort((a, b) => a.y - b.y || a.x - b.x)) {
    const last = runs.at(-1)
    if (last && last[0]?.y === e.y && clear(around([...last, e]))) last.push(e)
    else runs.push([e])
  }
  const out: PlacedElement[][][] = []
  const taken = new Set<PlacedElement[]>()
  for (const run of runs) {
    if (taken.has(run)) continue
    taken.add(run)
    const stack = [run]
    for (let above = run; ; ) {
      const top = around(above)
      const next = runs.find((r) => !taken.has(r) && below(top, around(r)) && clear(bridge(top, around(r))))
      if (!next) break
      taken.add(next)
      stack.push(next)
      above = next
    }
    if (stack.flat().length > 1) out.push(stack)
  }
  return out
}

/** One stands right below the other, and shares enough of its width. */
function below(a: Box, b: Box): boolean {
  const shared = Math.min(a.x + a.width, b.x + b.width) - Math.max(a.x, b.x)
  const gap = b.y - a.y - a.height
  return gap > -10 && gap < 70 && shared > 60
}

/** What lies between two rows of one outline. */
function bridge(a: Box, b: Box): Box {
  const x = Math.min(a.x, b.x)
  const y = a.y + a.height
  return { x, y, width: Math.max(a.x + a.width, b.x + b.width) - x, height: Math.max(0, b.y - y) }
}

/** Boxes of rows, from the top down, as one outline with steps, clockwise from its top left. */
function outlineOf(rows: readonly Box[]): Point[] {
  const right: Point[] = []
  const left: Point[] = []
  rows.forEach((row, i) => {
    const before = rows[i - 1]
    const after = rows[i + 1]
    const y1 = before ? (before.y + before.height + row.y) / 2 : row.y
    const y2 = after ? (row.y + row.height + after.y) / 2 : row.y + row.height
    right.push({ x: row.x + row.width, y: y1 }, { x: row.x + row.width, y: y2 })
    left.push({ x: row.x, y: y1 }, { x: row.x, y: y2 })
  })
  return [...right, ...left.reverse()]
}

function around(group: readonly PlacedElement[]): Box {
  const boxes = group.map((e) => {
    const wide = Math.max(54, ...[e.name, ...e.lines].map((l) => textWidth(l.text, nameSize, 700) / 2 + 4))
    return e.throwOf === undefined
      ? {
          x: Math.max(e.box.x, e.x - wide),
          y: e.name.y - 17,
          r: Math.min(e.box.x + e.box.width, e.x + wide),
          b: e.y + 36,
        }
      : { x: e.box.x, y: e.name.y - 14, r: e.box.x + e.box.width, b: e.y + 20 }
  })
  const x = Math.min(...boxes.map((b) => b.x))
  const y = Math.min(...boxes.map((b) => b.y))
  return { x, y, width: Math.max(...boxes.map((b) => b.r)) - x, height: Math.max(...boxes.map((b) => b.b)) - y }
}

/** The upper edge of a frame. */
function topOf(frame: Frame): Box {
  const last = frame.outline.at(-1)
  const first = frame.outline[0]
  if (!last || !first) throw new Error(`the frame of ${frame.part} has no outline`)
  return { x: last.x, y: last.y, width: first.x - last.x, height: 0 }
}

function titleFor(plan: Plan, frame: Frame, text: string, others: readonly Lettering[]): Lettering | undefined {
  const taken = new Taken()
  for (const e of plan.elements) {
    taken.add({ x: e.x - 36, y: e.y - 24, width: 72, height: 74 })
    taken.add(letterBox(e.name, nameSize, 700))
    for (const l of e.lines) taken.add(letterBox(l, noteSize, 400))
    // A reason or a flag may stand there.
    taken.add({ x: e.x - e.room, y: e.y - 46, width: 2 * e.room, height: 20 })
  }
  for (const n of plan.nets) for (const s of n.segments) taken.add(lineBox(s, 3))
  for (const r of plan.rails) {
    taken.add({ x: r.x - 4, y: r.y1, width: 8, height: r.y2 - r.y1 })
    taken.add(letterBox(r.label, 20, 800))
  }
  for (const c of plan.codes) taken.add(letterBox(c, tagSize, 600))
  for (const o of others) taken.add(letterBox(o, noteSize, 600))
  const box = topOf(frame)
  const right = box.x + box.width
  const tries: Lettering[] = [
    { text, x: box.x + 2, y: box.y - 7, anchor: 'start' },
    { text, x: right - 2, y: box.y - 7, anchor: 'end' },
    { text, x: box.x + box.width / 2, y: box.y - 7, anchor: 'middle' },
  ]
  return tries.find((t) => taken.free(letterBox(t, noteSize, 600), 2))
}
