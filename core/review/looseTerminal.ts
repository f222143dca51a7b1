import type { Element, TerminalId } from '../circuit/model.ts'
import { type Check, found } from './asked.ts'

/**
 * A terminal that a wire was forgotten at: nothing but one element reaches it, and the other end of that element is in
 * use. A part without any wire is not wired yet, and the spare side of a switch is left free on purpose: neither is told.
 */
export const looseTerminal: Check = ({ circuit, name }) => {
  const at = new Map<TerminalId, Element[]>()
  for (const e of circuit.elements.values()) {
    for (const end of e.ends) at.set(end, [...(at.get(end) ?? []), e])
  }
  const others = (end: TerminalId, e: Element) => (at.get(end) ?? []).filter((other) => other !== e)
  return [...circuit.elements.values()].flatMap((e) => {
    if (e.role === 'wire' || e.role === 'source') return []
    return e.ends.flatMap((end, i) => {
      const far = others(e.ends[1 - i] ?? '', e)
      const inUse = far.some((other) => other.role === 'wire' || other.part !== e.part)
      const spare = e.role === 'contact' && far.some((other) => other.part === e.part)
      return others(end, e).length === 0 && inUse && !spare ? [found('loose-terminal', e.at, end, name(e))] : []
    })
  })
}
