import type { ElementId, TerminalId } from '../circuit/model.ts'
import type { Frame, LoadTrace } from '../strings/trace.ts'
import { letterBox, overlap } from './geometry.ts'
import { at, button, circle, esc, line, num, path, rect, text } from './ink.ts'
import { legendOf } from './legend.ts'
import {
  anyOf,
  cleared,
  collar,
  dimension,
  flag,
  flagWidth,
  found,
  hatch,
  nextWash,
  pennant,
  probe,
  type Reading,
  seat,
  shelf,
  type Verdict,
  verdictWords,
} from './marks.ts'
import { half, nameSize, noteSize, tagSize } from './measure.ts'
import type { Box, LooseWire, PlacedElement, Plan, PlannedNet, Point, Segment } from './plan.ts'
import { drawingCss, ownTokens, type Theme } from './style.ts'
import {
  type BladeState,
  changeover,
  chassisSymbol,
  type LeadState,
  type SymbolSet,
  splice,
  swatch,
  symbol,
} from './symbols.ts'
import { fitText, textWidth } from './text-width.ts'

export interface View {
  /** Without a frame contacts are drawn as they rest, and all wires alike. */
  readonly frame?: Frame
  /** The load whose string is lifted and marked. */
  readonly trace?: LoadTrace
  /** An element or a wire. */
  readonly selected?: ElementId
  /** What readings say of elements and wires. */
  readonly verdicts?: ReadonlyMap<ElementId, Verdict>
  /** Readings across one element. */
  readonly readings?: ReadonlyMap<ElementId, Reading>
  /** Where the probes of the next test go: the parked one, the moving one. */
  readonly next?: readonly [TerminalId, TerminalId]
  /** A file of its own: carries its styles, and nothing in it can be pressed. */
  readonly standalone?: boolean
  /** Explain the weights and marks that are on the sheet. */
  readonly legend?: boolean
  /** Of a standalone sheet; `light` unless said. `print` is black on white: letters alone tell colours. */
  readonly theme?: Theme
  /** `@font-face` rules that a standalone sheet carries, so that its lettering survives. */
  readonly fontFaces?: string
  /** Whose shapes symbols have; `iec` unless said. */
  readonly symbols?: SymbolSet
}

/** The sheet as SVG. Marks are drawn into room that the plan has kept, so no view moves anything. */
export function renderSvg(plan: Plan, view: View): string {
  const marks = marksOf(plan, view)
  const states = new Map(plan.nets.map((net) => [net, net.segments.map((s) => stateOf(net, s, plan, view.frame))]))
  const legend = view.legend
    ? legendOf(plan, marks, [...states.values()].flat(), view)
    : { svg: '', width: 0, height: 0 }
  const width = Math.max(plan.size.width, legend.width)
  const height = plan.size.height + legend.height
  const leads = leadStates(plan, states)
  const pressable = !view.standalone
  const body = [
    lifted(plan, view),
    plan.frames
      .map(
        (f) =>
          corners(f.outline) + (f.title ? text(f.title.x, f.title.y, f.title.text, 'frametitle', f.title.anchor) : ''),
      )
      .join(''),
    plan.nets.map((net) => drawNet(net, states.get(net) ?? [])).join(''),
    plan.rails
      .map((r) => line(r.x, r.y1, r.x, r.y2, 'wire rail') + text(r.label.x, r.label.y, r.name, 'railname'))
      .join(''),
    plan.swatches.map((s) => swatch(s.x, s.y, s.colour)).join(''),
    plan.codes.map((c) => text(c.x, c.y, c.text, 'code', c.anchor)).join(''),
    plan.loose.map(looseWire).join(''),
    pressable ? wireStops(plan, view) : '',
    plan.elements.map((e) => drawElement(plan, e, view, marks, leads)).join(''),
    marks.groups.map((g) => anyOf(g.x1, g.y1, g.x2, g.y2)).join(''),
    wireVerdicts(plan, view),
    nextTest(plan, view.next),
    at(0, plan.size.height, legend.svg),
  ].join('\n')
  const style = view.standalone
    ? `<style>${view.fontFaces ?? ''}${ownTokens(view.theme ?? 'light')}${drawingCss}</style>`
    : ''
  const paper = view.standalone ? rect(0, 0, width, height, 'sheetfill') : ''
  return `<svg xmlns="http://www.w3.org/2000/svg" class="sheet drawing" width="${num(width)}" height="${num(height)}" viewBox="0 0 ${num(width)} ${num(height)}" role="${pressable ? 'group' : 'img'}" aria-label="${esc(inWords(plan, view))}">${style}${paper}
${body}
</svg>
`
}

/** The drawing in a sentence. */
function inWords(plan: Plan, view: View): string {
  const name = (id: ElementId) => plan.elements.find((e) => e.id === id)?.name.text ?? id
  if (!view.trace) return `Drawing of the circuit: ${plan.elements.length} elements.`
  const row = view.trace.order.map((place) => place.map(name).join(' or ')).join(', ')
  return `Drawing of the circuit. The string of ${name(view.trace.load)} is lifted: ${row}.`
}

export interface Marks {
  readonly mustBeClosed: ReadonlySet<ElementId>
  /** Elements of an any-of group whose members stand apart: a dotted collar each. */
  readonly anyOfAlone: ReadonlySet<ElementId>
  readonly groups: readonly { readonly x1: number; readonly y1: number; readonly x2: number; readonly y2: number }[]
  /** Words on the flag of an element. */
  readonly flags: ReadonlyMap<ElementId, string>
  /** Why an element is held open. */
  readonly reasons: ReadonlyMap<ElementId, string>
  readonly load?: ElementId
}

function marksOf(plan: Plan, view: View): Marks {
  const { trace, frame } = view
  const alone = new Set<ElementId>()
  const groups: { x1: number; y1: number; x2: number; y2: number }[] = []
  for (const group of trace?.anyOf ?? []) {
    const members = plan.elements.filter((e) => group.includes(e.id))
    const x1 = Math.min(...members.map((m) => m.box.x)) - 4
    const x2 = Math.max(...members.map((m) => m.box.x + m.box.width)) + 4
    const y1 = Math.min(...members.map((m) => m.y)) - 26
    const y2 = Math.max(...members.map((m) => m.y)) + 26
    const stacked =
      members.length > 1 &&
      members.every((m) => Math.abs(m.x - (members[0]?.x ?? 0)) < 8 && m.throwOf === undefined && !m.other)
    const foreign = plan.elements.some(
      (e) => !group.includes(e.id) && e.x + 40 > x1 && e.x - 40 < x2 && e.y + 24 > y1 && e.y - 62 < y2,
    )
    if (stacked && !foreign && clearOutline(plan, { x1, y1, x2, y2 })) groups.push({ x1, y1, x2, y2 })
    else for (const m of members) alone.add(m.id)
  }
  const needed = new Set([
    ...(trace?.mustBeClosed ?? []),
    ...(trace?.mustBeOpen ?? []),
    ...(trace?.anyOf ?? []).flat(),
    ...(trace?.order ?? []).flat(),
  ])
  const flags = new Map<ElementId, string>()
  for (const e of plan.elements) {
    const waits = e.waitsFor.find((w) => trace?.enablers.includes(w.load))
    if (waits && needed.has(e.id) && e.id !== trace?.load) flags.set(e.id, waits.name)
  }
  const reasons = new Map(frame?.why ?? [])
  for (const held of trace?.heldOpen ?? []) reasons.set(held.element, held.reason)
  for (const id of [...reasons.keys()]) if (frame?.conducts.has(id)) reasons.delete(id)
  // A changeover shows by its blade why the throw it has left is open.
  for (const e of plan.elements) {
    const partner = e.other?.id ?? e.throwOf
    const asked = trace?.heldOpen.some((h) => h.element === e.id)
    if (partner !== undefined && frame?.conducts.has(partner) && !asked) reasons.delete(e.id)
  }
  return {
    mustBeClosed: new Set(trace && !trace.on ? wouldBe(plan, trace, frame) : (trace?.mustBeClosed ?? [])),
    anyOfAlone: alone,
    groups,
    flags,
    reasons,
    ...(trace && { load: trace.load }),
  }
}

/** No lettering stands on the edge of a rectangle. */
function clearOutline(plan: Plan, r: { x1: number; y1: number; x2: number; y2: number }): boolean {
  const letters = [
    ...plan.elements.flatMap((e) => [
      letterBox(e.name, nameSize, 700),
      ...e.lines.map((l) => letterBox(l, noteSize, 600)),
      ...e.tags.map((t) => letterBox(t, tagSize, 600)),
    ]),
    ...plan.codes.map((c) => letterBox(c, tagSize, 600)),
    ...plan.frames.flatMap((f) => (f.title ? [letterBox(f.title, noteSize, 600)] : [])),
    ...plan.nets.flatMap((n) => n.joints.flatMap((j) => (j.label ? [letterBox(j.label, tagSize, 600)] : []))),
  ]
  const outer = { x: r.x1 - 2, y: r.y1 - 2, width: r.x2 - r.x1 + 4, height: r.y2 - r.y1 + 4 }
  const within = (b: Box) => b.x > r.x1 + 2 && b.y > r.y1 + 2 && b.x + b.width < r.x2 - 2 && b.y + b.height < r.y2 - 2
  return letters.every((b) => !overlap(b, outer) || within(b))
}

/** What would have to be closed for a load that is off: the contacts and links of its string that are not held open. */
function wouldBe(plan: Plan, trace: LoadTrace, frame: Frame | undefined): ElementId[] {
  const held = new Set(trace.heldOpen.map((h) => h.element))
  const own = new Set(trace.order.flat())
  return plan.elements
    .filter((e) => own.has(e.id) && e.id !== trace.load && e.switches && !held.has(e.id) && frame?.conducts.has(e.id))
    .map((e) => e.id)
}

export type WireState = LeadState | 'plain'

/** How a piece of a net stands. It carries current only if something on both its sides does. */
function stateOf(net: PlannedNet, s: Segment, plan: Plan, frame: Frame | undefined): WireState {
  if (!frame) return 'plain'
  const carries = (side: readonly string[]) =>
    side.some((name) => name.startsWith('rail:') || frame.feed.get(name) === 'live')
  // Between two elements of one part no wire runs; there the two sides alone tell.
  const wired = s.wires.length === 0 || s.wires.some((w) => frame.feed.get(w) === 'live')
  if (wired && (s.sides ? s.sides.every(carries) : s.wires.length > 0)) return 'live'
  // What else is joined here and carries nothing is at one potential with this piece.
  const still = (ids: readonly string[]) =>
    ids.flatMap((id) => {
      const feed = frame.feed.get(id)
      return frame.conducts.has(id) && feed !== undefined && feed !== 'live' ? [feed] : []
    })
  const ends = s.sides?.flat() ?? []
  const known = [still(s.wires), still(net.wires), still(ends)].find((feeds) => feeds.length > 0)
  if (known) return known.includes('fed') ? 'fed' : known.includes('grounded') ? 'grounded' : 'dead'
  const rail = net.segments.flatMap((other) => other.sides?.flat() ?? []).find((name) => name.startsWith('rail:'))
  if (rail !== undefined) return isReturn(plan, rail) ? 'dead' : 'fed'
  // Only open elements beside it, or ones that carry current.
  return ends.some((id) => frame.feed.get(id) === 'fed' || frame.feed.get(id) === 'live') ? 'fed' : 'dead'
}

function isReturn(plan: Plan, rail: string): boolean {
  return plan.rails.some((r) => `rail:${r.name}` === rail && r.returns)
}

function drawNet(net: PlannedNet, states: readonly WireState[]): string {
  const ink = net.segments.map((s, i) => wirePiece(s, states[i] ?? 'plain')).join('')
  // Corners of heavy lines are closed with a dot as wide as the line.
  const dots = net.dots.map((d) => circle(d.x, d.y, 4.5, 'fill')).join('')
  const bends = cornersOf(net, states)
    .map(({ at: p, width }) => rect(p.x - width / 2, p.y - width / 2, width, width, 'fill'))
    .join('')
  const places = net.joints
    .map(
      (j) =>
        (j.splice ? splice(j.x, j.y) : circle(j.x, j.y, 4, 's paper')) +
        (j.label ? text(j.label.x, j.label.y, j.label.text, 'tag', j.label.anchor) : ''),
    )
    .join('')
  return ink + bends + dots + places
}

function wirePiece(s: Segment, state: WireState): string {
  const own = line(s.x1, s.y1, s.x2, s.y2, `wire ${state}`)
  return state === 'grounded' ? own + ticks(s) : own
}

/** The hatching of a grounded piece. */
function ticks(s: Segment): string {
  let d = ''
  const length = s.x2 - s.x1 + s.y2 - s.y1
  for (let along = 8; along < length - 4; along += 10) {
    const x = s.y1 === s.y2 ? s.x1 + along : s.x1
    const y = s.y1 === s.y2 ? s.y1 : s.y1 + along
    d += `M${num(x - 3)} ${num(y + 4)}l6 -8`
  }
  return d === '' ? '' : path(d, 'wire gtick')
}

const widths: Readonly<Record<WireState, number>> = { live: 4, fed: 2, plain: 2, dead: 0, grounded: 1.25 }

function cornersOf(net: PlannedNet, states: readonly WireState[]): { at: Point; width: number }[] {
  const found = new Map<string, { at: Point; width: number; level: boolean; upright: boolean }>()
  net.segments.forEach((s, i) => {
    for (const p of [
      { x: s.x1, y: s.y1 },
      { x: s.x2, y: s.y2 },
    ]) {
      const key = `${p.x},${p.y}`
      const was = found.get(key)
      const level = s.y1 === s.y2
      const width = widths[states[i] ?? 'plain']
      found.set(key, {
        at: p,
        width: Math.max(width, was?.width ?? 0),
        level: level || !!was?.level,
        upright: !level || !!was?.upright,
      })
    }
  })
  return [...found.values()].filter((f) => f.level && f.upright && f.width > 0)
}

/** The state of the piece that meets a point, which a symbol's lead continues. */
function leadStates(
  plan: Plan,
  states: ReadonlyMap<PlannedNet, readonly WireState[]>,
): (p: Point) => WireState | undefined {
  const found = new Map<string, WireState>()
  for (const net of plan.nets) {
    net.segments.forEach((s, i) => {
      const state = states.get(net)?.[i] ?? 'plain'
      for (const key of [`${s.x1},${s.y1}`, `${s.x2},${s.y2}`])
        if (widths[state] >= widths[found.get(key) ?? 'dead']) found.set(key, state)
    })
  }
  return (p) => found.get(`${p.x},${p.y}`)
}

function drawElement(
  plan: Plan,
  e: PlacedElement,
  view: View,
  marks: Marks,
  leads: (p: Point) => WireState | undefined,
): string {
  const { frame } = view
  const closed = (p: PlacedElement) =>
    frame ? frame.conducts.has(p.id) : p.figure.kind !== 'contact' || p.figure.rest === 'closed'
  const reason = marks.reasons.get(e.id)
  const lead = (p: Point): LeadState => {
    const state = leads(p) ?? (frame ? frame.feed.get(e.id) : undefined) ?? 'fed'
    return state === 'plain' ? 'fed' : state
  }
  const [west, east] = e.flipped ? [e.ends[1], e.ends[0]] : [e.ends[0], e.ends[1]]
  const blade: BladeState = closed(e) ? 'closed' : reason === undefined ? 'open' : 'wide'
  let ink = ''
  let tip = { x: e.x + 10, y: e.y - 22 }
  if (e.throwOf === undefined) {
    if (e.other) {
      const other = plan.elements.find((o) => o.id === e.other?.id)
      const to = closed(e) ? 'first' : other && closed(other) ? 'other' : 'neither'
      const drawn = changeover(
        e.figure,
        to,
        e.other.drop,
        {
          hinge: lead(e.ends[0]),
          first: lead(e.ends[1]),
          other: lead(other?.ends[1] ?? e.ends[1]),
        },
        view.symbols,
      )
      ink = at(e.x, e.y, drawn, e.flipped ? ' scale(-1 1)' : '')
      tip = { x: e.x, y: e.y - 8 }
    } else {
      ink = at(
        e.x,
        e.y,
        symbol(e.figure, {
          blade,
          left: lead(west),
          right: lead(east),
          mirrored: e.flipped && e.figure.kind === 'body',
          on: frame?.on.has(e.id) === true,
          ...(view.symbols && { set: view.symbols }),
        }) + (closed(e) || e.figure.kind === 'contact' ? '' : broken()),
      )
      if (e.figure.kind !== 'contact') tip = { x: e.x + 27, y: e.y - 8 }
    }
  } else tip = { x: e.x + (e.flipped ? -14 : 14), y: e.y - 4 }
  if (e.loop)
    ink +=
      path(
        `M${num(e.x - half)} ${num(e.y)}h-8v${e.loop.depth}H${num(e.x + half + 8)}v${-e.loop.depth}h-8`,
        'wire fed',
      ) + text(e.loop.says.x, e.loop.says.y, e.loop.says.text, 'note')
  const words = wordsAbove(e, marks, reason, tip)
  const ring = marksAround(plan, e, marks, view.verdicts?.get(e.id)?.kind === 'found')
  const tags = e.tags
    .map((t, i) => `<g data-terminal="${esc(e.terminals[i] ?? '')}">${text(t.x, t.y, t.text, 'tag', t.anchor)}</g>`)
    .join('')
  const chosen = view.selected === e.id
  const { box } = e
  const verdict = view.verdicts?.get(e.id)
  const reading = view.readings?.get(e.id)
  const doubt =
    (verdict ? verdictInk(verdict, e.x, e.y) : '') +
    (reading ? dimension(e.x - 38, e.x + 38, e.y + 8, e.y + 36, reading) : '')
  const inner =
    (chosen ? rect(box.x + 2, box.y + 1, box.width - 4, box.height - 2, 'selection', 4) : '') +
    ring +
    ink +
    words +
    tags +
    doubt
  if (view.standalone) return `<g data-element="${esc(e.id)}">${inner}</g>\n`
  const area = rect(box.x, box.y, box.width, box.height, 'hit', 4)
  return `${button('element', area, `data-element="${esc(e.id)}"`, spoken(e, view, marks, closed(e)), chosen, inner)}\n`
}

/** A body that should carry current and cannot: its right lead is parted. */
function broken(): string {
  return rect(23, -5, 7, 10, 'sheetfill') + path('M21 5l4 -10M28 5l4 -10', 'thin')
}

/** Name and note; a reason or a flag stands in the place of the last note line. */
function wordsAbove(e: PlacedElement, marks: Marks, reason: string | undefined, gap: Point): string {
  const name = text(e.name.x, e.name.y, e.name.text, 'name', e.name.anchor)
  const waits = marks.flags.get(e.id)
  const notes = reason !== undefined || waits !== undefined ? e.lines.slice(0, -1) : e.lines
  const note = notes.map((l) => text(l.x, l.y, l.text, 'note', l.anchor)).join('')
  // At the other throw of a changeover words stand beside the upright lead, not above the symbol.
  const beside = e.throwOf === undefined ? undefined : e.name
  if (reason !== undefined) {
    const words = fitText(reason, 2 * e.room, 13, 600)
    if (!beside) return name + note + shelf(e.x, e.y - 29, words, gap)
    const half = textWidth(words, 13, 600) / 2 + 3
    return name + note + shelf(beside.x + (beside.anchor === 'end' ? -half : half), e.y - 3, words, undefined)
  }
  if (waits === undefined) return name + note
  const words = fitText(waits, 2 * e.room - 24, 13, 700)
  const width = flagWidth(words)
  if (!beside) return name + note + flag(e.x + Math.max(-width / 2, -20), e.y - 44, e.y - 20, words)
  return name + note + flag(beside.x + (beside.anchor === 'end' ? -width : 0), e.y - 20, e.y - 2, words)
}

function marksAround(plan: Plan, e: PlacedElement, marks: Marks, isFound: boolean): string {
  // Both throws of a changeover wear their collar round the one blade.
  const host = e.throwOf === undefined ? e : plan.elements.find((o) => o.id === e.throwOf)
  if (!host) return ''
  const tall = host.other !== undefined
  const y = tall ? host.y + 8 : host.y
  const height = tall ? 64 : 48
  if (marks.load === e.id) return seat(e.x, e.y)
  if (isFound) return ''
  if (marks.mustBeClosed.has(e.id)) return collar(host.x, y, 68, height)
  if (marks.anyOfAlone.has(e.id)) return anyOf(host.x - 34, y - height / 2, host.x + 34, y + height / 2, 24)
  return ''
}

/** "OT Operating thermostat, closed, must be closed". */
function spoken(e: PlacedElement, view: View, marks: Marks, closed: boolean): string {
  const name = [e.name.text, e.label].filter(Boolean).join(' ')
  const reason = marks.reasons.get(e.id)
  const state =
    e.figure.kind === 'contact' || !closed
      ? closed
        ? 'closed'
        : `open${reason === undefined ? '' : `: ${reason}`}`
      : view.frame?.on.has(e.id)
        ? 'on'
        : ''
  const mark =
    marks.load === e.id
      ? 'the load of this string'
      : marks.mustBeClosed.has(e.id)
        ? 'must be closed'
        : view.trace?.anyOf.some((g) => g.includes(e.id))
          ? 'one of a group that must be closed'
          : ''
  const flagged = marks.flags.get(e.id)
  const verdict = view.verdicts?.get(e.id)
  const known = verdict ? verdictWords(verdict) : ''
  return [name, state, mark, flagged === undefined ? '' : `waits for ${flagged}`, known].filter(Boolean).join(', ')
}

/** The grey strip under the string of the load that is shown. */
function lifted(plan: Plan, { trace }: View): string {
  if (!trace) return ''
  const own = new Set<string>([
    trace.load,
    ...trace.mustBeClosed,
    ...trace.through,
    ...trace.path.flat(),
    ...trace.order.flat(),
    ...trace.heldOpen.map((h) => h.element),
  ])
  // A pole of a further supply goes by its short name there.
  for (const pole of trace.poles)
    for (const { name } of plan.rails) if (name === pole || name.endsWith(`.${pole}`)) own.add(`rail:${name}`)
  const d: string[] = []
  for (const net of plan.nets) {
    for (const s of net.segments) {
      if (s.sides?.every((side) => side.some((name) => own.has(name))))
        d.push(`M${num(s.x1)} ${num(s.y1)}L${num(s.x2)} ${num(s.y2)}`)
    }
  }
  for (const e of plan.elements) {
    if (!own.has(e.id)) continue
    if (e.throwOf === undefined) d.push(`M${num(e.x - half)} ${num(e.y)}H${num(e.x + half)}`)
    else
      d.push(`M${num(e.ends[0].x)} ${num(e.ends[0].y)}H${num((e.x + e.ends[1].x) / 2)}V${num(e.y)}H${num(e.ends[1].x)}`)
  }
  return path(d.join(''), 'lifted-edge') + path(d.join(''), 'lifted')
}

/** A frame shows its outer corners only, so it is never taken for a dead wire. */
function corners(outline: readonly Point[]): string {
  const n = outline.length
  let d = ''
  outline.forEach((p, i) => {
    const a = outline[(i + n - 1) % n] ?? p
    const b = outline[(i + 1) % n] ?? p
    // Clockwise: an outer corner turns right.
    if ((p.x - a.x) * (b.y - p.y) - (p.y - a.y) * (b.x - p.x) <= 0) return
    const towards = (q: Point) => {
      const length = Math.hypot(q.x - p.x, q.y - p.y)
      const share = Math.min(12, length / 2) / length
      return `${num(p.x + (q.x - p.x) * share)} ${num(p.y + (q.y - p.y) * share)}`
    }
    d += `M${towards(a)}L${num(p.x)} ${num(p.y)}L${towards(b)}`
  })
  return path(d, 'frame')
}

function looseWire(l: LooseWire): string {
  return (
    (l.kind === 'ground' ? hatch(l.x1, l.y, l.x2) : line(l.x1, l.y, l.x2, l.y, 'wire plain')) +
    circle(l.x1 - 4, l.y, 5, 's paper') +
    (l.chassis ? chassisSymbol(l.x2, l.y) : circle(l.x2 + 4, l.y, 4, 's paper')) +
    text(l.from.x, l.from.y, l.from.text, l.pole ? 'railname' : 'loosename', l.from.anchor) +
    text(l.to.x, l.to.y, l.to.text, l.chassis ? 'note' : 'loosename', l.to.anchor) +
    (l.swatch ? swatch(l.swatch.x, l.swatch.y, l.swatch.colour) : '') +
    (l.code ? text(l.code.x, l.code.y, l.code.text, 'code') : '')
  )
}

/** Where each wire can be touched and reached by keys. Where several share a piece the first lies on top. */
function wireStops(plan: Plan, view: View): string {
  const paths = wirePaths(plan)
  return [...paths]
    .reverse()
    .map(([id, { d, colour }]) => {
      const feed = view.frame?.feed.get(id)
      const words = [`Wire ${id.replace('~', ' to ')}`, colour ?? '', feed ? feedWords[feed] : ''].filter(Boolean)
      const chosen = view.selected === id
      return `<path class="wirehit${chosen ? ' chosen' : ''}" data-wire="${esc(id)}" tabindex="0" role="button"${chosen ? ' aria-pressed="true"' : ''} aria-label="${esc(words.join(', '))}" d="${d}"/>`
    })
    .join('')
}

const feedWords = {
  live: 'carries current',
  fed: 'fed, no current',
  dead: 'dead',
  grounded: 'joined to neutral or ground',
} as const

/** The pieces each wire runs along, as one path. */
function wirePaths(plan: Plan): Map<ElementId, { d: string; colour: string | undefined }> {
  const found = new Map<ElementId, { d: string; colour: string | undefined }>()
  const colourOf = (id: ElementId) => plan.swatches.find((s) => s.wires.includes(id))?.colour
  const add = (id: ElementId, d: string, colour: string | undefined) => {
    const was = found.get(id)
    found.set(id, was ? { ...was, d: was.d + d } : { d, colour })
  }
  for (const net of plan.nets)
    for (const s of net.segments)
      for (const id of s.wires) add(id, `M${num(s.x1)} ${num(s.y1)}L${num(s.x2)} ${num(s.y2)}`, colourOf(id))
  for (const l of plan.loose) add(l.wire, `M${num(l.x1)} ${num(l.y)}H${num(l.x2)}`, l.swatch?.colour)
  return found
}

/** Doubt about a wire hangs from the middle of its longest level piece. */
function wireVerdicts(plan: Plan, { verdicts }: View): string {
  if (!verdicts) return ''
  const ink: string[] = []
  for (const [id, verdict] of verdicts) {
    const level = plan.nets
      .flatMap((net) => net.segments)
      .filter((s) => s.wires.includes(id) && s.y1 === s.y2)
      .sort((a, b) => Math.abs(b.x2 - b.x1) - Math.abs(a.x2 - a.x1))[0]
    if (level) ink.push(verdictInk(verdict, (level.x1 + level.x2) / 2, level.y1))
  }
  return ink.join('')
}

/** A verdict below a symbol whose line is at y. */
function verdictInk(verdict: Verdict, x: number, y: number): string {
  switch (verdict.kind) {
    case 'suspect':
      return pennant(x - 26, y + 27, verdict.rank, verdict.percent)
    case 'cleared':
      return cleared(x - 12, y + 36, verdict.by)
    case 'found':
      return found(x, y, verdict.says)
  }
}

/** Probe tips at the two places of the next test, the marker behind them. */
function nextTest(plan: Plan, next: View['next']): string {
  if (!next) return ''
  return next
    .map((terminal, i) => {
      const p = placeOfTerminal(plan, terminal)
      // Between the wire and the pennants, 18 px high.
      return p ? nextWash(p.x, p.y + 3, 20, 23) + probe(p.x, p.y + 5, i === 0 ? 'parked' : 'moving', 19) : ''
    })
    .join('')
}

function placeOfTerminal(plan: Plan, terminal: TerminalId): Point | undefined {
  for (const e of plan.elements) {
    const at = e.terminals.indexOf(terminal)
    const end = e.ends[at]
    // Outside the collar.
    if (end) return { x: end.x + (end.x < e.x ? -14 : 14), y: end.y }
  }
  return plan.nets.flatMap((net) => net.joints).find((j) => j.terminal === terminal)
}
