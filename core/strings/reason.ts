import type { Circuit, Clause, Conditions, Element, Setting } from '../circuit/model.ts'
import { failing } from '../circuit/test.ts'

/** A state as words: `at-speed` is `at speed`. */
export const stateText = (state: string): string => state.replaceAll('-', ' ')

/** Why an element is open in a state: `chart: o at cool-down`, `door open`, `M at rest`; `''` when its laws hold. */
export function whyOpen(circuit: Circuit, element: Element, setting: Setting, conditions: Conditions): string {
  if (element.laws.length === 0) return 'nothing closes it'
  const reasons = element.laws.map(({ when }) => failing(when, setting, conditions))
  const fewest = reasons.reduce((best, r) => (r.length < best.length ? r : best))
  if (fewest.length === 0) return ''
  return fewest.map((clause) => clauseText(circuit, element, clause, setting, conditions)).join(', ')
}

function clauseText(
  circuit: Circuit,
  element: Element,
  clause: Clause,
  setting: Setting,
  conditions: Conditions,
): string {
  const state = conditions[clause.of] ?? setting[clause.of] ?? '?'
  // A position keeps its own hyphens: it is a name from the sheet.
  if (circuit.controls.has(clause.of)) return element.charted ? `chart: o at ${state}` : `${clause.of} ${state}`
  return `${clause.of} ${stateText(state)}`
}
