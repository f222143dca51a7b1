import type { Control, ElementId, Setting } from '../../core/circuit/index.ts'
import type { Plan } from '../../core/drawing/plan.ts'
import type { Trace } from '../../core/strings/trace.ts'
import { mainControl, moved, settingKey, stillGiven, tellingLoad, tellingPosition, tellingStep } from './circuit.ts'
import type { Bench, Read, Source } from './state.ts'

/** Another text is on the bench: nothing of the one before it is left. */
export function opened(bench: Bench, source: Source, text: string): Partial<Bench> {
  return {
    source,
    savedText: text,
    text,
    handed: { serial: bench.handed.serial + 1, text, undoable: false },
    read: null,
    shown: null,
    plan: null,
    traces: new Map(),
    trace: null,
    given: {},
    unset: true,
    load: null,
    step: null,
    selected: null,
    recovered: null,
    dialog: null,
    note: null,
  }
}

/** Replaces the text in a way that undo takes back. */
export function replaced(bench: Bench, text: string): Partial<Bench> {
  return { text, handed: { serial: bench.handed.serial + 1, text, undoable: true } }
}

/**
 * A text was read. Where its errors leave nothing to draw, what was shown stays; what was worked out stays as long as
 * the circuit is the same.
 */
export function wasRead(bench: Bench, read: Read): Partial<Bench> {
  const broken = read.circuit.elements.size === 0 && read.problems.some((problem) => problem.severity === 'error')
  if (broken && bench.shown !== null) return { read }
  if (bench.shown?.print === read.print) return { read, shown: read }
  const { circuit } = read
  const keep = (id: ElementId | null) => (id !== null && circuit.elements.has(id) ? id : null)
  return {
    read,
    shown: read,
    traces: new Map(),
    given: stillGiven(circuit, bench.given),
    load: keep(bench.load),
    selected: keep(bench.selected),
    step: null,
  }
}

export const wasDrawn = (print: string, plan: Plan): Partial<Bench> => ({ plan: { print, plan } })

/** A setting was worked out; `print` tells for which circuit. */
export function wasTraced(bench: Bench, print: string, given: Setting, trace: Trace): Partial<Bench> {
  const { shown } = bench
  if (shown?.print !== print) return {}
  const traces = new Map(bench.traces).set(settingKey(shown.circuit, given), trace)
  return { traces, ...onShow({ ...bench, traces }) }
}

/** Puts the trace of the present setting on show once it is there. */
export function onShow(bench: Bench): Partial<Bench> {
  const { shown, traces, given, unset } = bench
  if (!shown) return {}
  const main = mainControl(shown.circuit)
  const traceOf = (setting: Setting) => traces.get(settingKey(shown.circuit, setting))
  if (unset && main) {
    // Decide only when every position is known: else the dial would turn under the eyes of the user.
    if (!main.positions.every((position) => traceOf(moved(given, main, position)))) return {}
    const position = tellingPosition(main, given, traceOf)
    const chosen = position === undefined ? given : moved(given, main, position)
    return show(bench, chosen, traceOf(chosen))
  }
  return show(bench, given, traceOf(given))
}

function show(bench: Bench, given: Setting, trace: Trace | undefined): Partial<Bench> {
  if (!trace) return { given }
  const load = bench.load ?? tellingLoad(trace) ?? null
  const unset = bench.unset && !trace.loads.some((l) => l.on)
  return bench.trace === trace ? { given, load, unset } : { given, load, unset, trace, step: null }
}

export function put(bench: Bench, control: Control, position: string): Partial<Bench> {
  const given = moved(bench.given, control, position)
  const next = { ...bench, given, unset: false }
  return { given, unset: false, ...onShow(next) }
}

/** Another load's string is on show; the load is what the other panes point at. */
export const chosen = (load: ElementId, selected = load): Partial<Bench> => ({ load, selected, step: null })

/**
 * The load whose string an element or a wire belongs to: the one on show where it does, else the first that is on, else
 * the first.
 */
export function ownerOf({ trace, load }: Pick<Bench, 'trace' | 'load'>, id: ElementId): ElementId | undefined {
  const owners = (trace?.loads ?? []).filter((l) => l.load === id || l.wires.includes(id) || l.path.flat().includes(id))
  return (owners.find((l) => l.load === load) ?? owners.find((l) => l.on) ?? owners[0])?.load
}

/** The step on show. */
export function stepOf(bench: Pick<Bench, 'trace' | 'step' | 'load'>): number {
  const { trace, step, load } = bench
  if (!trace) return -1
  return step !== null && step < trace.story.length ? step : tellingStep(trace, load)
}

/** One step on (+1) or back (−1), stopping at the ends. */
export function stepped(bench: Bench, by: 1 | -1): Partial<Bench> {
  if (!bench.trace) return {}
  return { step: Math.min(Math.max(stepOf(bench) + by, 0), bench.trace.story.length - 1) }
}

export const isChanged = (bench: Pick<Bench, 'text' | 'savedText'>): boolean => bench.text !== bench.savedText
