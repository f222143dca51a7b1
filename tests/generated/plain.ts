import type { Circuit, Conditions, Element, Law, Setting, Test } from '../../core/circuit/index.ts'
import { type Complex, solveDense } from '../../core/network/index.ts'

/**
 * The twin of core/strings: the definitions written down once more as plainly as possible, on the dense solver, with
 * nothing shared, sorted out, or remembered between questions.
 */
export interface PlainState {
  /** Law in force, by element; absent: open. */
  readonly law: ReadonlyMap<string, Law>
  readonly setting: Setting
  readonly conditions: Conditions
}

function meets(test: Test, state: Readonly<Record<string, string>>): boolean {
  for (const alternative of test) {
    let all = true
    for (const clause of alternative) {
      const now = state[clause.of]
      if (now === undefined) all = false
      else if (clause.not ? clause.in.includes(now) : !clause.in.includes(now)) all = false
    }
    if (all) return true
  }
  return false
}

export function plainState(circuit: Circuit, setting: Setting, conditions: Conditions): PlainState {
  const law = new Map<string, Law>()
  for (const e of circuit.elements.values()) {
    for (const candidate of e.laws) {
      if (meets(candidate.when, { ...setting, ...conditions })) {
        law.set(e.id, candidate.law)
        break
      }
    }
  }
  return { law, setting, conditions }
}

export interface PlainSolved {
  volts(e: Element): number
  amps(e: Element): number
}

/** The state with one element opened, or one closed, or neither. */
export function plainSolve(
  circuit: Circuit,
  state: PlainState,
  change: { open?: string; close?: string } = {},
): PlainSolved {
  const numbers = new Map<string, number>()
  const node = (terminal: string): number => {
    if (!numbers.has(terminal)) numbers.set(terminal, numbers.size)
    return numbers.get(terminal) ?? 0
  }
  const branches: { a: number; b: number; z: Complex }[] = []
  const branchOf = new Map<string, number>()
  for (const e of circuit.elements.values()) {
    const law = change.open === e.id ? undefined : change.close === e.id ? e.laws[0]?.law : state.law.get(e.id)
    const [a, b] = [node(e.ends[0]), node(e.ends[1])]
    if (!law) continue
    branchOf.set(e.id, branches.length)
    branches.push({
      a,
      b,
      z:
        law.kind === 'path'
          ? { re: law.ohms, im: 0 }
          : law.kind === 'impedance'
            ? { re: law.re, im: law.im }
            : { re: 0, im: -1 / (2 * Math.PI * 60 * law.farads) },
    })
  }
  const held = circuit.supplies
    .flatMap((s) => s.poles)
    .map((p) => ({ node: node(p.behind), v: { re: p.re, im: p.im } }))
  const solution = solveDense(numbers.size, branches, held)
  return {
    volts(e) {
      const [a, b] = [node(e.ends[0]), node(e.ends[1])]
      return Math.hypot((solution.re[a] ?? 0) - (solution.re[b] ?? 0), (solution.im[a] ?? 0) - (solution.im[b] ?? 0))
    },
    amps(e) {
      const branch = branchOf.get(e.id)
      if (branch === undefined) return 0
      const i = solution.current(branch)
      return Math.hypot(i.re, i.im)
    },
  }
}

/** Whether a load is on: enough of its rated current, and no winding of a motor that stands. */
export function plainOn(circuit: Circuit, state: PlainState, solved: PlainSolved, load: Element): boolean {
  const law = state.law.get(load.id)
  if (!law || !load.load || law.kind !== 'impedance') return false
  for (const actor of circuit.actors.values()) {
    const stands = state.conditions[actor.name] === actor.states[0]
    if (
      actor.sense.by === 'needs' &&
      actor.sense.hums &&
      stands &&
      JSON.stringify(actor.sense.stay).includes(`"${load.id}"`)
    )
      return false
  }
  return solved.amps(load) >= load.load.works * (load.load.volts / Math.hypot(law.re, law.im))
}
