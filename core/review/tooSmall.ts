import type { Problem } from '../netlist/tree.ts'
import { abs } from '../network/index.ts'
import type { Operation, Settled, Step } from '../operate/index.ts'
import { type Asked, type Check, found, settingText } from './asked.ts'

/** Rounding and the tolerance of a label: a breaker that is loaded fully is not too small. */
const ABOVE = 1.02
/** A load with less of the current than this is not what overloads it. */
const SHARE = 0.1

/**
 * A breaker or fuse that what runs in use opens, or overloads. A short is told as one, and a motor that hums has a
 * cause of its own.
 */
export const tooSmall: Check = (asked) => {
  const { circuit, rows, element, places, shortsIn } = asked
  return [...circuit.actors.values()].flatMap((actor): readonly Problem[] => {
    const { sense } = actor
    if (sense.by !== 'current' || sense.elements.length === 0) return []
    const supply = circuit.supplies.find((s) => s.name === actor.part)
    let worst: { readonly amps: number; readonly state: Step | Settled } | undefined
    for (const row of rows) {
      for (const state of inUse(row, actor.name)) {
        const amps = Math.max(
          ...sense.elements.map((id) => abs(state.solved.ampsThrough(row.wiring.index.get(id) ?? -1))),
        )
        if (amps <= Math.max(worst?.amps ?? 0, sense.amps * ABOVE)) continue
        if (shortsIn(state).length > 0 || hums(asked, state)) continue
        worst = { amps, state }
      }
    }
    if (!worst) return []
    const { amps, state } = worst
    const text = settingText(state.setting)
    if (supply) {
      const loads = asked.loads.filter((i) => abs(state.solved.ampsThrough(i)) >= SHARE * amps)
      const at = places.clauseOf('supply', 'breaker') ?? circuit.parts.get(actor.part)?.at
      return [
        found(
          'small-breaker',
          at,
          sense.amps,
          amps,
          loads.map((i) => asked.name(element(i))),
          text,
        ),
      ]
    }
    const at = places.clause(actor.name, 'blows') ?? circuit.parts.get(actor.part)?.at
    return [found('small-fuse', at, actor.name, sense.amps, amps, text)]
  })
}

/** Settled states of a row, and the one that the device opened in. */
function inUse({ steps, phases }: Operation, name: string): readonly (Step | Settled)[] {
  const before = steps.findIndex(({ event }) => event?.kind === 'moves' && event.actors.includes(name)) - 1
  const opened = steps[before]
  return opened ? [...phases, opened] : phases
}

/** A motor stands under power, with what that takes. */
function hums({ circuit, loads, element, onIn }: Asked, state: Step | Settled): boolean {
  const on = onIn(state)
  return [...circuit.actors.values()].some(
    (a) =>
      a.sense.by === 'needs' &&
      a.sense.hums &&
      state.conditions[a.name] === a.states[0] &&
      loads.some((i) => element(i).part === a.part && !on.has(i) && abs(state.solved.ampsThrough(i)) > 0.1),
  )
}
