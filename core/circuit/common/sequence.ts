import type { Onward } from '../forms.ts'
import type { Context, Word } from '../kind.ts'
import type { Needs, SequenceWay, Test } from '../model.ts'
import { ANYWAY, needsTest } from '../needs.ts'
import { negate } from '../test.ts'

/** Timed sequences of a control board: steps as typed become the states of an actor. */

/** Where a sequence waits for its call. */
export const IDLE = 'idle'

export interface Step {
  readonly name: string
  readonly at: { readonly from: number; readonly to: number }
  /** Outputs that it closes. */
  readonly outputs: readonly string[]
  readonly seconds: number
  readonly onward?: Onward
  readonly until: readonly Onward[]
  /** It counts the tries: `onward` until there were so many, and then to its `else`. */
  readonly tries?: number
}

export interface Sequence {
  /** `idle`, then each step, and again for each further try that comes to it: `purge`, `purge-2`. */
  readonly states: readonly [string, string, ...string[]]
  readonly ways: Readonly<Record<string, readonly SequenceWay[]>>
  /** The states in which an output is closed. */
  readonly closes: ReadonlyMap<string, readonly string[]>
}

export interface Call {
  readonly when: Test
  /** What it all hangs on: the board is powered. */
  readonly powered: Test
  /** The step it goes to when the call ends, in place of `idle`. */
  readonly ends?: string
}

/**
 * The states and ways of a sequence. Tries are counted by copies of the steps, one for each try, so that what a state
 * means never hangs on how it was come to. Steps that lead nowhere known are told by `checkSteps` and left without a way.
 */
export function unroll(steps: readonly Step[], call: Call, testOf: (way: Onward) => Test): Sequence {
  const byName = new Map(steps.map((s) => [s.name, s]))
  const [first] = steps
  const afterCall = reachable(byName, call.ends)
  const named = new Map<string, string>()
  const taken = new Set<string>([IDLE])
  const queue: { readonly step: Step; readonly attempt: number; readonly state: string }[] = []
  /** The state of a step in a try, which is put in line when first met. */
  const stateOf = (name: string, attempt: number): string | undefined => {
    if (name === IDLE) return IDLE
    const key = `${name} ${attempt}`
    const known = named.get(key)
    const step = byName.get(name)
    if (known !== undefined || !step) return known
    const state = taken.has(name) ? `${name}-${attempt}` : name
    taken.add(state)
    named.set(key, state)
    queue.push({ step, attempt, state })
    return state
  }
  const way = (to: string, attempt: number, when: Needs, after: number, awaited?: true): readonly SequenceWay[] => {
    const state = stateOf(to, attempt)
    return state === undefined ? [] : [{ to: state, when, after, ...(awaited && { awaited }) }]
  }
  const ways: Record<string, readonly SequenceWay[]> = {}
  const closes = new Map<string, string[]>()
  const called = call.when.flatMap((a) => call.powered.map((b) => [...a, ...b]))
  ways[IDLE] = first ? way(first.name, 1, needsTest(called), 0) : []
  for (const { step, attempt, state } of queue) {
    for (const output of step.outputs) closes.set(output, [...(closes.get(output) ?? []), state])
    const isAfter = afterCall.has(step.name)
    ways[state] = [
      ...way(IDLE, attempt, needsTest(negate(call.powered)), 0),
      ...(isAfter ? [] : way(call.ends ?? IDLE, attempt, needsTest(negate(call.when)), 0)),
      ...step.until.flatMap((one) => way(one.to.text, attempt, needsTest(testOf(one)), 0)),
      ...waysOnward(step, attempt, way, testOf),
    ]
  }
  const states = [...taken].filter((s) => s !== IDLE)
  return { states: [IDLE, states[0] ?? '', ...states.slice(1)], ways, closes }
}

type WayTo = (to: string, attempt: number, when: Needs, after: number, awaited?: true) => readonly SequenceWay[]

function waysOnward(step: Step, attempt: number, way: WayTo, testOf: (way: Onward) => Test): readonly SequenceWay[] {
  const { onward: then, seconds, tries } = step
  if (!then) return []
  if (tries !== undefined) {
    const again = attempt < tries
    const to = again ? then.to.text : then.else?.text
    return to === undefined ? [] : way(to, again ? attempt + 1 : attempt, ANYWAY, seconds)
  }
  const test = then.if && testOf(then)
  if (!test) return way(then.to.text, attempt, ANYWAY, seconds)
  if (!then.else) return way(then.to.text, attempt, needsTest(test), seconds, true)
  return [
    ...way(then.to.text, attempt, needsTest(test), seconds),
    ...way(then.else.text, attempt, needsTest(negate(test)), seconds),
  ]
}

/** Steps that can be come to from one, itself among them. */
function reachable(steps: ReadonlyMap<string, Step>, from: string | undefined): ReadonlySet<string> {
  const reached = new Set(from === undefined ? [] : [from])
  for (const name of reached) for (const { text } of targetsOf(steps.get(name))) if (steps.has(text)) reached.add(text)
  return reached
}

const targetsOf = (step: Step | undefined): readonly Word[] =>
  [step?.onward, ...(step?.until ?? [])].flatMap((way) => (way ? [way.to, ...(way.else ? [way.else] : [])] : []))

/** Tells of steps that lead nowhere, or are there twice. */
export function checkSteps(steps: readonly Step[], to: Context): void {
  const names = steps.map((s) => s.name)
  steps.forEach((step, i) => {
    if (step.name === IDLE || names.indexOf(step.name) < i) to.tell('step-twice', step.at, step.name)
    for (const word of targetsOf(step)) {
      if (word.text !== IDLE && !names.includes(word.text)) to.tell('unknown-step', word.at, word.text, names)
    }
    const counts = step.tries !== undefined
    if (counts && (!step.onward?.else || step.onward.if)) to.tell('tries-form', step.at, step.name)
    else if (!counts && step.onward?.else && !step.onward?.if) to.tell('else-alone', step.at, step.name)
  })
}
