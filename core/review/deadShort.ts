import type { Problem } from '../netlist/tree.ts'
import { type Check, found, settingText } from './asked.ts'

/** The two ends of a supply, or of a secondary, joined by contacts, links and wires alone. Each way is told once. */
export const deadShort: Check = ({ rows, element, name, places, shortsIn }) => {
  const problems: Problem[] = []
  const told = new Set<string>()
  for (const step of rows.flatMap(({ steps }) => steps)) {
    for (const { poles, way } of shortsIn(step)) {
      const through = way.map(element).filter((e) => e.role !== 'wire')
      const key = way.map((i) => element(i).id).join()
      if (told.has(key)) continue
      told.add(key)
      const [first] = through.length > 0 ? through : way.map(element)
      const at = first?.at ?? places.line('supply')
      problems.push(found('dead-short', at, poles, through.map(name), settingText(step.setting)))
    }
  }
  return problems
}
