import type { Circuit, ElementId, Setting } from '../circuit/model.ts'
import { abs } from '../network/index.ts'
import { type OperateOptions, type Operation, operate, type Settled } from '../operate/index.ts'
import { driversOf, isHeated } from './drivers.ts'
import { type Frozen, freeze } from './frozen.ts'
import { needsOf, shortsOf } from './needs.ts'
import { orderOf } from './order.ts'
import { whyOpen } from './reason.ts'

/** How many rows are looked through for one where a load is on. */
const ROWS_LOOKED_THROUGH = 2000
/** The most closings that are tried together for a load that no row feeds. */
const MOST_CLOSINGS = 3

export interface Held {
  readonly element: ElementId
  readonly reason: string
}

/** Settings reachable by turning the fewest controls, nearest first; `given` itself is not among them. */
function* rowsByDistance(circuit: Circuit, given: Setting, setting: Setting): Generator<Setting> {
  const controls = [...circuit.controls.values()]
  // A spring-back control that was held, or kept from being pressed, is let go as a row does: left out of what is given.
  const choices = controls.map((c): readonly (string | undefined)[] =>
    c.springsBack ? (given[c.name] === undefined ? [] : [undefined]) : c.positions.filter((p) => p !== setting[c.name]),
  )
  let yielded = 0
  for (let distance = 1; distance <= controls.length; distance++) {
    for (const turned of subsets(controls.length, distance)) {
      for (const picks of product(turned.map((i) => choices[i] ?? []))) {
        const row: Record<string, string> = { ...given }
        turned.forEach((i, k) => {
          const name = controls[i]?.name ?? ''
          const pick = picks[k]
          if (pick === undefined) delete row[name]
          else row[name] = pick
        })
        if (++yielded > ROWS_LOOKED_THROUGH) return
        yield row
      }
    }
  }
}

function* subsets(n: number, size: number, from = 0): Generator<readonly number[]> {
  if (size === 0) yield []
  else for (let i = from; i <= n - size; i++) for (const rest of subsets(n, size - 1, i + 1)) yield [i, ...rest]
}

function* product<T>([first, ...rest]: readonly (readonly T[])[]): Generator<readonly T[]> {
  if (!first) yield []
  else for (const pick of first) for (const more of product(rest)) yield [pick, ...more]
}

/** A row where a load is on, to compare with one where it is off. */
export interface Reference {
  readonly given: Setting
  readonly frozen: Frozen
  readonly changes: number
}

/** Rows operated once for all loads that ask. */
export type OperateRow = (given: Setting) => Operation

/** Remembers what it operated: many loads ask for the same rows. */
export function rememberRows(circuit: Circuit, options: OperateOptions): OperateRow {
  const known = new Map<string, Operation>()
  return (given) => {
    const key = JSON.stringify(Object.entries(given).toSorted(([a], [b]) => (a < b ? -1 : 1)))
    const operation = known.get(key) ?? operate(circuit, given, options)
    known.set(key, operation)
    return operation
  }
}

/** The first phase of a row in which a load is on, else the first state that passes, frozen. */
export function firstOn({ wiring, phases, passing }: Operation, load: number): Frozen | undefined {
  for (const phase of [...phases, ...passing]) {
    const frozen = freeze(wiring, phase)
    if (frozen.isOn(load)) return frozen
  }
  return undefined
}

/** Among the rows of fewest changes where the load is on, the one of which fewest needed elements are open here. */
export function referenceFor(
  circuit: Circuit,
  load: number,
  given: Setting,
  here: Settled,
  rows: OperateRow,
): Reference | undefined {
  let best: (Reference & { readonly open: number }) | undefined
  for (const row of rowsByDistance(circuit, given, here.setting)) {
    const changes = distance(given, row, here.setting)
    if (best && changes > best.changes) break
    const frozen = firstOn(rows(row), load)
    if (!frozen) continue
    const open = needsOf(frozen, load).mustBeClosed.filter((i) => (here.solved.active[i] ?? -1) < 0).length
    if (!best || open < best.open) best = { given: row, frozen, changes, open }
  }
  return best
}

const distance = (given: Setting, row: Setting, setting: Setting): number => {
  const names = new Set([...Object.keys(given), ...Object.keys(row)])
  return [...names].filter(
    (n) => (row[n] ?? 'left to the row') !== (given[n] ?? (row[n] === undefined ? 'left to the row' : setting[n])),
  ).length
}

/**
 * What keeps a load off in the state `here`: the elements it must have closed in the reference, and poles of the supply,
 * that are open here, but for those that it would close itself. Where that leaves none: what it needs to start, then shunts that are closed here,
 * then whatever is open on its way.
 */
export function heldOpen(
  circuit: Circuit,
  load: number,
  here: Frozen,
  reference: Reference,
  toStart: () => readonly number[],
): readonly Held[] {
  const isOpen = (i: number) => (here.settled.solved.active[i] ?? -1) < 0
  const there = needsOf(reference.frozen, load)
  const tell = (elements: readonly number[]) =>
    inOrder(elements, reference.frozen, load).map((i) => ({
      element: here.element(i).id,
      reason: why(circuit, here, i),
    }))
  const needed = [...sourcesFor(reference.frozen, load), ...there.mustBeClosed].filter(isOpen)
  const held = needed.filter((i) => !waitsFor(circuit, here, i).includes(here.element(load).id))
  if (held.length > 0) return tell(held)
  const starting = toStart().filter(isOpen)
  if (starting.length > 0) return tell(starting)
  const bridged = there.mustBeOpen.filter((i) => !isOpen(i))
  if (bridged.length > 0) {
    return bridged.map((i) => ({ element: here.element(i).id, reason: 'closed here, and bridges the load' }))
  }
  return tell(
    orderOf(reference.frozen, load)
      .path.flat()
      .filter((i) => i !== load && isOpen(i)),
  )
}

/** Poles of a supply that the load needs there: a breaker or a pilot flame can take them away. */
function sourcesFor(frozen: Frozen, load: number): readonly number[] {
  const { elements } = frozen.wiring
  const conditional = elements.flatMap((e, i) =>
    e.role === 'source' && e.laws.some((l) => l.when.some((all) => all.length > 0)) ? [i] : [],
  )
  return conditional.filter((i) => !frozen.keeps(load, frozen.without([i])))
}

/** Sorted as current meets them. */
export function inOrder(elements: readonly number[], frozen: Frozen, load: number): readonly number[] {
  const place = new Map(
    orderOf(frozen, load)
      .path.flat()
      .map((i, k) => [i, k]),
  )
  const last = place.size
  return elements.toSorted((a, b) => (place.get(a) ?? last) - (place.get(b) ?? last) || a - b)
}

/** Why element `i` is open, with the loads that would have to work for it to close. */
function why(circuit: Circuit, here: Frozen, i: number): string {
  const { setting, conditions } = here.settled
  const reason = whyOpen(circuit, here.element(i), setting, conditions)
  const loads = waitsFor(circuit, here, i)
  return loads.length > 0 ? `${reason} (${loads.join(', ')} off)` : reason
}

/** Loads whose working would close element `i`, heat apart. */
function waitsFor(circuit: Circuit, here: Frozen, i: number): readonly ElementId[] {
  const { conditions } = here.settled
  const names = new Set(here.element(i).laws.flatMap((l) => l.when.flat().map((c) => c.of)))
  return [...names].flatMap((name) => {
    const actor = circuit.actors.get(name)
    if (!actor || isHeated(actor) || conditions[name] !== actor.states[0]) return []
    // Closed while it rests: then it is something else that holds it open.
    const restCloses = here
      .element(i)
      .laws.some((l) => l.when.flat().some((c) => c.of === name && c.in.includes(actor.states[0]) !== (c.not ?? false)))
    return restCloses ? [] : driversOf(circuit, actor, true).filter((id) => !here.isOn(here.wiring.index.get(id) ?? -1))
  })
}

/** The smallest closings, up to three together, that would feed a load no row feeds; told as held open. */
export function neverFed(here: Frozen, load: number): readonly Held[] {
  const shorting = new Set(shortsOf(here))
  const candidates = here.open.filter((i) => !shorting.has(i))
  for (let n = 1; n <= Math.min(MOST_CLOSINGS, candidates.length); n++) {
    const found: (readonly number[])[] = []
    for (const picks of subsets(candidates.length, n)) {
      const closed = picks.map((k) => candidates[k] ?? -1)
      if (here.isFed(load, here.closing(closed))) found.push(closed)
    }
    if (found.length > 0) {
      return found.flatMap((closed) =>
        closed.map((i) => {
          const others = closed.filter((j) => j !== i).map((j) => here.element(j).id)
          const together = others.length > 0 ? ` together with ${others.join(', ')}` : ''
          return { element: here.element(i).id, reason: `never fed: closing it${together} would feed it` }
        }),
      )
    }
  }
  return []
}

/** Loads that put volts on one that is off, with those volts; none for a motor that only hums. */
export function falsePaths(
  here: Frozen,
  load: number,
): readonly { readonly through: ElementId; readonly volts: number }[] {
  const rated = here.element(load).load?.volts ?? 0
  const volts = abs(here.settled.solved.voltsAcross(load))
  if (volts < Math.max(1, 0.02 * rated)) return []
  return [...orderOf(here, load).shares].map((i) => ({ through: here.element(i).id, volts }))
}
