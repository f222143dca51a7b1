import type { Actor, Circuit, Clause, ElementId, Needs } from '../circuit/model.ts'
import { clausesIn, loadsIn } from '../circuit/needs.ts'
import { holds } from '../circuit/test.ts'
import type { Frozen } from './frozen.ts'
import type { LoadNeeds } from './needs.ts'

/**
 * Loads that drive an actor away from rest, through whatever stands between. Of a sequence all that its steps ask for, or,
 * with `first`, what begins it.
 */
export function driversOf(circuit: Circuit, actor: Actor, first = false): readonly ElementId[] {
  const found = new Set<ElementId>()
  const asked = new Set<string>()
  const askActor = (one: Actor): void => {
    if (asked.has(one.name)) return
    asked.add(one.name)
    const { sense } = one
    if (sense.by === 'needs') askNeeds(sense.stay)
    else if (sense.by === 'heat') askNeeds(circuit.zones.get(sense.zone)?.warmsWith ?? [])
    else if (sense.by === 'sequence')
      for (const way of first ? (sense.ways[one.states[0]] ?? []) : Object.values(sense.ways).flat()) askNeeds(way.when)
  }
  const askNeeds = (needs: Needs): void => {
    for (const id of loadsIn(needs)) found.add(id)
    for (const { of } of clausesIn(needs)) {
      const next = circuit.actors.get(of)
      if (next) askActor(next)
    }
  }
  askActor(actor)
  return [...found]
}

/** Loads that hold an actor away from rest at once: coils and windings, with no heat and no timed step between. */
function holdersOf(circuit: Circuit, actor: Actor): readonly ElementId[] {
  const found = new Set<ElementId>()
  const asked = new Set([actor])
  for (const { sense } of asked) {
    if (sense.by !== 'needs') continue
    for (const id of loadsIn(sense.stay)) found.add(id)
    for (const { of } of clausesIn(sense.stay)) {
      const next = circuit.actors.get(of)
      if (next) asked.add(next)
    }
  }
  return [...found]
}

/** Whether heat stands between an actor and its loads: what heats need not be at work now. */
export const isHeated = (actor: Actor): boolean => actor.sense.by === 'heat'

export interface Drivers {
  /** Loads that hold a needed element out of its rest state. */
  readonly enablers: ReadonlySet<ElementId>
  /** Those of them that hold a contact at once: a load among its own holds itself. */
  readonly holders: ReadonlySet<ElementId>
  /** Loads whose working would open a needed contact. */
  readonly mustRest: ReadonlySet<ElementId>
}

/** What stands behind the elements that one load needs in a frozen state: one step, not their own needs in turn. */
export function driversFor(frozen: Frozen, load: number, needs: LoadNeeds): Drivers {
  const { circuit } = frozen.wiring
  const { setting, conditions, solved } = frozen.settled
  const enablers = new Set<ElementId>()
  const holders = new Set<ElementId>()
  const mustRest = new Set<ElementId>()
  const actorsIn = (clauses: readonly Clause[]) => clauses.flatMap((c) => circuit.actors.get(c.of) ?? [])
  for (const i of needs.mustBeClosed) {
    const law = frozen.element(i).laws[solved.active[i] ?? -1]
    const holding = law?.when.find((clauses) => holds([clauses], setting, conditions)) ?? []
    for (const actor of actorsIn(holding)) {
      const away = conditions[actor.name] !== actor.states[0]
      if (away) {
        for (const id of driversOf(circuit, actor)) enablers.add(id)
        for (const id of holdersOf(circuit, actor)) holders.add(id)
      } else if (!isHeated(actor)) for (const load of driversOf(circuit, actor)) mustRest.add(load)
    }
  }
  frozen.wiring.secondaries.forEach(({ element, primary }) => {
    // A secondary that the load hangs on works only while its primary does.
    if (!frozen.keeps(load, frozen.without([element]))) enablers.add(frozen.element(primary).id)
  })
  for (const i of needs.mustBeOpen) {
    for (const { when } of frozen.element(i).laws) {
      for (const actor of actorsIn(when.flat())) {
        if (conditions[actor.name] !== actor.states[0]) for (const load of driversOf(circuit, actor)) enablers.add(load)
      }
    }
  }
  return { enablers, holders, mustRest }
}
