import type { ElkNode } from 'elkjs/lib/elk-api'
import type { Circuit, Element, ElementId, TerminalId } from '../circuit/model.ts'
import { framesOf } from './frames.ts'
import { letterBox, lineBox, move, Taken } from './geometry.ts'
import { coloursAt, type DrawNet, type End, type Sheet } from './layout.ts'
import {
  above,
  beside,
  half,
  lineHeight,
  nameSize,
  noteRise,
  noteSize,
  pitch,
  tagOf,
  tagSize,
  waitsFor,
  wordsOf,
} from './measure.ts'
import { chassis } from './nets.ts'
import { lookUp } from './orient.ts'
import type {
  Box,
  Code,
  Joint,
  Lettering,
  LooseWire,
  PlacedElement,
  Plan,
  PlannedNet,
  Point,
  Rail,
  Segment,
  Swatch,
} from './plan.ts'
import { countCrossings, endsOf, joints, key, type Line, mergeLines } from './segments.ts'
import { straighten } from './straighten.ts'
import { textWidth } from './text-width.ts'

/** Margin round the sheet, px. */
const margin = 24

/** ELK's places as elements, rails and nets, without what is written beside them. */
export interface Routed {
  readonly elements: readonly PlacedElement[]
  readonly rails: readonly Rail[]
  readonly nets: readonly PlannedNet[]
  readonly crossings: number
  readonly bends: number
}

export function route(sheet: Sheet, laid: ElkNode): Routed {
  const nodes = new Map((laid.children ?? []).map((n) => [n.id, n]))
  const elements = placeElements(sheet, nodes)
  const rails = placeRails(sheet, laid)
  const taps = new Map(
    (laid.children ?? [])
      .filter((n) => n.id.startsWith('rail:'))
      .flatMap((n) => (n.ports ?? []).map((p) => [p.id, { x: (n.x ?? 0) + (p.x ?? 0), y: (n.y ?? 0) + (p.y ?? 0) }])),
  )
  const routes = routesOf(sheet, laid, [...elements.values()], rails)
  const nets = sheet.drawNets
    .filter((net) => [...net.drivers, ...net.takers].some((e) => sheet.members.has(e.unit)))
    .map((net) => planNet(sheet, net, elements, rails, routes, nodes, taps))
    .filter((n) => n.segments.length > 0 || n.wires.length > 0)
  const lines = nets.map((n) => n.segments)
  return {
    elements: [...elements.values()],
    rails,
    nets,
    crossings: countCrossings(lines),
    bends: lines.reduce((sum, l) => sum + joints(l).bends, 0),
  }
}

/** The ways of the edges at each port, without needless steps. */
function routesOf(
  sheet: Sheet,
  laid: ElkNode,
  elements: readonly PlacedElement[],
  rails: readonly Rail[],
): Map<string, Point[][]> {
  const netAt = new Map<string, number>()
  sheet.drawNets.forEach((net, n) => {
    for (const end of [...net.drivers, ...net.takers]) netAt.set(end.port, n)
    if (net.rail) netAt.set(net.rail.port, n)
    if (net.stub) netAt.set(`${net.stub.id}p`, n)
  })
  const edges = (laid.edges ?? []).flatMap((edge) =>
    (edge.sections ?? []).map((s) => ({
      ends: [...edge.sources, ...edge.targets],
      net: lookUp(netAt, edge.sources[0] ?? ''),
      points: level([s.startPoint, ...(s.bendPoints ?? []), s.endPoint]),
    })),
  )
  const stubs = (laid.children ?? []).filter((n) => n.id.startsWith('s') && (n.width ?? 0) > 0)
  const ways = straighten(edges, [
    ...elements.map((e) => e.box),
    ...rails.map((r) => ({ x: r.x - 8, y: r.y1, width: 16, height: r.y2 - r.y1 })),
    ...stubs.map((n) => ({ x: n.x ?? 0, y: n.y ?? 0, width: n.width ?? 0, height: n.height ?? 0 })),
  ])
  const routes = new Map<string, Point[][]>()
  ways.forEach(({ points }, i) => {
    for (const end of edges[i]?.ends ?? []) routes.set(end, [...(routes.get(end) ?? []), [...points]])
  })
  return routes
}

/** ELK's places → the finished sheet: leads, rails, merged nets, colours, frames, ground. */
export function finish(sheet: Sheet, laid: ElkNode): Plan {
  const { elements: placed, rails, nets: drawn, crossings, bends } = route(sheet, laid)
  const aside = shortedOnes(sheet, placed, rails, drawn)
  const everything = [...placed, ...aside]
  const taken = new Taken()
  const { swatches, codes } = colours(sheet, drawn, everything, rails, taken)
  const plan: Plan = {
    size: { width: 0, height: 0 },
    elements: everything,
    rails,
    nets: nameJoints(drawn, taken),
    frames: [],
    swatches,
    codes,
    loose: [],
    crossings,
    bends,
  }
  return settle(withLooseWires(sheet, framesOf(sheet.circuit, spreadRails(plan))))
}

function placeElements(sheet: Sheet, nodes: ReadonlyMap<string, ElkNode>): Map<ElementId, PlacedElement> {
  const out = new Map<ElementId, PlacedElement>()
  sheet.oriented.units.forEach((unit, i) => {
    if (!sheet.members.has(i)) return
    const node = lookUp(nodes, `u${i}`)
    const size = sheet.sizes[i]
    const words = sheet.words[i]
    if (!size || !words) throw new Error(`unit ${unit.element.id} was not measured`)
    const x = round((node.x ?? 0) + size.left)
    const y = round((node.y ?? 0) + size.top)
    const box = { x: x - size.left, y: y - size.top, width: size.left + size.right, height: size.top + size.bottom }
    const reach = Math.min(size.left, size.right) - 3
    const { name, lines } = lettering(words.name, words.lines, x, y)
    const own = placeOne(sheet.circuit, unit.element, x, y, unit.flipped, box, name, lines, reach)
    if (!unit.other) {
      out.set(unit.element.id, own)
      return
    }
    // The other throw: its words stand at the hinge's side of the upright lead, its tag at the end of its line.
    const other = wordsOf(sheet.circuit, unit.other)
    const low = y + pitch
    const anchor = unit.flipped ? 'start' : 'end'
    const at = unit.flipped ? x - 8 : x + 8
    const otherLines = other.lines.map(
      (text, n): Lettering => ({ text, x: at, y: low - 8 - lineHeight * (other.lines.length - 1 - n), anchor }),
    )
    const throwEnd = { x: unit.flipped ? x - half : x + half, y: low }
    const placed = placeOne(
      sheet.circuit,
      unit.other,
      x,
      low,
      unit.flipped,
      { ...box, y: low - 40, height: 40 + size.bottom - pitch },
      {
        text: other.name,
        x: at,
        y: low - 8 - lineHeight * Math.max(1, other.lines.length),
        anchor,
      },
      otherLines,
      Math.max(other.reason, 20) / 2,
    )
    out.set(unit.element.id, {
      ...own,
      box: { ...box, height: low - 40 - box.y },
      other: { id: unit.other.id, drop: pitch },
    })
    out.set(unit.other.id, {
      ...placed,
      ends: [own.ends[0], throwEnd],
      tags: [{ ...own.tags[0], text: '' }, placed.tags[1]],
      throwOf: unit.element.id,
    })
  })
  return out
}

function lettering(
  name: string,
  lines: readonly string[],
  x: number,
  y: number,
): { name: Lettering; lines: Lettering[] } {
  const rows = Math.max(1, lines.length)
  return {
    name: { text: name, x, y: y - noteRise - lineHeight * rows, anchor: 'middle' },
    lines: lines.map((text, i) => ({
      text,
      x,
      y: y - noteRise - lineHeight * (rows - 1 - i),
      anchor: 'middle' as const,
    })),
  }
}

function placeOne(
  circuit: Circuit,
  element: Element,
  x: number,
  y: number,
  flipped: boolean,
  box: Box,
  name: Lettering,
  lines: readonly Lettering[],
  room: number,
): PlacedElement {
  const west = { x: x - half, y }
  const east = { x: x + half, y }
  const tag = (terminal: TerminalId, right: boolean): Lettering => ({
    text: tagOf(terminal),
    x: x + (right ? beside : -beside),
    y: y - 9,
    anchor: right ? 'start' : 'end',
  })
  return {
    id: element.id,
    figure: element.figure,
    switches: element.role === 'contact' || element.role === 'link',
    label: circuit.parts.get(element.part)?.label ?? '',
    waitsFor: waitsFor(circuit, element),
    x,
    y,
    flipped,
    box,
    name,
    lines,
    room,
    terminals: element.ends,
    ends: flipped ? [east, west] : [west, east],
    tags: [tag(element.ends[0], flipped), tag(element.ends[1], !flipped)],
  }
}

/** What rails reach beyond their first and last tap, px. */
const railReach = 26

function placeRails(sheet: Sheet, laid: ElkNode): Rail[] {
  const rails: Rail[] = []
  const { poles } = sheet
  const { ladders } = sheet.nets
  const nodes = laid.children ?? []
  const returns = new Set(ladders.flatMap((l) => l.rails.slice(1)).filter((name) => !/(^|\.)L2$/.test(name)))
  const rail = (name: string, side: Rail['side'], x: number, y1: number, y2: number): Rail => ({
    name,
    side,
    x,
    y1,
    y2,
    label: { text: name, x, y: y1 - 12, anchor: 'middle' },
    ...(returns.has(name) && { returns: true }),
  })
  const lefts = nodes.map((n) => n.x ?? 0)
  const rights = nodes.map((n) => (n.x ?? 0) + (n.width ?? 0))
  const units = nodes.filter((n) => n.id.startsWith('u'))
  const top = units.length === 0 ? 60 : Math.min(...units.map((n) => (n.y ?? 0) + above))
  const drawn = (name: string) => nodes.some((n) => n.id === `rail:left:${name}` || n.id === `rail:right:${name}`)
  const bottom = Math.max(0, ...nodes.map((n) => (n.y ?? 0) + (n.height ?? 0)))
  for (const side of ['left', 'right'] as const) {
    const used: Rail[] = []
    for (const name of poles) {
      for (const node of nodes.filter((n) => n.id === `rail:${side}:${name}`)) {
        const x = round((node.x ?? 0) + (side === 'left' ? 4 : (node.width ?? 0) - 4))
        const taps = (node.ports ?? []).map((p) => round((node.y ?? 0) + (p.y ?? 0)))
        used.push(rail(name, side, x, Math.min(...taps) - railReach, Math.max(...taps) + railReach))
      }
    }
    // A pole nothing is joined to stands above or below those of its ladder that are used, in the usual order.
    const x = used[0]?.x ?? (side === 'left' ? Math.min(40, ...lefts) - 20 : Math.max(60, ...rights) + 20)
    for (const [l, { rails: own }] of ladders.entries()) {
      for (const [i, name] of own.entries()) {
        if (side !== (i === 0 ? 'left' : 'right') || name === chassis) continue
        if (drawn(name)) continue
        if (l > 0 && !own.some(drawn)) {
          const y = bottom + 60 + 100 * (l + (side === 'left' ? 0 : i - 1))
          used.push(rail(name, side, x, y, y + 2 * railReach))
          continue
        }
        const peers = used.filter((r) => own.includes(r.name))
        const next = peers.find((r) => own.indexOf(r.name) > i)
        const before = used.filter((r) => ladders.slice(0, l + 1).some((o) => o.rails.includes(r.name)))
        if (next && peers.every((r) => own.indexOf(r.name) > i)) {
          const foot = Math.min(...peers.map((r) => r.y1)) - 1
          used.push(rail(name, side, x, foot - 2 * railReach, foot))
        } else if (before.length > 0) {
          // Room is made for it only where another rail stands below.
          const foot = Math.max(...before.map((r) => r.y2)) + (before.length === used.length ? 44 : 1)
          used.push(rail(name, side, x, foot, foot + 2 * railReach))
        } else used.push(rail(name, side, x, top - railReach, top + railReach))
      }
    }
    const place = (r: Rail) => poles.indexOf(r.name)
    rails.push(...used.sort((a, b) => place(a) - place(b) || a.y1 - b.y1))
  }
  return rails
}

/** Room between rails of one side, for the name of the lower one. */
function spreadRails(plan: Plan): Plan {
  let at = plan
  for (const side of ['left', 'right'] as const) {
    const count = plan.rails.filter((r) => r.side === side).length
    for (let i = 1; i < count; i++) {
      const rails = at.rails.filter((r) => r.side === side).sort((a, b) => a.y1 - b.y1)
      const [upper, lower] = [rails[i - 1], rails[i]]
      const short = upper && lower ? upper.y2 + 44 - lower.y1 : 0
      if (!upper || short <= 0) continue
      const cut = upper.y2 - railReach + 1
      at = move(
        at,
        (x) => x,
        (y) => (y > cut ? y + short : y),
      )
    }
  }
  return at
}

const round = (v: number) => Math.round(v * 2) / 2

function planNet(
  sheet: Sheet,
  net: DrawNet,
  elements: ReadonlyMap<ElementId, PlacedElement>,
  rails: readonly Rail[],
  routes: ReadonlyMap<string, Point[][]>,
  nodes: ReadonlyMap<string, ElkNode>,
  taps: ReadonlyMap<string, Point>,
): PlannedNet {
  const lines: Line[] = []
  const run = (points: readonly Point[]) => {
    points.slice(1).forEach((p, i) => {
      const from = points[i]
      if (from) lines.push({ x1: round(from.x), y1: round(from.y), x2: round(p.x), y2: round(p.y) })
    })
  }
  const anchors = new Map<TerminalId, { at: Point; label: string }[]>()
  const anchor = (terminal: TerminalId, at: Point, label: string) =>
    anchors.set(terminal, [...(anchors.get(terminal) ?? []), { at, label }])
  for (const end of [...net.drivers, ...net.takers]) {
    const at = endPoint(elements, end)
    const port = portPoint(nodes, end.port, `u${end.unit}`)
    run([at, { x: port.x, y: at.y }])
    for (const points of routes.get(end.port) ?? []) run(points)
    anchor(end.element.ends[end.end], at, end.element.id)
  }
  if (net.rail) {
    const { head, side, port } = net.rail
    const rail = rails.find((r) => r.name === head && r.side === side)
    if (!rail) throw new Error(`no rail ${head} stands at the ${side}`)
    const at = lookUp(taps, port)
    const foot = { x: rail.x, y: round(at.y) }
    run([foot, { x: at.x, y: foot.y }])
    const pole = net.terminals.length === 1 && net.wires.length === 0 ? undefined : poleTerminal(sheet, net, head)
    anchor(pole ?? `rail:${head}`, foot, `rail:${head}`)
  }
  let pieces = mergeLines(lines)
  const { stub } = net
  if (stub) {
    const tip = portPoint(nodes, `${stub.id}p`, stub.id)
    if (stub.words === '') pieces = withoutTail(pieces, tip)
    return plannedNet(
      sheet,
      net,
      pieces,
      anchors,
      stub.words === '' ? undefined : { at: tip, label: stubLabel(stub, tip) },
    )
  }
  return plannedNet(sheet, net, pieces, anchors, undefined)
}

/** A net with nothing on one side was given a place to gather at; what leads on to it from the last dot is not drawn. */
function withoutTail(pieces: readonly Line[], tip: Point): Line[] {
  let rest = [...pieces]
  let at = tip
  for (;;) {
    const here = rest.filter((l) => endsOf(l).some((e) => key(e) === key(at)))
    const last = here[0]
    if (!last || here.length > 1) return rest
    const [a, b] = endsOf(last)
    rest = rest.filter((l) => l !== last)
    at = key(a) === key(at) ? b : a
  }
}

function stubLabel(stub: NonNullable<DrawNet['stub']>, tip: Point): Lettering {
  const left = stub.side === 'left'
  return { text: stub.words, x: tip.x + (left ? -10 : 10), y: tip.y + 4, anchor: left ? 'end' : 'start' }
}

/** ELK may leave a hair of slope between a port and its wire. */
function level(points: readonly Point[]): Point[] {
  return points.map((p) => ({ x: round(p.x), y: round(p.y) }))
}

function poleTerminal(sheet: Sheet, net: DrawNet, head: string): TerminalId {
  for (const id of net.wires) {
    for (const end of sheet.circuit.elements.get(id)?.ends ?? []) if (!net.terminals.includes(end)) return end
  }
  return `rail:${head}`
}

function endPoint(elements: ReadonlyMap<ElementId, PlacedElement>, end: End): Point {
  return lookUp(elements, end.element.id).ends[end.end]
}

function portPoint(nodes: ReadonlyMap<string, ElkNode>, id: string, node: string): Point {
  const at = lookUp(nodes, node)
  const port = (at.ports ?? []).find((p) => p.id === id)
  if (!port) throw new Error(`node ${node} has no port ${id}`)
  return { x: round((at.x ?? 0) + (port.x ?? 0)), y: round((at.y ?? 0) + (port.y ?? 0)) }
}

/** Pieces with the wires that run along them, and what stands on either side. */
function plannedNet(
  sheet: Sheet,
  net: DrawNet,
  pieces: readonly Line[],
  anchors: Map<TerminalId, { at: Point; label: string }[]>,
  end: { readonly at: Point; readonly label: Lettering } | undefined,
): PlannedNet {
  const standing: Joint[] = []
  let lines = [...pieces]
  const { dots } = joints(lines)
  const free = net.terminals.filter((t) => !anchors.has(t))
  const spare = [...dots]
  for (const terminal of free) {
    const splice = !terminal.includes('.')
    const degree = net.wires.filter((w) => sheet.circuit.elements.get(w)?.ends.includes(terminal)).length
    const dot = degree > 2 ? spare.shift() : undefined
    const at = end?.at ?? dot ?? middleOfLongest(lines, standing)
    if (!at) continue
    lines = splitAt(lines, at)
    // Several tags at a loose end are named together, at one mark.
    const first = end !== undefined && standing.length === 0
    if (first || end === undefined) standing.push({ terminal, splice, ...at, ...(first && { label: end.label }) })
    anchors.set(terminal, [{ at, label: '' }])
  }
  const graph = new Graph(lines)
  const wiresOn = lines.map(() => new Set<ElementId>())
  for (const id of net.wires) {
    const [a, b] = sheet.circuit.elements.get(id)?.ends ?? ['', '']
    for (const i of graph.along(
      (anchors.get(a) ?? []).map((x) => x.at),
      (anchors.get(b) ?? []).map((x) => x.at),
    ))
      wiresOn[i]?.add(id)
  }
  const labels = [...anchors.values()].flat().filter((a) => a.label !== '')
  const segments = lines.map((line, i): Segment => {
    const sides = graph.sides(i)
    const named =
      sides &&
      (sides.map((points) => [...new Set(labels.filter((l) => points.has(key(l.at))).map((l) => l.label))]) as [
        string[],
        string[],
      ])
    return { ...line, wires: [...(wiresOn[i] ?? [])], ...(named && { sides: named }) }
  })
  return { id: net.terminals[0] ?? '', terminals: net.terminals, wires: net.wires, segments, dots, joints: standing }
}

function middleOfLongest(lines: readonly Line[], taken: readonly Point[]): Point | undefined {
  const length = (l: Line) => (l.y1 === l.y2 ? l.x2 - l.x1 : (l.y2 - l.y1) / 4)
  const sorted = [...lines].sort((a, b) => length(b) - length(a))
  for (const l of sorted) {
    const at = { x: round((l.x1 + l.x2) / 2), y: round((l.y1 + l.y2) / 2) }
    if (!taken.some((t) => Math.hypot(t.x - at.x, t.y - at.y) < 12)) return at
  }
  return undefined
}

function splitAt(lines: readonly Line[], at: Point): Line[] {
  return lines.flatMap((l) => {
    const inside =
      l.y1 === l.y2 ? at.y === l.y1 && at.x > l.x1 && at.x < l.x2 : at.x === l.x1 && at.y > l.y1 && at.y < l.y2
    if (!inside) return [l]
    return [
      { ...l, x2: at.x, y2: at.y },
      { ...l, x1: at.x, y1: at.y },
    ]
  })
}

/** Pieces of one net as a graph of points. */
class Graph {
  private readonly lines: readonly Line[]
  private readonly at = new Map<string, { to: string; line: number }[]>()

  constructor(lines: readonly Line[]) {
    this.lines = lines
    lines.forEach((l, line) => {
      const [a, b] = endsOf(l).map(key) as [string, string]
      this.link(a, b, line)
      this.link(b, a, line)
    })
  }

  private link(from: string, to: string, line: number) {
    const list = this.at.get(from)
    if (list) list.push({ to, line })
    else this.at.set(from, [{ to, line }])
  }

  /** Pieces that every way between the two groups of points shares: what lies between them whichever end is meant. */
  along(a: readonly Point[], b: readonly Point[]): number[] {
    let shared: Set<number> | undefined
    for (const from of a) {
      for (const to of b) {
        const way = this.way(key(from), key(to))
        shared = shared === undefined ? new Set(way) : new Set(way.filter((i) => shared?.has(i)))
      }
    }
    return [...(shared ?? [])]
  }

  private way(from: string, to: string): number[] {
    const back = new Map<string, { from: string; line: number }>()
    const queue = [from]
    for (const at of queue) {
      if (at === to) break
      for (const next of this.at.get(at) ?? []) {
        if (next.to === from || back.has(next.to)) continue
        back.set(next.to, { from: at, line: next.line })
        queue.push(next.to)
      }
    }
    const out: number[] = []
    for (let step = back.get(to); step; step = back.get(step.from)) out.push(step.line)
    return out
  }

  /** The points on both sides of a piece; nothing where a ring joins them. */
  sides(line: number): [Set<string>, Set<string>] | undefined {
    const l = this.lines[line]
    if (!l) return undefined
    const [a, b] = endsOf(l).map(key) as [string, string]
    const one = this.reach(a, line)
    return one.has(b) ? undefined : [one, this.reach(b, line)]
  }

  private reach(from: string, without: number): Set<string> {
    const seen = new Set([from])
    const queue = [from]
    for (const at of queue) {
      for (const next of this.at.get(at) ?? []) {
        if (next.line === without || seen.has(next.to)) continue
        seen.add(next.to)
        queue.push(next.to)
      }
    }
    return seen
  }
}

/** Elements whose ends are joined stand in a row of their own, each with its loop and a word on where it hangs. */
function shortedOnes(
  sheet: Sheet,
  placed: readonly PlacedElement[],
  rails: readonly Rail[],
  nets: readonly PlannedNet[],
): PlacedElement[] {
  const bottom = Math.max(
    0,
    ...placed.map((p) => p.box.y + p.box.height),
    ...rails.map((r) => r.y2 + 8),
    ...nets.flatMap((n) => n.segments.map((s) => s.y2)),
  )
  let x = 40
  return sheet.oriented.shorted.map((element) => {
    const words = wordsOf(sheet.circuit, element)
    const says = `both ends on ${sheet.nets.heads.get(element.ends[0]) ?? element.ends[0]}`
    const reach = Math.ceil(
      Math.max(
        beside + 20,
        textWidth(words.name, nameSize, 700) / 2 + 5,
        words.reason / 2 + 5,
        textWidth(says, noteSize) / 2 + 5,
        ...words.lines.map((l) => textWidth(l, noteSize) / 2 + 5),
        ...element.ends.map((t) => beside + 2 + textWidth(tagOf(t), tagSize, 600)),
      ),
    )
    const y = bottom + 84
    const { name, lines } = lettering(words.name, words.lines, x + reach, y)
    const box = { x, y: y - 80, width: 2 * reach, height: 80 + 66 }
    const one = placeOne(sheet.circuit, element, x + reach, y, false, box, name, lines, reach - 3)
    x += 2 * reach + 16
    return { ...one, loop: { depth: 36, says: { text: says, x: one.x, y: y + 54, anchor: 'middle' as const } } }
  })
}

/**
 * Insulation colours: a swatch on the wire near each end, its letters below. A wire between two neighbours shows its letters
 * once, in the middle; a tap or branch below every swatch.
 */
function colours(
  sheet: Sheet,
  nets: readonly PlannedNet[],
  elements: readonly PlacedElement[],
  rails: readonly Rail[],
  taken: Taken,
): { swatches: Swatch[]; codes: Code[] } {
  const swatches: Swatch[] = []
  const codes: Code[] = []
  for (const net of nets) for (const s of net.segments) taken.add(lineBox(s))
  for (const net of nets) for (const j of net.joints) if (j.label) taken.add(letterBox(j.label, tagSize, 600))
  for (const r of rails) {
    taken.add(letterBox(r.label, 20, 800))
    taken.add({ x: r.x - 4, y: r.y1, width: 8, height: r.y2 - r.y1 })
  }
  for (const e of elements) {
    taken.add({ x: e.x - 36, y: e.y - 60, width: 72, height: 84 })
    for (const l of [e.name, ...e.lines]) taken.add(letterBox(l, nameSize, 700))
    for (const l of e.tags) taken.add(letterBox(l, tagSize, 600))
  }
  const write = (text: string, at: Point, anchor: Lettering['anchor'], wires: readonly ElementId[]): boolean => {
    const code: Code = { text, x: at.x, y: at.y + 18, anchor, wires }
    const box = letterBox(code, tagSize, 600)
    if (!taken.free(box, 0)) return false
    taken.add(box)
    codes.push(code)
    return true
  }
  for (const net of nets) {
    const seen = new Set<ElementId>()
    const here = elements.flatMap((e) => {
      const element = sheet.circuit.elements.get(e.id)
      if (!element || e.loop) return []
      return ([0, 1] as const)
        .filter(
          (end) => net.terminals.includes(element.ends[end]) && touches(net, e.ends[end]) && !(e.throwOf && end === 0),
        )
        .map((end) => ({ terminal: element.ends[end], at: e.ends[end], out: e.ends[end].x > e.x ? 1 : -1 }))
    })
    const straight = net.segments.length === 1 ? net.segments[0] : undefined
    const letters = new Set(net.wires.map((w) => sheet.circuit.elements.get(w)?.wire?.colour ?? ''))
    const painted = ([id = '']: readonly ElementId[], colour: string) =>
      sheet.circuit.elements.get(id)?.wire?.iec ?? colour
    const once = straight && straight.y1 === straight.y2 && letters.size === 1
    const mark = (terminal: TerminalId, at: Point, out: number) => {
      coloursAt(sheet.circuit, net.wires, terminal).forEach((colour, i) => {
        const wires = net.wires.filter((w) => {
          const wire = sheet.circuit.elements.get(w)
          return wire?.ends.includes(terminal) && wire.wire?.colour === colour
        })
        const x = at.x + out * (15 + 14 * i)
        if (!net.segments.some((s) => s.y1 === s.y2 && s.y1 === at.y && s.x1 <= x - 6 && s.x2 >= x + 6)) return
        swatches.push({ wires, colour: painted(wires, colour), x, y: at.y })
        for (const w of wires) seen.add(w)
      })
      if (once) return
      const said = coloursAt(sheet.circuit, net.wires, terminal)
      if (said.length > 0) write(said.join(' '), { x: at.x + out * 6, y: at.y }, out > 0 ? 'start' : 'end', net.wires)
    }
    for (const end of here) {
      // A terminal that several elements share has its wires beyond the dot.
      if (here.filter((h) => h.terminal === end.terminal).length === 1) mark(end.terminal, end.at, end.out)
    }
    for (const rail of rails) {
      for (const s of net.segments) {
        if (s.y1 !== s.y2 || (s.x1 !== rail.x && s.x2 !== rail.x) || s.y1 < rail.y1 || s.y1 > rail.y2) continue
        const out = s.x1 === rail.x ? 1 : -1
        for (const [terminal, head] of sheet.nets.heads)
          if (head === rail.name && !sheet.nets.of.has(terminal)) mark(terminal, { x: rail.x, y: s.y1 }, out)
      }
    }
    if (once && straight && letters.size === 1) {
      const said = [...letters].join('')
      const middle = { x: (straight.x1 + straight.x2) / 2, y: straight.y1 }
      if (!write(said, middle, 'middle', net.wires)) {
        write(said, { x: straight.x1 + 6, y: straight.y1 }, 'start', net.wires)
        write(said, { x: straight.x2 - 6, y: straight.y1 }, 'end', net.wires)
      }
    }
    // A wire between two shared terminals has shown its colour nowhere yet.
    for (const id of net.wires) {
      const colour = sheet.circuit.elements.get(id)?.wire?.colour
      if (seen.has(id) || !colour) continue
      const along = net.segments
        .filter((s) => s.wires.includes(id) && s.y1 === s.y2 && s.x2 - s.x1 > 20)
        .sort((a, b) => b.x2 - b.x1 - (a.x2 - a.x1))[0]
      if (!along) continue
      const x = (along.x1 + along.x2) / 2
      swatches.push({ wires: [id], colour: painted([id], colour), x, y: along.y1 })
      write(colour, { x, y: along.y1 }, 'middle', [id])
      seen.add(id)
    }
  }
  return { swatches, codes }
}

/** Names of splices and bare tags, where there is room beside their marks; a mark without room stays unnamed. */
function nameJoints(nets: readonly PlannedNet[], taken: Taken): PlannedNet[] {
  return nets.map((net) => ({
    ...net,
    joints: net.joints.map((j): Joint => {
      if (j.label) return j
      const tries: Lettering[] = [
        { text: j.terminal, x: j.x, y: j.y - 11, anchor: 'middle' },
        { text: j.terminal, x: j.x + 7, y: j.y - 9, anchor: 'start' },
        { text: j.terminal, x: j.x - 7, y: j.y - 9, anchor: 'end' },
        { text: j.terminal, x: j.x, y: j.y + 20, anchor: 'middle' },
        { text: j.terminal, x: j.x + 7, y: j.y + 18, anchor: 'start' },
        { text: j.terminal, x: j.x - 7, y: j.y + 18, anchor: 'end' },
      ]
      const label = tries.find((t) => taken.free(letterBox(t, tagSize, 600), 1))
      if (!label) return j
      taken.add(letterBox(label, tagSize, 600))
      return { ...j, label }
    }),
  }))
}

function touches(net: PlannedNet, at: Point): boolean {
  return net.segments.some((s) => (s.x1 === at.x && s.y1 === at.y) || (s.x2 === at.x && s.y2 === at.y))
}

/** Wires to ground, straps and wires between bare tags: one line each, below everything. */
function withLooseWires(sheet: Sheet, plan: Plan): Plan {
  const bounds = extent(plan)
  let x = bounds.x + 4
  let y = bounds.y + bounds.height + 40
  const loose: LooseWire[] = []
  // A ground pole is called so, though it is one with the chassis.
  const grounds = new Map(
    sheet.circuit.supplies.flatMap(({ poles }, i) =>
      poles.filter((p) => p.name === 'G').map((p) => [p.terminal, i === 0 ? p.name : p.terminal] as const),
    ),
  )
  const poles = new Map(
    [...sheet.nets.heads]
      .filter(([t]) => t !== chassis && !sheet.nets.of.has(t))
      .map(([t, head]) => [t, grounds.get(t) ?? head]),
  )
  for (const id of sheet.nets.apart) {
    const wire = sheet.circuit.elements.get(id)
    if (!wire) continue
    // The chassis stands at the right, a pole at the left.
    const [a, b] =
      wire.ends[0] === chassis || (poles.has(wire.ends[1]) && wire.ends[1] !== chassis && !poles.has(wire.ends[0]))
        ? [wire.ends[1], wire.ends[0]]
        : wire.ends
    const said = (t: TerminalId) => poles.get(t) ?? t
    const ground = [a, b].some((t) => t === chassis || grounds.has(t))
    const size = poles.has(a) ? 20 : noteSize
    const fromWidth = textWidth(said(a), size, poles.has(a) ? 800 : 600)
    const toWidth = textWidth(said(b), noteSize)
    const span = 104
    const width = fromWidth + 10 + span + 24 + toWidth + 40
    if (x + width > bounds.x + Math.max(bounds.width, width + 8) && loose.length > 0) {
      x = bounds.x + 4
      y += 56
    }
    const x1 = Math.ceil(x + fromWidth + 12)
    const x2 = x1 + span
    const colour = wire.wire?.colour
    loose.push({
      wire: id,
      kind: ground && wire.wire?.colour !== 'WH' && !(poles.has(a) && !grounds.has(a)) ? 'ground' : 'plain',
      x1,
      x2,
      y,
      from: { text: said(a), x: x1 - 12, y: y + size * 0.36, anchor: 'end' },
      to:
        b === chassis
          ? { text: 'chassis', x: x2 + 20, y: y + 12, anchor: 'start' }
          : { text: said(b), x: x2 + 12, y: y + 5, anchor: 'start' },
      chassis: b === chassis,
      pole: poles.has(a),
      ...(colour && {
        swatch: { wires: [id], colour: wire.wire?.iec ?? colour, x: (x1 + x2) / 2, y },
        code: { wires: [id], text: colour, x: (x1 + x2) / 2, y: y + 20, anchor: 'middle' as const },
      }),
    })
    x += width
  }
  return { ...plan, loose }
}

/** What the ink covers, room for marks included. */
function extent(plan: Plan): Box {
  const boxes: Box[] = [
    ...plan.elements.map((e) => e.box),
    ...plan.rails.map((r) => ({ x: r.x - 12, y: r.y1 - 34, width: 24, height: r.y2 - r.y1 + 34 })),
    ...plan.rails.map((r) => letterBox(r.label, 20, 800)),
    ...plan.nets.flatMap((n) => n.segments.map((s) => lineBox(s, 4))),
    ...plan.nets.flatMap((n) => n.joints.flatMap((j) => (j.label ? [letterBox(j.label, tagSize, 600)] : []))),
    ...plan.frames.flatMap((f) => [
      ...f.outline.map((p) => ({ ...p, width: 1, height: 1 })),
      ...(f.title ? [letterBox(f.title, noteSize, 600)] : []),
    ]),
    ...plan.codes.map((c) => letterBox(c, tagSize, 600)),
    ...plan.loose.flatMap((l) => [
      { x: l.x1, y: l.y - 12, width: l.x2 - l.x1 + 16, height: 36 },
      letterBox(l.from, l.pole ? 20 : noteSize, 800),
      letterBox(l.to, noteSize, 400),
    ]),
  ]
  if (boxes.length === 0) return { x: 0, y: 0, width: 0, height: 0 }
  const x = Math.min(...boxes.map((b) => b.x))
  const y = Math.min(...boxes.map((b) => b.y))
  return {
    x,
    y,
    width: Math.max(...boxes.map((b) => b.x + b.width)) - x,
    height: Math.max(...boxes.map((b) => b.y + b.height)) - y,
  }
}

/** Move the whole sheet so that it begins at the margin, and say how large it is. */
function settle(plan: Plan): Plan {
  const e = extent(plan)
  const dx = Math.ceil(margin - e.x)
  const dy = Math.ceil(margin - e.y)
  return {
    ...move(
      plan,
      (x) => x + dx,
      (y) => y + dy,
    ),
    size: { width: Math.ceil(e.width + 2 * margin), height: Math.ceil(e.height + 2 * margin) },
  }
}
