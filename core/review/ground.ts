import type { Problem } from '../netlist/tree.ts'
import { wiringOf } from '../operate/index.ts'
import { type Check, found } from './asked.ts'
import { metalFrom } from './metal.ts'

/**
 * The chassis joined to nothing that would open a breaker, or to both neutral and ground. The first is told of a whole
 * unit only.
 */
export const ground: Check = ({ circuit, whole, rows, places }) => {
  const poles = circuit.supplies.flatMap((s) => s.poles)
  const grounds = poles.filter((p) => p.name === 'G').map((p) => p.terminal)
  const neutrals = poles.filter((p) => p.name === 'N').map((p) => p.terminal)
  const [first] = rows
  if (grounds.length === 0 || !first) return []
  const state = first.steps[0]
  if (!state) return []
  // Wires and what always conducts, as a plug does: not what a control or heat may open.
  const fixed = (id: string) =>
    circuit.elements.get(id)?.laws.some((l) => l.when.some((all) => all.length === 0)) ?? false
  const ways = metalFrom(wiringOf(circuit), state.solved, fixed)
  const problems: Problem[] = []
  const grounded = grounds.some((g) => ways(g, 'chassis'))
  const [strapped] = neutrals.flatMap((n) => ways(n, 'chassis') ?? grounds.flatMap((g) => ways(n, g) ?? []).slice(0, 1))
  if (whole && !grounded && !neutrals.some((n) => ways(n, 'chassis'))) {
    problems.push(found('no-ground', places.line('supply')))
  }
  if (grounded && strapped !== undefined) {
    problems.push(found('strap-and-ground', circuit.elements.get(first.wiring.elements[strapped]?.id ?? '')?.at))
  }
  return problems
}
