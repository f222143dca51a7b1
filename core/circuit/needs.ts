import type { Clause, ElementId, Need, Needs, Sense, Test } from './model.ts'

/** Always so. */
export const ANYWAY: Needs = [[]]

/** Any of the loads carries its share. */
export const anyLoad = (loads: readonly ElementId[], share: number): Needs => loads.map((load) => [{ load, share }])

/** All of the loads carry theirs. */
export const allLoads = (loads: readonly ElementId[], share: number): Needs => [loads.map((load) => ({ load, share }))]

/** A condition on controls and actors as needs. */
export const needsTest = (test: Test): Needs => test.map((clauses) => clauses.map((is) => ({ is })))

/** An actor or control stands in one of the states. */
export const standsIn = (of: string, states: readonly string[], not?: true): Needs => [
  [{ is: { of, in: states, ...(not && { not }) } }],
]

/** Both. */
export const bothNeeds = (a: Needs, b: Needs): Needs => a.flatMap((x) => b.map((y) => [...x, ...y]))

/** Whether they hold, given how each need does. */
export const needsHold = (needs: Needs, holds: (need: Need) => boolean): boolean =>
  needs.some((alternative) => alternative.every(holds))

/** Loads that needs speak of, without repeats. */
export const loadsIn = (needs: Needs): readonly ElementId[] => [
  ...new Set(needs.flat().flatMap((n) => ('load' in n ? [n.load] : []))),
]

/** Clauses that needs speak of. */
export const clausesIn = (needs: Needs): readonly Clause[] => needs.flat().flatMap((n) => ('is' in n ? [n.is] : []))

/** Moves with another actor: away from rest while that one is. A motor's rest is `at-rest`. */
export const followSense = (motor: string): Sense => {
  const turns = standsIn(motor, ['at-rest'], true)
  return { by: 'needs', to: turns, stay: turns }
}
