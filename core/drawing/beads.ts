import type { Circuit, Element, ElementId, TerminalId } from '../circuit/model.ts'
import type { Feed, Frame, LoadTrace } from '../strings/trace.ts'
import { tagOf, waitsFor } from './measure.ts'
import type { BladeState } from './symbols.ts'

/** One element of a string, as a bead shows it. */
export interface Bead {
  readonly element: Element
  readonly name: string
  readonly note: string
  /** Entered at its second end. */
  readonly flipped: boolean
  /** Tags where the string enters and leaves. */
  readonly tags: readonly [string, string]
  readonly blade: BladeState
  readonly conducts: boolean
  /** A load at work. */
  readonly on: boolean
  readonly mark: 'load' | 'must-be-closed' | 'any-of' | 'none'
  readonly reason?: string
  readonly flag?: string
  /** Where it sits: `Rear panel, 8 min`. */
  readonly area?: string
  readonly feed: Feed
}

/** A stop of a string, from the first pole to the return. */
export type Stop =
  /** A place a probe can touch: the wire between two beads, both of its ends. */
  | {
      readonly kind: 'point'
      readonly wires: readonly ElementId[]
      readonly terminals: readonly TerminalId[]
      readonly colour?: string
      /** Letters of IEC 60757 to paint it by, where its own are others. */
      readonly paint?: string
      readonly feed: Feed
    }
  /** One element, or parallel stretches side by side: `rows`, each in the order current meets its beads. */
  | { readonly kind: 'place'; readonly beads: readonly Bead[]; readonly rows: readonly (readonly Bead[])[] }

/** The string of a load, stop by stop; the would-be string of a load that is off. */
export function stopsOf(circuit: Circuit, frame: Frame, trace: LoadTrace): Stop[] {
  const places = trace.path.length > 0 ? trace.path : trace.order.length > 0 ? trace.order : [[trace.load]]
  const stops: Stop[] = []
  places.forEach((place, at) => {
    const elements = place.flatMap((id) => circuit.elements.get(id) ?? [])
    const parts = elements.filter((e) => e.role !== 'wire')
    if (parts.length === 0) {
      const point = pointOf(elements, frame)
      if (point) stops.push(point)
      return
    }
    // Two beads without a wire between them share a tab, and a probe reaches it.
    const last = stops.at(-1)
    if (last?.kind === 'place') {
      const shared = last.beads.flatMap((b) => b.element.ends).find((t) => parts.some((p) => p.ends.includes(t)))
      stops.push({
        kind: 'point',
        wires: [],
        terminals: shared === undefined ? [] : [shared],
        feed: last.beads[0]?.feed ?? 'dead',
      })
    }
    const before = endsAround(circuit, places, at, -1)
    const after = endsAround(circuit, places, at, 1)
    const chains = chainsOf(elements, before, after)
    // Within a stretch the neighbours tell which way a bead is entered.
    const ends = (chain: readonly Element[] | undefined, i: number, by: -1 | 1, outside: ReadonlySet<TerminalId>) => {
      const next = chain?.[i + by]
      return next ? joinedWith(elements, next.ends) : outside
    }
    const rows = chains.map((chain) =>
      chain.map((e, i) => beadOf(circuit, frame, trace, e, ends(chain, i, -1, before), ends(chain, i, 1, after))),
    )
    stops.push({ kind: 'place', beads: rows.flat(), rows })
  })
  return stops
}

/**
 * The stretches of a place from its first end to its last, each a row of elements one behind the other. Where stretches
 * are joined between their ends too, every element is a row of its own.
 */
function chainsOf(
  place: readonly Element[],
  before: ReadonlySet<TerminalId>,
  after: ReadonlySet<TerminalId>,
): readonly (readonly Element[])[] {
  const parts = place.filter((e) => e.role !== 'wire')
  const alone = parts.map((e) => [e])
  if (parts.length < 3) return alone
  const node = (t: TerminalId) => [...joinedWith(place, [t])].sort()[0] ?? t
  const at = new Map<TerminalId, Element[]>()
  for (const e of parts) for (const t of e.ends) at.set(node(t), [...(at.get(node(t)) ?? []), e])
  const outer = [...at.keys()].filter((n) => at.get(n)?.length !== 2)
  const touches = (n: TerminalId, set: ReadonlySet<TerminalId>) => [...joinedWith(place, [n])].some((t) => set.has(t))
  const ends = outer.length === 2 ? outer : [...at.keys()].filter((n) => touches(n, before) || touches(n, after))
  if (ends.length !== 2) return alone
  const [first, last] = touches(ends[1] ?? '', before) || touches(ends[0] ?? '', after) ? ends.reverse() : ends
  const chains = (at.get(first ?? '') ?? []).map((start) => {
    const chain = [start]
    let from = first
    for (let e: Element | undefined = start; e; ) {
      const [a, b]: readonly TerminalId[] = e.ends.map(node)
      from = a === from ? b : a
      if (from === last) break
      e = at.get(from ?? '')?.find((other) => !chain.includes(other))
      if (e) chain.push(e)
    }
    return chain
  })
  return chains.flat().length === parts.length ? chains : alone
}

/** Terminals that wires of a place join to these, and these. */
function joinedWith(place: readonly Element[], terminals: readonly TerminalId[]): Set<TerminalId> {
  const found = new Set(terminals)
  for (let size = 0; size !== found.size; ) {
    size = found.size
    for (const { role, ends } of place)
      if (role === 'wire' && ends.some((t) => found.has(t))) for (const t of ends) found.add(t)
  }
  return found
}

function pointOf(wires: readonly Element[], frame: Frame): Stop | undefined {
  const first = wires[0]
  if (!first) return undefined
  const coloured = wires.find((w) => w.wire?.colour !== undefined)?.wire
  return {
    kind: 'point',
    wires: wires.map((w) => w.id),
    terminals: [...new Set(wires.flatMap((w) => w.ends))],
    ...(coloured?.colour !== undefined && { colour: coloured.colour, ...(coloured.iec && { paint: coloured.iec }) }),
    feed: frame.feed.get(first.id) ?? 'dead',
  }
}

/** Terminals of the places before (`step` −1) or after a place, nearest first, until an element has been met. */
function endsAround(
  circuit: Circuit,
  places: readonly (readonly ElementId[])[],
  at: number,
  step: -1 | 1,
): Set<TerminalId> {
  const found = new Set<TerminalId>()
  for (let i = at + step; i >= 0 && i < places.length; i += step) {
    const elements = (places[i] ?? []).flatMap((id) => circuit.elements.get(id) ?? [])
    for (const e of elements) for (const t of e.ends) found.add(t)
    if (elements.some((e) => e.role !== 'wire')) break
  }
  return found
}

function beadOf(
  circuit: Circuit,
  frame: Frame,
  trace: LoadTrace,
  element: Element,
  before: ReadonlySet<TerminalId>,
  after: ReadonlySet<TerminalId>,
): Bead {
  const [a, b] = element.ends
  const flipped = before.has(a) !== before.has(b) ? before.has(b) : after.has(a) && !after.has(b)
  const part = circuit.parts.get(element.part)
  const conducts = frame.conducts.has(element.id)
  const reason = conducts
    ? undefined
    : (trace.heldOpen.find((h) => h.element === element.id)?.reason ?? frame.why.get(element.id))
  const area = part?.area === undefined ? undefined : circuit.areas.get(part.area)
  const waits =
    element.id === trace.load ? undefined : waitsFor(circuit, element).find((w) => trace.enablers.includes(w.load))
  const switches = element.role === 'contact' || element.role === 'link'
  const mark =
    element.id === trace.load
      ? ('load' as const)
      : trace.anyOf.some((group) => group.includes(element.id))
        ? ('any-of' as const)
        : trace.mustBeClosed.includes(element.id) || (!trace.on && switches && conducts)
          ? ('must-be-closed' as const)
          : ('none' as const)
  const single = part !== undefined && part.elements.length === 1
  return {
    element,
    name: single ? part.name : element.id,
    note: part?.label || element.note,
    flipped,
    tags: flipped ? [tagOf(b), tagOf(a)] : [tagOf(a), tagOf(b)],
    blade: conducts ? 'closed' : reason === undefined ? 'open' : 'wide',
    conducts,
    on: frame.on.has(element.id),
    mark,
    ...(reason !== undefined && { reason }),
    ...(waits && { flag: waits.name }),
    ...(area && { area: `${area.label}, ${area.minutes} min` }),
    feed: frame.feed.get(element.id) ?? 'dead',
  }
}

/** "OT Operating thermostat, closed, must be closed". */
export function beadInWords(bead: Bead): string {
  const state = bead.conducts
    ? bead.element.figure.kind === 'contact'
      ? 'closed'
      : ''
    : `open${bead.reason === undefined ? '' : `: ${bead.reason}`}`
  const marks = {
    load: 'the load',
    'must-be-closed': 'must be closed',
    'any-of': 'one of these must be closed',
    none: '',
  }
  return [
    `${bead.name} ${bead.note}`.trim(),
    state,
    marks[bead.mark],
    bead.flag === undefined ? '' : `waits for ${bead.flag}`,
    bead.area ?? '',
  ]
    .filter(Boolean)
    .join(', ')
}
