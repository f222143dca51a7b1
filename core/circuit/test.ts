import type { Clause, Conditions, Setting, Test } from './model.ts'

export const ALWAYS: Test = [[]]
export const NEVER: Test = []

/** One clause as a whole condition: `is('dial', ['off'])`. */
export const is = (of: string, states: readonly string[]): Test => [[{ of, in: states }]]

/** Both hold. */
export const both = (a: Test, b: Test): Test => a.flatMap((x) => b.map((y) => [...x, ...y]))

const opposite = ({ not, ...clause }: Clause): Clause => (not ? clause : { ...clause, not: true })

/** The opposite of a condition. */
export const negate = (test: Test): Test =>
  test.reduce<Test>(
    (left, alternative) =>
      both(
        left,
        alternative.map((c) => [opposite(c)]),
      ),
    ALWAYS,
  )

/** Whether the condition holds. A clause about something neither record names does not hold, with `not` or without. */
export function holds(test: Test, setting: Setting, conditions: Conditions): boolean {
  return test.some((alternative) => alternative.every((c) => clauseHolds(c, setting, conditions)))
}

function clauseHolds(c: Clause, setting: Setting, conditions: Conditions): boolean {
  const state = conditions[c.of] ?? setting[c.of]
  return state !== undefined && c.in.includes(state) !== (c.not ?? false)
}

/** The clauses that fail in the alternative that fails fewest: why a contact is not closed. */
export function failing(test: Test, setting: Setting, conditions: Conditions): readonly Clause[] {
  let best: readonly Clause[] | undefined
  for (const alternative of test) {
    const bad = alternative.filter((c) => !clauseHolds(c, setting, conditions))
    if (!best || bad.length < best.length) best = bad
  }
  return best ?? []
}

/** Every control and actor a condition speaks of. */
export const namesIn = (test: Test): ReadonlySet<string> => new Set(test.flat().map((c) => c.of))
