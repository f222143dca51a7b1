import type { Actor, Circuit, HeatPoint } from '../circuit/model.ts'

/** Devices that heat moves, as the checks of heat speak of them. */

/** Moves with heat, or would if it were in a zone: its states say so. */
export const isThermal = (actor: Actor): boolean => actor.states[0] === 'cold' && actor.part !== ''

export const pointsOf = (actor: Actor): readonly HeatPoint[] => (actor.sense.by === 'heat' ? actor.sense.points : [])

/** The devices that sense a zone. */
export const devicesIn = (circuit: Circuit, zone: string): readonly Actor[] =>
  [...circuit.actors.values()].filter((a) => a.sense.by === 'heat' && a.sense.zone === zone)

/** Stays open once heat has opened it. */
export const isOneShot = (actor: Actor): boolean =>
  actor.sense.by === 'heat' && actor.sense.points.every((p) => p.down === undefined)

/** What a device's elements do when it leaves rest. */
export function movesOf(
  circuit: Circuit,
  { name, states }: Actor,
): { readonly opens: boolean; readonly closes: boolean } {
  const stands = (state: string) => (c: { of: string; in: readonly string[]; not?: true }) =>
    c.of === name && c.in.includes(state) !== (c.not ?? false)
  const closedIn = (state: string) =>
    [...circuit.elements.values()].some((e) =>
      e.laws.some((l) => l.when.some((clauses) => clauses.some(stands(state)))),
    )
  return { opens: closedIn(states[0]), closes: closedIn(states[1]) }
}
