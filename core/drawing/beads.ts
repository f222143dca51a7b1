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
  /** One element, or parallel ones side by side. */
  | { readonly kind: 'place'; readonly beads: readonly Bead[] }

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
    stops.push({ kind: 'place', beads: parts.map((e) => beadOf(circuit, frame, trace, e, before, after)) })
  })
  return stops
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
