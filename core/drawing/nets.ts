import type { Circuit, Element, ElementId, TerminalId } from '../circuit/model.ts'

/** Terminals joined by wires, none of them a pole or the chassis. */
export interface Joined {
  readonly terminals: readonly TerminalId[]
  readonly wires: readonly ElementId[]
  /** The pole whose rail it is a tap of: `L1`, `N`, `chassis`; absent for a net on its own. */
  readonly head?: string
}

/** What hangs between the rails of one source: a supply, or the secondaries of a transformer that share a terminal. */
export interface Ladder {
  /** Names of its rails, the one at the left first: `L1`, `L2`, `N`; `aux.+`; `T1.R`. */
  readonly rails: readonly string[]
}

export interface Nets {
  /** In the order they stand, from the top. The chassis is a rail of the first. */
  readonly ladders: readonly Ladder[]
  /** Everything joined by wires. A tap of a rail is an entry of its own. */
  readonly joined: readonly Joined[]
  /** Index in `joined`, by terminal. Poles and the chassis are in none. */
  readonly of: ReadonlyMap<TerminalId, number>
  /** Rail of a terminal: its own pole, or that of the tap it is in. */
  readonly heads: ReadonlyMap<TerminalId, string>
  /** Wires that would join two rails, and wires to ground that no current uses: drawn apart. */
  readonly apart: readonly ElementId[]
  /** Elements to draw: neither wires nor the sources behind the poles. Secondaries are drawn, between their rails. */
  readonly drawn: readonly Element[]
}

/** The chassis and the protective ground are one rail, which is there only if some element returns to it. */
export const chassis = 'chassis'

export function netsOf(circuit: Circuit): Nets {
  const { ladders, heads, behind } = laddersOf(circuit)
  const wires: Element[] = []
  const drawn: Element[] = []
  for (const element of circuit.elements.values()) {
    if (element.figure.kind === 'wire' || element.role === 'wire') wires.push(element)
    else if (!element.ends.some((end) => behind.has(end))) drawn.push(element)
  }

  const root = new Map<TerminalId, TerminalId>()
  const find = (t: TerminalId): TerminalId => {
    let at = t
    for (let up = root.get(at); up !== undefined && up !== at; up = root.get(at)) at = up
    root.set(t, at)
    return at
  }
  const all = new Set<TerminalId>(circuit.terminals)
  for (const element of [...wires, ...drawn]) for (const end of element.ends) all.add(end)
  for (const t of all) if (!heads.has(t) && !behind.has(t)) root.set(t, t)
  for (const { ends } of wires) if (!ends.some((end) => heads.has(end))) root.set(find(ends[1]), find(ends[0]))

  // The first rail a group of terminals is wired to has it; a wire on to another rail is drawn apart.
  const headOf = new Map<TerminalId, string>()
  const apart: ElementId[] = []
  const own: { wire: Element; group: TerminalId }[] = []
  for (const wire of wires) {
    const [a, b] = wire.ends
    const head = heads.get(a) ?? heads.get(b)
    if (head === undefined) own.push({ wire, group: find(a) })
    else if (heads.has(a) && heads.has(b)) apart.push(wire.id)
    else {
      const group = find(heads.has(a) ? b : a)
      if ((headOf.get(group) ?? head) === head) {
        headOf.set(group, head)
        own.push({ wire, group })
      } else apart.push(wire.id)
    }
  }

  const standing = new Set(
    drawn
      .flatMap((element) => element.ends)
      .filter((end) => !heads.has(end))
      .map(find),
  )
  const groups = new Map<TerminalId, TerminalId[]>()
  for (const t of root.keys()) {
    const group = groups.get(find(t))
    if (group) group.push(t)
    else groups.set(find(t), [t])
  }
  const of = new Map<TerminalId, number>()
  const joined: Joined[] = []
  for (const [group, terminals] of groups) {
    const mine = own.filter((o) => o.group === group).map((o) => o.wire.id)
    if (!standing.has(group)) {
      // Nothing to stand beside: the wires are drawn on their own.
      apart.push(...mine)
      continue
    }
    const head = headOf.get(group)
    for (const t of terminals) of.set(t, joined.length)
    joined.push({ terminals, wires: mine, ...(head === undefined ? {} : { head }) })
    if (head !== undefined) for (const t of terminals) heads.set(t, head)
  }
  const order = [...circuit.elements.keys()]
  const place = new Map(order.map((id, i) => [id, i]))
  apart.sort((a, b) => (place.get(a) ?? 0) - (place.get(b) ?? 0))
  return { ladders, joined, of, heads, apart, drawn }
}

/**
 * A pole of the first supply is called by its name, any other rail by its terminal, so that no two can be mistaken. A
 * transformer is the border between two ladders: its primary is a load of one, its secondary heads the other.
 */
function laddersOf(circuit: Circuit) {
  const heads = new Map<TerminalId, string>([[chassis, chassis]])
  const behind = new Set<TerminalId>()
  const ladders: { rails: string[] }[] = []
  circuit.supplies.forEach((supply, i) => {
    const rails: string[] = []
    for (const pole of supply.poles) {
      const name = pole.name === 'G' ? chassis : i === 0 ? pole.name : pole.terminal
      heads.set(pole.terminal, name)
      behind.add(pole.behind)
      if (name !== chassis) rails.push(name)
    }
    ladders.push({ rails })
  })
  const [first] = ladders
  if (first) first.rails.push(chassis)
  else ladders.push({ rails: [chassis] })
  const secondaries: { terminals: TerminalId[]; rails: string[] }[] = []
  for (const { coupled, ends } of circuit.elements.values()) {
    if (!coupled) continue
    let own = secondaries.find((s) => ends.some((end) => s.terminals.includes(end)))
    if (!own) {
      own = { terminals: [], rails: [] }
      secondaries.push(own)
    }
    for (const end of ends) {
      if (heads.has(end)) continue
      heads.set(end, end)
      own.terminals.push(end)
      own.rails.push(end)
    }
  }
  ladders.push(...secondaries.filter((s) => s.rails.length > 0).map(({ rails }) => ({ rails })))
  return { ladders, heads, behind }
}
