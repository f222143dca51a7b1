import type { Circuit, ElementId, Setting } from '../circuit/model.ts'
import { abs } from '../network/index.ts'
import { type OperateOptions, type Operation, operate, shareOf } from '../operate/index.ts'
import { anyOf } from './anyOf.ts'
import { driversFor } from './drivers.ts'
import { type Frozen, freeze, loadsOf } from './frozen.ts'
import {
  falsePaths,
  firstOn,
  heldOpen,
  inOrder,
  neverFed,
  type OperateRow,
  referenceFor,
  rememberRows,
} from './heldOpen.ts'
import { needsOf, shortsOf } from './needs.ts'
import { orderOf } from './order.ts'
import { storyOf } from './story.ts'
import type { LoadTrace, Trace } from './trace.ts'

/**
 * One setting, worked out: the story from rest, and for every load what must be closed, what holds it open, and why.
 *
 * `given` names the controls that are set; the others stand where they normally do, and spring-back controls among them
 * are pressed and released.
 */
export function traceSetting(circuit: Circuit, given: Setting = {}, options: OperateOptions = {}): Trace {
  const operation = operate(circuit, given, options)
  const rows = rememberRows(circuit, options.forced ? { forced: options.forced } : {})
  const [first] = operation.phases
  return {
    setting: operation.setting,
    conditions: first?.conditions ?? {},
    story: storyOf(operation),
    loads: loadsOf(operation.wiring).map((load) => traceLoad(circuit, operation, load, given, options, rows)),
  }
}

function traceLoad(
  circuit: Circuit,
  operation: Operation,
  load: number,
  given: Setting,
  options: OperateOptions,
  rows: OperateRow,
): LoadTrace {
  const { wiring, phases } = operation
  const on = firstOn(operation, load)
  const [first] = phases
  if (!first) throw new Error('Broken promise: every operation has a first phase')
  const frozen = on ?? freeze(wiring, first)
  const { solved } = frozen.settled
  const id = (i: number): ElementId => frozen.element(i).id
  const ids = (elements: readonly number[]) => elements.map(id)
  const common = {
    load: id(load),
    volts: clean(abs(solved.voltsAcross(load))),
    amps: clean(abs(solved.ampsThrough(load))),
    shorts: ids(shortsOf(frozen)),
  }
  if (!on) {
    const reference = referenceFor(circuit, load, given, first, rows)
    const order = reference && orderOf(reference.frozen, load)
    return {
      ...common,
      on: false,
      weak: false,
      mustBeClosed: [],
      through: [],
      wires: [],
      mustBeOpen: [],
      toStart: [],
      anyOf: [],
      complete: true,
      ...placesOf(frozen, order?.path ?? []),
      poles: order?.poles ?? [],
      heldOpen: reference
        ? heldOpen(circuit, load, frozen, reference, () =>
            toStart(
              circuit,
              rows(reference.given),
              load,
              needsOf(reference.frozen, load).mustBeClosed,
              reference.given,
              options,
            ),
          )
        : neverFed(frozen, load),
      enablers: [],
      mustRest: [],
      holdsItself: false,
      falsePaths: hums(frozen, load) ? [] : falsePaths(frozen, load),
    }
  }
  const needs = needsOf(on, load)
  const order = orderOf(on, load)
  const groups = anyOf(on, load, needs)
  const drivers = driversFor(on, load, needs)
  const holdsItself = drivers.holders.has(id(load))
  return {
    ...common,
    on: true,
    weak: shareOf(wiring, solved, load) < (on.element(load).load?.weak ?? 0),
    mustBeClosed: ids(inOrder(needs.mustBeClosed, on, load)),
    through: ids(inOrder(needs.through, on, load)),
    wires: ids(inOrder(needs.wires, on, load)),
    mustBeOpen: ids(needs.mustBeOpen),
    toStart: holdsItself ? ids(toStart(circuit, operation, load, needs.mustBeClosed, given, options)) : [],
    anyOf: groups.groups.map(ids),
    complete: groups.complete,
    ...placesOf(on, order.path),
    poles: order.poles,
    heldOpen: [],
    ...allDrivers(operation, load),
    holdsItself,
    falsePaths: [],
  }
}

/** What rounding leaves of nothing is nothing. */
const clean = (n: number): number => (n < 1e-9 ? 0 : n)

/** A standing motor's winding takes current: it hums, and that is no false path. */
const hums = (frozen: Frozen, load: number): boolean => frozen.isFed(load, frozen.settled.solved) && !frozen.isOn(load)

function placesOf(frozen: Frozen, path: readonly (readonly number[])[]): Pick<LoadTrace, 'order' | 'path'> {
  const ids = (place: readonly number[]) => place.map((i) => frozen.element(i).id)
  return {
    path: path.map(ids),
    order: path
      .map((place) => ids(place.filter((i) => frozen.element(i).role !== 'wire')))
      .filter((place) => place.length > 0),
  }
}

/** Drivers of a load and, once for each, of the loads that drive it. */
function allDrivers(operation: Operation, load: number): Pick<LoadTrace, 'enablers' | 'mustRest'> {
  const { wiring } = operation
  const enablers = new Set<ElementId>()
  const mustRest = new Set<ElementId>()
  const asked = new Set<number>()
  const ask = (i: number): void => {
    if (asked.has(i)) return
    asked.add(i)
    const frozen = firstOn(operation, i)
    if (!frozen) return
    const drivers = driversFor(frozen, i, needsOf(frozen, i))
    for (const rest of drivers.mustRest) mustRest.add(rest)
    for (const enabler of drivers.enablers) {
      enablers.add(enabler)
      ask(wiring.index.get(enabler) ?? -1)
    }
  }
  ask(load)
  const self = wiring.elements[load]?.id ?? ''
  enablers.delete(self)
  mustRest.delete(self)
  return { enablers: [...enablers], mustRest: [...mustRest] }
}

/** Elements, wires apart, that the load does not need to stay on but without which it never comes on in this row. */
function toStart(
  circuit: Circuit,
  operation: Operation,
  load: number,
  mustBeClosed: readonly number[],
  given: Setting,
  options: OperateOptions,
): readonly number[] {
  const needed = new Set(mustBeClosed)
  const { wiring, steps } = operation
  return wiring.elements.flatMap((e, i) => {
    if (i === load || needed.has(i) || e.role === 'wire' || e.role === 'source') return []
    if (!steps.some((s) => (s.solved.active[i] ?? -1) >= 0)) return []
    const opened = new Set([...(options.opened ?? []), e.id])
    return firstOn(operate(circuit, given, { ...options, opened }), load) ? [] : [i]
  })
}
