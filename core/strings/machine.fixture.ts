import { type Circuit, readCircuit, type Setting } from '../circuit/index.ts'
import { type OperateOptions, operate } from '../operate/index.ts'
import type { LoadTrace } from './trace.ts'
import { traceSetting } from './traceSetting.ts'

/** A setting worked out, as a test asks of it. */
export interface Worked {
  /** Loads that are on in some phase. */
  readonly on: readonly string[]
  /** Texts of the story. */
  readonly story: readonly string[]
  /** The state of an actor in each phase. */
  states(actor: string): readonly (string | undefined)[]
  load(id: string): LoadTrace
}

/** A circuit from its lines, which must be read without a problem, and what it does. */
export function machineOf(...lines: readonly string[]): {
  readonly circuit: Circuit
  set(given?: Setting, options?: OperateOptions): Worked
} {
  const { circuit, problems } = readCircuit(lines.join('\n'))
  if (problems.length > 0) throw new Error(problems.map((p) => `${p.code}: ${p.message}`).join('\n'))
  return {
    circuit,
    set(given = {}, options = {}) {
      const trace = traceSetting(circuit, given, options)
      const { phases } = operate(circuit, given, options)
      return {
        on: trace.loads.flatMap((l) => (l.on ? [l.load] : [])),
        story: trace.story.map((s) => s.text),
        states: (actor) => phases.map((p) => p.conditions[actor]),
        load(id) {
          const found = trace.loads.find((l) => l.load === id)
          if (!found) throw new Error(`${id} is no load of this circuit`)
          return found
        },
      }
    },
  }
}
