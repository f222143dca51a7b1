import type { Actor, Circuit, Clause, ElementId } from '../circuit/model.ts'
import { holds } from '../circuit/test.ts'
import type { Frozen } from './frozen.ts'
import type { Needs } from './needs.ts'

/** Loads that drive an actor away from rest. */
export function driversOf(circuit: Circuit, actor: Actor): readonly ElementId[] {
  const { sense } = actor
  switch (sense.by) {
    case 'turning':
      return sense.run
    case 'heat':
      return circuit.zones.get(sense.zone)?.warmsWith ?? []
    case 'follows': {
      const leads = circuit.actors.get(sense.of)
      return leads ? driversOf(circuit, leads) : []
    }
    case 'current':
    case 'nothing':
      return []
  }
}

export interface Drivers {
  /** Loads that hold a needed element out of its rest state. */
  readonly enablers: ReadonlySet<ElementId>
  /** Loads whose working would open a needed contact. */
  readonly mustRest: ReadonlySet<ElementId>
}

/** What stands behind the elements that one load needs in a frozen state: one step, not their own needs in turn. */
export function driversFor(frozen: Frozen, needs: Needs): Drivers {
  const { circuit } = frozen.wiring
  const { setting, conditions, solved } = frozen.settled
  const enablers = new Set<ElementId>()
  const mustRest = new Set<ElementId>()
  const actorsIn = (clauses: readonly Clause[]) => clauses.flatMap((c) => circuit.actors.get(c.of) ?? [])
  for (const i of needs.mustBeClosed) {
    const law = frozen.element(i).laws[solved.active[i] ?? -1]
    const holding = law?.when.find((clauses) => holds([clauses], setting, conditions)) ?? []
    for (const actor of actorsIn(holding)) {
      const away = conditions[actor.name] !== actor.states[0]
      if (away) for (const load of driversOf(circuit, actor)) enablers.add(load)
      else if (actor.sense.by === 'turning') for (const load of actor.sense.run) mustRest.add(load)
    }
  }
  for (const i of needs.mustBeOpen) {
    for (const { when } of frozen.element(i).laws) {
      for (const actor of actorsIn(when.flat())) {
        if (conditions[actor.name] !== actor.states[0]) for (const load of driversOf(circuit, actor)) enablers.add(load)
      }
    }
  }
  return { enablers, mustRest }
}
