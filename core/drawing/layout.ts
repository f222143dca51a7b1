import type { ElkExtendedEdge, ElkNode, ElkPort } from 'elkjs/lib/elk-api'
import type { Circuit, Element, ElementId, TerminalId } from '../circuit/model.ts'
import {
  above,
  below,
  beside,
  lineHeight,
  nameSize,
  noteSize,
  pitch,
  tagOf,
  tagSize,
  type Words,
  wordsOf,
} from './measure.ts'
import { type Nets, netsOf } from './nets.ts'
import { type Oriented, orient, type Spot, type Unit } from './orient.ts'
import type { Plan } from './plan.ts'
import { textWidth } from './text-width.ts'

/** ELK's \`layout\`: takes a graph, answers it with places. */
export type LayOut = (graph: ElkNode) => Promise<ElkNode>

/** An end of an element at a net, on the west or east side of its unit. */
export interface End {
  readonly unit: number
  readonly element: Element
  readonly end: 0 | 1
  readonly port: string
}

/** A net as it is drawn: a tap that serves both sides of the sheet is two. */
export interface DrawNet {
  readonly terminals: readonly TerminalId[]
  readonly wires: readonly ElementId[]
  readonly rail?: { readonly head: string; readonly side: 'left' | 'right'; readonly port: string }
  /** Ends at the east of their units, that feed the net from the left. */
  readonly drivers: readonly End[]
  readonly takers: readonly End[]
  /** A place of its own for a net with nothing on one side: words at a loose end, or nothing. */
  readonly stub?: { readonly id: string; readonly side: 'left' | 'right'; readonly words: string }
}

export interface Size {
  readonly left: number
  readonly right: number
  readonly top: number
  readonly bottom: number
}

/** What is to be laid out, in our words. */
export interface Sheet {
  readonly circuit: Circuit
  readonly nets: Nets
  readonly oriented: Oriented
  readonly words: readonly Words[]
  readonly sizes: readonly Size[]
  readonly rows: readonly number[]
  readonly drawNets: readonly DrawNet[]
  /** Names of the rails there may be, in their usual order from the top. */
  readonly poles: readonly string[]
  /** The units to lay out now. */
  readonly members: ReadonlySet<number>
  /** `rows` are heights of the drawing before, px, that are to be kept to. */
  readonly settled: boolean
}

/** `previous`: the drawing before an edit, that this one should look like. */
export function sheetOf(circuit: Circuit, previous?: Plan): Sheet {
  const nets = netsOf(circuit)
  const poles = nets.ladders.flatMap((l) => l.rails)
  const oriented = orient(nets)
  const words = oriented.units.map((u) => wordsOf(circuit, u.element))
  const drawNets = drawNetsOf(nets, oriented)
  const heights = heightsOf(oriented, previous)
  return {
    circuit,
    nets,
    oriented,
    words,
    sizes: sizesOf(circuit, nets, oriented, words),
    rows: heights ?? rowsOf(oriented, poles),
    drawNets,
    poles,
    members: new Set(oriented.units.map((_, i) => i)),
    settled: heights !== undefined,
  }
}

/** Colours of the wires at a terminal, each once, in the order typed. */
export function coloursAt(circuit: Circuit, wires: readonly ElementId[], terminal: TerminalId): string[] {
  const found = new Set<string>()
  for (const id of wires) {
    const wire = circuit.elements.get(id)
    if (wire?.ends.includes(terminal) && wire.wire?.colour) found.add(wire.wire.colour)
  }
  return [...found]
}

function drawNetsOf(nets: Nets, oriented: Oriented): DrawNet[] {
  const ends: {
    spot: string
    joined: number | undefined
    terminal: TerminalId
    head: string | undefined
    side: 'left' | 'right'
    at: End
    east: boolean
  }[] = []
  oriented.units.forEach((unit, i) => {
    for (const element of unit.other ? [unit.element, unit.other] : [unit.element]) {
      for (const end of [0, 1] as const) {
        if (element === unit.other && end === 0) continue
        const terminal = element.ends[end]
        const head = nets.heads.get(terminal)
        const joined = nets.of.get(terminal)
        const side = head === undefined ? 'left' : oriented.side(element, head)
        const east = (end === 1) !== unit.flipped
        const port = `p${i}.${end}${element === unit.other ? 'o' : ''}`
        // An end that sits on a pole itself is a tap of its own.
        const spot = joined === undefined ? port : head === undefined ? `${joined}` : `${joined} ${side}`
        ends.push({ spot, joined, terminal, head, side, at: { unit: i, element, end, port }, east })
      }
    }
  })
  const groups = new Map<string, typeof ends>()
  for (const e of ends) {
    const group = groups.get(e.spot)
    if (group) group.push(e)
    else groups.set(e.spot, [e])
  }
  return [...groups.values()].map((group, n): DrawNet => {
    const first = group[0]
    if (!first) throw new Error('a net has at least one end')
    const joined = first.joined === undefined ? undefined : nets.joined[first.joined]
    const drivers = group.filter((e) => e.east).map((e) => e.at)
    const takers = group.filter((e) => !e.east).map((e) => e.at)
    const terminals = joined?.terminals ?? [first.terminal]
    const wires = joined?.wires ?? []
    const rail = first.head === undefined ? {} : { rail: { head: first.head, side: first.side, port: `n${n}` } }
    const standing = new Set(group.map((e) => e.terminal))
    const others = terminals.filter((t) => !standing.has(t))
    const needsStub =
      first.head === undefined &&
      (drivers.length === 0 || takers.length === 0) &&
      (group.length > 1 || others.length > 0)
    const side = drivers.length === 0 ? ('left' as const) : ('right' as const)
    const stub = needsStub ? { stub: { id: `s${n}`, side, words: group.length === 1 ? others.join(', ') : '' } } : {}
    return { terminals, wires, ...rail, drivers, takers, ...stub }
  })
}

function sizesOf(circuit: Circuit, nets: Nets, oriented: Oriented, words: readonly Words[]): Size[] {
  const reach = (terminal: TerminalId) => {
    const joined = nets.of.get(terminal)
    const wires = joined === undefined ? [] : (nets.joined[joined]?.wires ?? [])
    const letters = coloursAt(circuit, wires, terminal).join(' ')
    return beside + Math.max(16, textWidth(tagOf(terminal), tagSize, 600), textWidth(letters, tagSize, 600)) + 2
  }
  const own = oriented.units.map((unit, i): Size => {
    const said = words[i]
    const lines = said?.lines ?? []
    const text =
      Math.max(
        textWidth(said?.name ?? '', nameSize, 700),
        said?.reason ?? 0,
        ...lines.map((l) => textWidth(l, noteSize)),
      ) /
        2 +
      5
    const [first, second] = unit.element.ends
    const [west, east] = unit.flipped ? [second, first] : [first, second]
    let left = Math.max(text, reach(west))
    let right = Math.max(text, reach(east))
    if (unit.other) {
      // The other throw's words stand under the hinge, beside the upright lead to it.
      const other = wordsOf(circuit, unit.other)
      const wide = Math.max(
        textWidth(other.name, nameSize, 700),
        other.reason,
        ...other.lines.map((l) => textWidth(l, noteSize)),
      )
      if (unit.flipped) {
        left = Math.max(left, reach(unit.other.ends[1]))
        right = Math.max(right, wide - 2)
      } else {
        right = Math.max(right, reach(unit.other.ends[1]))
        left = Math.max(left, wide - 2)
      }
    }
    return {
      left,
      right,
      top: above + lineHeight * Math.max(0, lines.length - 1),
      bottom: below + (unit.other ? pitch : 0),
    }
  })
  // One width a column, so that symbols stand exactly under each other.
  return own.map((size, i) => {
    const column = oriented.units[i]?.column
    const peers = own.filter((_, j) => oriented.units[j]?.column === column)
    return {
      ...size,
      left: Math.ceil(Math.max(...peers.map((p) => p.left))),
      right: Math.ceil(Math.max(...peers.map((p) => p.right))),
    }
  })
}

/** A row for every unit: a branch walked from the left keeps its row, every further one opens the next. */
function rowsOf(oriented: Oriented, poles: readonly string[]): number[] {
  const from = new Map<Spot, number[]>()
  oriented.units.forEach((unit, i) => {
    for (const s of unit.from) from.set(s, [...(from.get(s) ?? []), i])
  })
  // Rows of the first return stand above those of the next.
  const returns = new Map<number, number>()
  const returnsTo = (i: number): number => {
    const known = returns.get(i)
    if (known !== undefined) return known
    returns.set(i, poles.length)
    const onward = (oriented.units[i]?.to ?? []).flatMap((s) =>
      typeof s === 'string' ? [poles.indexOf(s.slice(s.indexOf(':') + 1))] : (from.get(s) ?? []).map(returnsTo),
    )
    const first = Math.min(poles.length, ...onward)
    returns.set(i, first)
    return first
  }
  const rows = new Array<number>(oriented.units.length).fill(-1)
  let last = -1
  const order = oriented.units
    .map((_, i) => i)
    .sort(
      (a, b) =>
        (oriented.units[a]?.column ?? 0) - (oriented.units[b]?.column ?? 0) || returnsTo(a) - returnsTo(b) || a - b,
    )
  for (const start of order) {
    if (rows[start] !== -1) continue
    const stack = [{ unit: start, row: ++last }]
    for (let at = stack.pop(); at; at = stack.pop()) {
      if (rows[at.unit] !== -1) continue
      rows[at.unit] = at.row < 0 ? ++last : at.row
      const row = rows[at.unit] ?? 0
      const next = (oriented.units[at.unit]?.to ?? []).flatMap((s) => from.get(s) ?? []).filter((i) => rows[i] === -1)
      // What a person only presses for a moment branches off; what stays closed goes straight on.
      next.sort((a, b) => momentary(oriented.units[a]) - momentary(oriented.units[b]) || returnsTo(a) - returnsTo(b))
      for (let i = next.length - 1; i >= 0; i--) stack.push({ unit: next[i] ?? 0, row: i === 0 ? row : -1 })
    }
  }
  return rows
}

/**
 * Where each unit stood before; what is new takes the height of a neighbour, of one it shares a wire with and nothing
 * else if it can. Nothing where too little is left of the drawing before to go by.
 */
function heightsOf(oriented: Oriented, previous: Plan | undefined): number[] | undefined {
  if (!previous) return undefined
  const before = new Map(previous.elements.map((e) => [e.id, e.y]))
  const { units } = oriented
  const heights = units.map((u) => before.get(u.element.id))
  if (heights.filter((y) => y !== undefined).length < units.length / 2) return undefined
  const at = new Map<Spot, number[]>()
  units.forEach((u, i) => {
    for (const s of [...u.from, ...u.to]) at.set(s, [...(at.get(s) ?? []), i])
  })
  const foot = Math.max(0, ...before.values()) + pitch
  for (let open = heights.filter((y) => y === undefined).length; open > 0; ) {
    const found = units.flatMap((u, i) => {
      if (heights[i] !== undefined) return []
      const beside = [...u.to, ...u.from].flatMap((s) => {
        const peers = at.get(s) ?? []
        const known = peers.flatMap((p) => heights[p] ?? [])
        return known.length === 0
          ? []
          : [{ count: typeof s === 'string' ? peers.length + 1e3 : peers.length, y: Math.min(...known) }]
      })
      const nearest = beside.sort((a, b) => a.count - b.count)[0]
      return nearest ? [{ i, y: nearest.y }] : []
    })
    for (const { i, y } of found) heights[i] = y
    open -= found.length
    if (found.length === 0) break
  }
  return heights.map((y) => y ?? foot)
}

function momentary(unit: Unit | undefined): number {
  return unit?.element.figure.kind === 'contact' && unit.element.figure.by === 'push' ? 1 : 0
}

/** One way to lay the sheet out. */
export interface Start {
  readonly seed: number
  /** Keep to the order of our rows where ELK has a choice. */
  readonly ordered: boolean
  readonly thoroughness: number
}

export const starts: readonly Start[] = [
  { seed: 1, ordered: true, thoroughness: 20 },
  { seed: 2, ordered: false, thoroughness: 20 },
  { seed: 3, ordered: true, thoroughness: 10 },
  { seed: 4, ordered: false, thoroughness: 60 },
  { seed: 5, ordered: false, thoroughness: 20 },
]

/** Columns are told to ELK as places wider apart than any box. */
const columnStep = 2000

export function graphOf(sheet: Sheet, start: Start): ElkNode {
  const { oriented, sizes, rows, members, poles, settled } = sheet
  const drawNets = sheet.drawNets.filter((net) => [...net.drivers, ...net.takers].some((e) => members.has(e.unit)))
  const children: { node: ElkNode; row: number }[] = []
  oriented.units.forEach((unit, i) => {
    if (!members.has(i)) return
    const size = sizes[i]
    if (!size) throw new Error(`unit ${unit.element.id} has no size`)
    const width = size.left + size.right
    const west = { x: 0, y: size.top }
    const east = { x: width, y: size.top }
    const ports: ElkPort[] = [
      port(`p${i}.0`, unit.flipped ? east : west, unit.flipped),
      port(`p${i}.1`, unit.flipped ? west : east, !unit.flipped),
    ]
    if (unit.other) {
      ports.push(
        port(
          `p${i}.1o`,
          unit.flipped ? { x: 0, y: size.top + pitch } : { x: width, y: size.top + pitch },
          !unit.flipped,
        ),
      )
    }
    children.push({
      row: rows[i] ?? 0,
      node: {
        id: `u${i}`,
        width,
        height: size.top + size.bottom,
        x: unit.column * columnStep,
        y: rows[i] ?? 0,
        ports,
        layoutOptions: {
          'elk.portConstraints': 'FIXED_POS',
          ...(settled && { 'elk.position': `(0,${rows[i] ?? 0})` }),
        },
      },
    })
  })

  const edges: ElkExtendedEdge[] = []
  const join = (a: string, b: string, straightness: number) =>
    edges.push({
      id: `e${edges.length}`,
      sources: [a],
      targets: [b],
      layoutOptions: { 'elk.layered.priority.straightness': `${straightness}` },
    })
  const rowAt = (end: End) => rows[end.unit] ?? 0
  const taps = new Map<string, { port: string; row: number; width: number }[]>()
  for (const net of drawNets) {
    const { drivers, takers, rail, stub } = net
    const two = drivers.length + takers.length + (rail ? 1 : 0) === 2
    if (rail) {
      const key = `${rail.side}:${rail.head}`
      const ends = rail.side === 'left' ? takers : drivers
      const row = Math.min(...ends.map(rowAt))
      taps.set(key, [...(taps.get(key) ?? []), { port: rail.port, row, width: tapReach(sheet, net) }])
      for (const end of ends) {
        const weight = two || rowAt(end) === row ? 10 : 1
        if (rail.side === 'left') join(rail.port, end.port, weight)
        else join(end.port, rail.port, weight)
      }
      continue
    }
    if (stub) {
      const words = stub.words === '' ? 0 : textWidth(stub.words, tagSize, 600) + 14
      const ends = stub.side === 'left' ? takers : drivers
      const columns = ends.map((e) => oriented.units[e.unit]?.column ?? 0)
      const column = stub.side === 'left' ? Math.min(...columns) - 1 : Math.max(...columns) + 1
      const x = stub.side === 'left' ? words : 0
      children.push({
        row: Math.min(...ends.map(rowAt)),
        node: {
          id: stub.id,
          width: words,
          height: 24,
          x: column * columnStep,
          y: 0,
          ports: [port(`${stub.id}p`, { x, y: 12 }, stub.side === 'left')],
          layoutOptions: { 'elk.portConstraints': 'FIXED_POS' },
        },
      })
      for (const end of ends) {
        if (stub.side === 'left') join(`${stub.id}p`, end.port, ends.length === 1 ? 10 : 5)
        else join(end.port, `${stub.id}p`, ends.length === 1 ? 10 : 5)
      }
      continue
    }
    const lead = drivers.find((d) => takers.some((t) => rowAt(t) === rowAt(d))) ?? drivers[0]
    if (!lead || takers.length === 0) continue
    const straight = takers.find((t) => rowAt(t) === rowAt(lead)) ?? takers[0]
    for (const taker of takers) join(lead.port, taker.port, two ? 10 : taker === straight ? 5 : 1)
    for (const driver of drivers) if (driver !== lead && straight) join(driver.port, straight.port, 1)
  }

  for (const side of ['left', 'right'] as const) {
    // Rails of one side stand under each other.
    const width = Math.max(
      24,
      ...sheet.drawNets.filter((net) => net.rail?.side === side).map((net) => tapReach(sheet, net)),
    )
    poles.forEach((head, place) => {
      const at = taps.get(`${side}:${head}`)
      if (!at) return
      const ports = [...at].sort((a, b) => a.row - b.row)
      children.push({
        row: Math.min(...ports.map((p) => p.row), 1e6) + place / 10,
        node: {
          id: `rail:${side}:${head}`,
          width,
          height: 84,
          x: (side === 'left' ? -2 : oriented.columns + 1) * columnStep,
          y: 0,
          ports: ports.map((p) => ({
            id: p.port,
            width: 0,
            height: 0,
            layoutOptions: { 'elk.port.side': side === 'left' ? 'EAST' : 'WEST' },
          })),
          layoutOptions: {
            'elk.portConstraints': 'FIXED_SIDE',
            'elk.nodeSize.constraints': 'PORTS MINIMUM_SIZE',
            'elk.nodeSize.minimum': `(${width},84)`,
            'elk.layered.nodePlacement.networkSimplex.nodeFlexibility': 'NODE_SIZE',
            'elk.spacing.portPort': '10',
          },
        },
      })
    })
  }

  children.sort((a, b) => a.row - b.row)
  return {
    id: 'sheet',
    children: children.map((c) => c.node),
    edges,
    layoutOptions: {
      'elk.algorithm': 'layered',
      'elk.direction': 'RIGHT',
      'elk.edgeRouting': 'ORTHOGONAL',
      'elk.layered.cycleBreaking.strategy': 'INTERACTIVE',
      'elk.layered.layering.strategy': 'INTERACTIVE',
      'elk.layered.crossingMinimization.strategy': 'LAYER_SWEEP',
      ...(start.ordered ? { 'elk.layered.considerModelOrder.strategy': 'NODES_AND_EDGES' } : {}),
      ...(settled && { 'elk.layered.crossingMinimization.semiInteractive': 'true' }),
      'elk.layered.thoroughness': `${start.thoroughness}`,
      'elk.randomSeed': `${start.seed}`,
      'elk.layered.nodePlacement.strategy': 'NETWORK_SIMPLEX',
      'elk.layered.spacing.nodeNodeBetweenLayers': '20',
      'elk.layered.spacing.edgeNodeBetweenLayers': '12',
      'elk.layered.spacing.edgeEdgeBetweenLayers': '12',
      'elk.spacing.nodeNode': '8',
      'elk.spacing.edgeNode': '14',
      'elk.spacing.edgeEdge': '12',
      'elk.separateConnectedComponents': 'false',
      'elk.json.edgeCoords': 'ROOT',
    },
  }
}

function port(id: string, at: { x: number; y: number }, east: boolean): ElkPort {
  return { id, ...at, width: 0, height: 0, layoutOptions: { 'elk.port.side': east ? 'EAST' : 'WEST' } }
}

/** Room beside a rail for the colour of a tap. */
function tapReach(sheet: Sheet, net: DrawNet): number {
  const letters = new Set<string>()
  for (const id of net.wires) {
    const wire = sheet.circuit.elements.get(id)
    if (wire?.wire?.colour && wire.ends.some((t) => !net.terminals.includes(t))) letters.add(wire.wire.colour)
  }
  return 10 + Math.max(16, textWidth([...letters].join(' '), tagSize, 600))
}
