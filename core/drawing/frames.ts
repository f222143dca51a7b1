import type { Circuit } from '../circuit/model.ts'
import { letterBox, lineBox, move, overlap, Taken } from './geometry.ts'
import { nameSize, noteSize, tagSize } from './measure.ts'
import type { Box, Frame, Lettering, PlacedElement, Plan } from './plan.ts'
import { textWidth } from './text-width.ts'

/** Room that the row below a title is moved down by, px. */
const titleRoom = 20

/**
 * Frames around neighbouring elements of one part, where nothing foreign stands between them, and room for their titles.
 * Only corners are drawn, so a wire may pass through.
 */
export function framesOf(circuit: Circuit, plan: Plan): Plan {
  let at = plan
  const framed: { part: string; members: readonly string[] }[] = []
  for (const part of circuit.parts.values()) {
    for (const members of clusters(
      plan,
      plan.elements.filter((e) => part.elements.includes(e.id) && !e.loop),
    )) {
      framed.push({ part: part.name, members: members.map((m) => m.id) })
    }
  }
  const build = (p: Plan): Frame[] =>
    framed.map(({ part, members }) => ({ part, box: around(p.elements.filter((e) => members.includes(e.id))) }))
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
        const cut = frame.box.y
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

/** Groups of two or more whose common box holds nothing foreign; grown from neighbours. */
function clusters(plan: Plan, own: readonly PlacedElement[]): PlacedElement[][] {
  const foreign = plan.elements.filter((e) => !own.includes(e)).map((e) => e.box)
  const rails = plan.rails.map((r) => ({ x: r.x - 4, y: r.y1, width: 8, height: r.y2 - r.y1 }))
  const clear = (group: readonly PlacedElement[]) => {
    const box = around(group)
    return ![...foreign, ...rails].some((f) => overlap(box, f, -2))
  }
  let groups = own.map((e) => [e])
  for (let joined = true; joined; ) {
    joined = false
    outer: for (const a of groups) {
      for (const b of groups) {
        if (a === b || !neighbours(around(a), around(b)) || !clear([...a, ...b])) continue
        groups = [...groups.filter((g) => g !== a && g !== b), [...a, ...b]]
        joined = true
        break outer
      }
    }
  }
  return groups.filter((g) => g.length > 1)
}

/** Close enough that a frame round both says something. */
function neighbours(a: Box, b: Box): boolean {
  const dx = Math.max(0, Math.max(a.x, b.x) - Math.min(a.x + a.width, b.x + b.width))
  const dy = Math.max(0, Math.max(a.y, b.y) - Math.min(a.y + a.height, b.y + b.height))
  return dx < 80 && dy < 60
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
  const { box } = frame
  const right = box.x + box.width
  const tries: Lettering[] = [
    { text, x: box.x + 2, y: box.y - 7, anchor: 'start' },
    { text, x: right - 2, y: box.y - 7, anchor: 'end' },
    { text, x: box.x + box.width / 2, y: box.y - 7, anchor: 'middle' },
  ]
  return tries.find((t) => taken.free(letterBox(t, noteSize, 600), 2))
}
