import type { ElkExtendedEdge, ElkNode, ElkPort } from 'elkjs/lib/elk-api'
import type { Element } from '../circuit/model.ts'
import type { Sheet } from './layout.ts'
import type { Box, Point } from './plan.ts'

/** Units that share nothing with the rest but rails, and the places of those rails in `Sheet.poles`. */
export interface Group {
  readonly units: readonly number[]
  readonly left: readonly number[]
  readonly right: readonly number[]
}

export interface LaidGroup extends Group {
  readonly laid: ElkNode
}

/**
 * A sheet is laid out in groups, then stacked: fast for large units, and the taps of one pole stand together. Groups that
 * share two rails of one side are one, for their order is a single question.
 */
export function groupsOf(sheet: Sheet): Group[] {
  const { oriented, drawNets, poles } = sheet
  const root = oriented.units.map((_, i) => i)
  const find = (i: number): number => {
    let at = i
    while (root[at] !== at) at = root[at] ?? at
    root[i] = at
    return at
  }
  for (const net of drawNets) {
    const units = [...net.drivers, ...net.takers].map((e) => e.unit)
    for (const u of units) root[find(u)] = find(units[0] ?? u)
  }
  const gather = (): Group[] => {
    const groups = new Map<number, { units: number[]; left: Set<number>; right: Set<number> }>()
    oriented.units.forEach((_, i) => {
      const group = groups.get(find(i))
      if (group) group.units.push(i)
      else groups.set(find(i), { units: [i], left: new Set(), right: new Set() })
    })
    for (const { rail, drivers, takers } of drawNets) {
      const first = drivers[0] ?? takers[0]
      if (rail && first) groups.get(find(first.unit))?.[rail.side].add(poles.indexOf(rail.head))
    }
    return [...groups.values()].map((g) => ({ units: g.units, left: [...g.left], right: [...g.right] }))
  }
  for (const side of ['left', 'right'] as const) {
    const mixed = gather().filter((g) => g[side].length > 1)
    mixed.forEach((g, i) => {
      const like = mixed.slice(0, i).find((m) => m[side].filter((rail) => g[side].includes(rail)).length > 1)
      if (like) root[find(g.units[0] ?? 0)] = find(like.units[0] ?? 0)
    })
  }
  return gather()
}

/**
 * Groups from the top down: ladder by ladder, a secondary at the head of its own and its primary at the foot of the one
 * above; in a ladder by the usual order of poles, unless a group with several rails has them otherwise.
 */
export function inOrder(sheet: Sheet, groups: readonly LaidGroup[]): LaidGroup[] {
  const ranks = { left: sheet.poles.map((_, i) => i), right: sheet.poles.map((_, i) => i) }
  for (const side of ['left', 'right'] as const) {
    for (const mixed of groups.filter((g) => g[side].length > 1)) {
      const heights = new Map((mixed.laid.children ?? []).map((n) => [n.id, n.y ?? 0]))
      const height = (rail: number) => heights.get(`rail:${side}:${sheet.poles[rail]}`) ?? 0
      const usual = mixed[side].map((rail) => ranks[side][rail] ?? rail).sort((a, b) => a - b)
      const drawn = [...mixed[side]].sort((a, b) => height(a) - height(b))
      drawn.forEach((rail, i) => {
        ranks[side][rail] = usual[i] ?? rail
      })
    }
  }
  const ladderOf = sheet.nets.ladders.flatMap((l, i) => l.rails.map(() => i))
  const ladder = (g: Group) => {
    const [rail] = [...g.left, ...g.right]
    return rail === undefined ? ladderOf.length : (ladderOf[rail] ?? ladderOf.length)
  }
  const mean = (side: 'left' | 'right', rails: readonly number[]) =>
    rails.length === 0 ? sheet.poles.length : rails.reduce((sum, r) => sum + (ranks[side][r] ?? r), 0) / rails.length
  const elements = sheet.oriented.units.map((u) => u.element)
  const primaries = new Set(elements.flatMap((e) => (e.coupled ? [e.coupled.primary] : [])))
  const some = (g: Group, is: (e: Element) => boolean) =>
    g.units.some((u) => elements[u] !== undefined && is(elements[u])) ? 1 : 0
  const height = (g: Group) => g.units.reduce((sum, u) => sum + (sheet.rows[u] ?? 0), 0) / g.units.length
  return groups
    .map((g, i) => ({ g, i }))
    .sort(
      (a, b) =>
        ladder(a.g) - ladder(b.g) ||
        some(b.g, (e) => e.coupled !== undefined) - some(a.g, (e) => e.coupled !== undefined) ||
        mean('left', a.g.left) - mean('left', b.g.left) ||
        mean('right', a.g.right) - mean('right', b.g.right) ||
        some(a.g, (e) => primaries.has(e.id)) - some(b.g, (e) => primaries.has(e.id)) ||
        (sheet.settled ? height(a.g) - height(b.g) : 0) ||
        a.i - b.i,
    )
    .map(({ g }) => g)
}

/** Between two groups, px. */
const gap = 8

/** What a group covers, rails aside. */
function coverOf({ laid }: LaidGroup): Box {
  const nodes = (laid.children ?? []).filter((n) => !n.id.startsWith('rail:'))
  const points = (laid.edges ?? [])
    .flatMap((e) => e.sections ?? [])
    .flatMap((s) => [s.startPoint, ...(s.bendPoints ?? []), s.endPoint])
  const x = Math.min(...nodes.map((n) => n.x ?? 0))
  const y = Math.min(...nodes.map((n) => n.y ?? 0), ...points.map((p) => p.y - 12))
  const right = Math.max(...nodes.map((n) => (n.x ?? 0) + (n.width ?? 0)))
  const foot = Math.max(...nodes.map((n) => (n.y ?? 0) + (n.height ?? 0)), ...points.map((p) => p.y + 12))
  return { x, y, width: right - x, height: foot - y }
}

/** Islands stand in rows of at least this width, px. */
const islandRow = 900

/** Groups one below the other between common rails, columns aligned; islands that hang on no rail side by side below. */
export function stack(sheet: Sheet, groups: readonly LaidGroup[]): ElkNode {
  if (groups.length === 0) return { id: 'sheet' }
  if (groups.length === 1 && groups[0]) return groups[0].laid
  const hung = groups.filter((g) => g.left.length + g.right.length > 0)
  const islands = groups.filter((g) => !hung.includes(g))
  const shifts = hung.map((g) => columnsOf(sheet, g.units, g.laid))
  align(shifts)
  const children: ElkNode[] = []
  const edges: ElkExtendedEdge[] = []
  const taps: Tap[] = []
  const put = (laid: ElkNode, mark: string, x: (v: number) => number, dy: number) => {
    for (const node of laid.children ?? []) {
      const moved = { ...node, x: x(node.x ?? 0), y: (node.y ?? 0) + dy }
      if (!node.id.startsWith('rail:')) {
        children.push(moved)
        continue
      }
      const ports = (node.ports ?? []).map((p) => ({ ...p, y: (p.y ?? 0) + moved.y }))
      taps.push({ id: node.id, rail: moved, ports, y: Math.min(...ports.map((p) => p.y)) })
    }
    for (const edge of laid.edges ?? []) {
      const point = (p: Point) => ({ x: x(p.x), y: p.y + dy })
      const sections = (edge.sections ?? []).map((s) => ({
        ...s,
        startPoint: point(s.startPoint),
        endPoint: point(s.endPoint),
        bendPoints: (s.bendPoints ?? []).map(point),
      }))
      edges.push({ ...edge, id: `${mark}${edge.id}`, sections })
    }
  }
  let top = 0
  hung.forEach((group, g) => {
    const cover = coverOf(group)
    put(group.laid, `g${g}`, (v) => shift(shifts[g] ?? [], v), top - cover.y)
    top += cover.height + gap
  })
  const ends = children.map((n) => (n.x ?? 0) + (n.width ?? 0))
  const left = Math.min(0, ...children.map((n) => n.x ?? 0))
  const right = Math.max(left + islandRow, ...ends)
  let at = left
  let foot = top
  islands.forEach((group, g) => {
    const cover = coverOf(group)
    if (at > left && at + cover.width > right) {
      at = left
      top = foot
    }
    put(group.laid, `i${g}`, (v) => v - cover.x + at, top - cover.y)
    at += cover.width + 4 * gap
    foot = Math.max(foot, top + cover.height + gap)
  })
  return { id: 'sheet', children: [...children, ...railsFrom(taps)], edges }
}

interface Tap {
  readonly id: string
  readonly rail: ElkNode
  readonly ports: readonly ElkPort[]
  readonly y: number
}

/** Rails of all groups in one: in one piece if none of its side comes between, else in several of one name. */
function railsFrom(taps: readonly Tap[]): ElkNode[] {
  const out: (ElkNode & { ports: ElkPort[] })[] = []
  for (const side of ['left', 'right']) {
    let last: { id: string; node: ElkNode & { ports: ElkPort[] } } | undefined
    for (const { id, rail, ports } of taps.filter((t) => t.id.startsWith(`rail:${side}:`)).sort((a, b) => a.y - b.y)) {
      if (last?.id === id) last.node.ports.push(...ports)
      else {
        last = { id, node: { ...rail, y: 0, ports: [...ports] } }
        out.push(last.node)
      }
    }
  }
  return out
}

interface Step {
  readonly column: number
  readonly from: number
  by: number
}

/** Where each column of a group begins; the rails are columns too. */
function columnsOf(sheet: Sheet, units: readonly number[], laid: ElkNode): Step[] {
  const at = new Map<number, number>()
  const note = (column: number, x: number) => at.set(column, Math.min(at.get(column) ?? x, x))
  const nodes = new Map((laid.children ?? []).map((n) => [n.id, n]))
  for (const u of units) note(sheet.oriented.units[u]?.column ?? 0, nodes.get(`u${u}`)?.x ?? 0)
  for (const [id, n] of nodes) {
    if (id.startsWith('rail:left:')) note(-2, n.x ?? 0)
    if (id.startsWith('rail:right:')) note(sheet.oriented.columns + 1, n.x ?? 0)
  }
  return [...at].map(([column, from]) => ({ column, from, by: 0 })).sort((a, b) => a.column - b.column)
}

/** Move columns to the right, never to the left, until each stands at one place in all groups. */
function align(groups: Step[][]): void {
  const columns = [...new Set(groups.flat().map((s) => s.column))].sort((a, b) => a - b)
  const last = groups.map(() => 0)
  for (const column of columns) {
    const place = Math.max(
      ...groups.flatMap((g, i) => g.filter((s) => s.column === column).map((s) => s.from + (last[i] ?? 0))),
    )
    groups.forEach((g, i) => {
      const step = g.find((s) => s.column === column)
      if (!step) return
      step.by = place - step.from
      last[i] = step.by
    })
  }
}

function shift(steps: readonly Step[], x: number): number {
  let by = steps[0]?.by ?? 0
  for (const s of steps) if (x >= s.from - 0.01) by = s.by
  return x + by
}
