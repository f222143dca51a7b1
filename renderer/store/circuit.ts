import type { Circuit, Control, Element, ElementId, Setting } from '../../core/circuit/index.ts'
import { type LoadTrace, shortName, type Trace } from '../../core/strings/index.ts'

/** The control whose positions name the loads they run: of those that stay where they are put, the one with most. */
export function mainControl(circuit: Circuit): Control | undefined {
  let main: Control | undefined
  for (const control of circuit.controls.values()) {
    if (!control.springsBack && (main === undefined || control.positions.length > main.positions.length)) main = control
  }
  return main
}

/** Where a control stands under `given`. */
export const positionOf = (control: Control, given: Setting): string => given[control.name] ?? control.normally

/**
 * `given` with one control moved. A spring-back control put where it normally stands is left out, so that it is pressed
 * and released.
 */
export function moved(given: Setting, control: Control, position: string): Setting {
  const { [control.name]: _, ...others } = given
  return control.springsBack && position === control.normally ? others : { ...others, [control.name]: position }
}

/** Those of `given` that the circuit still knows. */
export function stillGiven(circuit: Circuit, given: Setting): Setting {
  const known = Object.entries(given).filter(([name, position]) =>
    circuit.controls.get(name)?.positions.includes(position),
  )
  return known.length === Object.keys(given).length ? given : Object.fromEntries(known)
}

/** Equal for settings that mean the same. */
export function settingKey(circuit: Circuit, given: Setting): string {
  return JSON.stringify([...circuit.controls.values()].map((c) => given[c.name] ?? (c.springsBack ? null : c.normally)))
}

/** The loads a trace runs, on ones only. */
export const running = (trace: Trace): readonly LoadTrace[] => trace.loads.filter((load) => load.on)

/** The load to begin with: of those that are on, the one that takes most power; else the one with most in its string. */
export function tellingLoad(trace: Trace): ElementId | undefined {
  const worth = ({ on, volts, amps, mustBeClosed, heldOpen }: LoadTrace) =>
    on ? 1e6 + volts * amps : mustBeClosed.length + heldOpen.length
  return trace.loads.reduce<LoadTrace | undefined>((best, l) => (best && worth(best) >= worth(l) ? best : l), undefined)
    ?.load
}

/** The position of `control` to start with: the first that runs most loads; undefined where the normal one does. */
export function tellingPosition(
  control: Control,
  given: Setting,
  traceOf: (given: Setting) => Trace | undefined,
): string | undefined {
  const count = (position: string) => {
    const trace = traceOf(moved(given, control, position))
    return trace ? running(trace).length : 0
  }
  let best = positionOf(control, given)
  for (const position of control.positions) if (count(position) > count(best)) best = position
  return best === positionOf(control, given) ? undefined : best
}

/**
 * The frame to show when no step was chosen: the last in which `load` is on, else the last of the first phase, else the
 * last.
 */
export function tellingStep(trace: Trace, load: ElementId | null): number {
  const on = load === null ? -1 : trace.story.findLastIndex((step) => step.frame.on.has(load))
  if (on >= 0) return on
  const names = Object.keys(trace.conditions)
  const settled = trace.story.findLastIndex(({ frame }) =>
    names.every((name) => frame.conditions[name] === trace.conditions[name]),
  )
  return settled >= 0 ? settled : trace.story.length - 1
}

/** `OT`, or `M:heat` where the part has more elements than one; a wire as its two ends. */
export function elementName(circuit: Circuit, id: ElementId): string {
  const element = circuit.elements.get(id)
  return element ? shortName(circuit, element) : id
}

/** `Rear panel, 8 min`; undefined where the netlist does not say. */
export function placeOf(circuit: Circuit, element: Element): string | undefined {
  const area = circuit.areas.get(circuit.parts.get(element.part)?.area ?? '')
  return area && `${area.label}, ${area.minutes} min`
}
