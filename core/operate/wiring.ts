import {
  type Circuit,
  type Conditions,
  type Element,
  type ElementId,
  type Law,
  polesOf,
  type Setting,
  type TerminalId,
} from '../circuit/model.ts'
import { holds } from '../circuit/test.ts'
import {
  abs,
  type Branch,
  type Complex,
  createNetwork,
  div,
  type Network,
  type Solution,
  sub,
  zero,
} from '../network/index.ts'

/**
 * A circuit made ready to be solved: terminals numbered, and a branch for every law of every element. Which branch of an
 * element is in depends on the state alone, so that one network, ordered once, serves every state of the circuit.
 */
export interface Wiring {
  readonly circuit: Circuit
  readonly elements: readonly Element[]
  readonly index: ReadonlyMap<ElementId, number>
  /** Node of a terminal. */
  readonly node: ReadonlyMap<TerminalId, number>
  readonly nodeCount: number
  /** Nodes of both ends, by element. */
  readonly ends: readonly (readonly [number, number])[]
  /** First branch of each element; its laws follow in order. */
  readonly firstBranch: readonly number[]
  readonly branches: readonly Branch[]
  readonly network: Network
  /** Nodes behind the supplies' poles. */
  readonly poles: readonly number[]
  /** Of the first supply; 0 for direct current. */
  readonly hertz: number
  readonly secondaries: readonly { readonly element: number; readonly primary: number; readonly ratio: number }[]
}

const built = new WeakMap<Circuit, Wiring>()

/** The wiring of a circuit; the same object for the same circuit. */
export function wiringOf(circuit: Circuit): Wiring {
  const known = built.get(circuit)
  if (known) return known
  const node = new Map<TerminalId, number>()
  const number = (terminal: TerminalId): number => {
    const n = node.get(terminal) ?? node.size
    node.set(terminal, n)
    return n
  }
  const hertz = circuit.supplies[0]?.hertz ?? 60
  const poles = polesOf(circuit).map((p) => ({ node: number(p.behind), v: { re: p.re, im: p.im } }))
  for (const terminal of circuit.terminals) number(terminal)
  const elements = [...circuit.elements.values()]
  const branches: Branch[] = []
  const firstBranch: number[] = []
  const ends = elements.map((e): readonly [number, number] => [number(e.ends[0]), number(e.ends[1])])
  elements.forEach((e, i) => {
    firstBranch.push(branches.length)
    const [a, b] = ends[i] ?? [0, 0]
    for (const { law } of e.laws) branches.push({ a, b, z: impedanceOf(law, hertz) })
  })
  const index = new Map(elements.map((e, i) => [e.id, i]))
  const wiring: Wiring = {
    circuit,
    elements,
    index,
    node,
    nodeCount: node.size,
    ends,
    firstBranch,
    branches,
    network: createNetwork(node.size, branches, poles),
    poles: poles.map((p) => p.node),
    hertz,
    secondaries: elements.flatMap((e, i) =>
      e.coupled ? [{ element: i, primary: index.get(e.coupled.primary) ?? -1, ratio: e.coupled.ratio }] : [],
    ),
  }
  built.set(circuit, wiring)
  return wiring
}

/** More than any coil or wire: what a capacitor is to direct current, where it has to be a branch at all. */
const OPEN_TO_DIRECT = 1e12

/** Working impedance of a law at the supply's frequency, ohms. */
export function impedanceOf(law: Law, hertz: number): Complex {
  switch (law.kind) {
    case 'path':
      return { re: law.ohms, im: 0 }
    case 'impedance':
      return hertz === 0 ? { re: law.dc, im: 0 } : { re: law.re, im: law.im }
    case 'capacitance':
      return hertz === 0 ? { re: OPEN_TO_DIRECT, im: 0 } : { re: 0, im: -1 / (2 * Math.PI * hertz * law.farads) }
  }
}

/** Which law holds, by element; −1: open. */
export type Active = Int32Array

/** The laws that hold in a state; those of `opened` do not, whatever the state. */
export function activeIn(
  wiring: Wiring,
  setting: Setting,
  conditions: Conditions,
  opened?: ReadonlySet<ElementId>,
): Active {
  return Int32Array.from(wiring.elements, (e) =>
    opened?.has(e.id) ? -1 : e.laws.findIndex((l) => holds(l.when, setting, conditions)),
  )
}

/** A state's voltages and currents, asked by element. */
export interface Solved {
  readonly active: Active
  readonly solution: Solution
  /** Electromotive force of each secondary, volts, in the order of the wiring's. */
  readonly forces: readonly Complex[]
  /** Volts across element `i`, from its first end to its second. */
  voltsAcross(i: number): Complex
  /** Amperes through element `i`, from its first end to its second; 0 when open. */
  ampsThrough(i: number): Complex
}

/**
 * Solve the circuit with these laws in force. A secondary is a source behind its own winding, of the force that its
 * primary's volts give; `frozen` keeps the forces of another state instead.
 */
export function solveActive(wiring: Wiring, active: Active, frozen?: readonly Complex[]): Solved {
  const without: number[] = []
  wiring.elements.forEach((e, i) => {
    for (let k = 0; k < e.laws.length; k++) if (k !== active[i]) without.push((wiring.firstBranch[i] ?? 0) + k)
  })
  let forces = frozen ?? wiring.secondaries.map(() => zero)
  let solution = solveWith(wiring, active, without, forces)
  if (!frozen) {
    // A secondary may feed another primary: each pass carries the force one transformer further.
    for (let pass = 0; pass < wiring.secondaries.length; pass++) {
      forces = wiring.secondaries.map(({ primary, ratio }) => {
        const v = across(wiring, solution, primary)
        // Direct current crosses no transformer.
        return (active[primary] ?? -1) < 0 || wiring.hertz === 0 ? zero : { re: v.re * ratio, im: v.im * ratio }
      })
      solution = solveWith(wiring, active, without, forces)
    }
  }
  return {
    active,
    solution,
    forces,
    voltsAcross: (i) => across(wiring, solution, i),
    ampsThrough(i) {
      const law = wiring.elements[i]?.laws[active[i] ?? -1]
      if (!law) return zero
      const k = wiring.secondaries.findIndex((s) => s.element === i)
      const volts = across(wiring, solution, i)
      return div(k < 0 ? volts : sub(volts, forces[k] ?? zero), impedanceOf(law.law, wiring.hertz))
    },
  }
}

const across = (wiring: Wiring, { re, im }: Solution, i: number): Complex => {
  const [a, b] = wiring.ends[i] ?? [0, 0]
  return { re: (re[a] ?? 0) - (re[b] ?? 0), im: (im[a] ?? 0) - (im[b] ?? 0) }
}

/** Each force as the current it drives through its own winding. */
function solveWith(wiring: Wiring, active: Active, without: readonly number[], forces: readonly Complex[]): Solution {
  const inject = wiring.secondaries.flatMap(({ element }, k) => {
    const law = wiring.elements[element]?.laws[active[element] ?? -1]
    const force = forces[k] ?? zero
    if (!law || abs(force) === 0) return []
    const i = div(force, impedanceOf(law.law, wiring.hertz))
    const [a, b] = wiring.ends[element] ?? [0, 0]
    return [
      { node: a, i },
      { node: b, i: sub(zero, i) },
    ]
  })
  return wiring.network.solve(inject.length > 0 ? { without, inject } : { without })
}

/**
 * The share of its rated current that element `i` carries: rated volts over its healthy impedance in the state it is in.
 * 0 for what is open or has no rating.
 */
export function shareOf(wiring: Wiring, solved: Solved, i: number): number {
  const e = wiring.elements[i]
  const law = e?.laws[solved.active[i] ?? -1]
  if (!e?.load || !law || e.load.volts === 0) return 0
  return (abs(solved.ampsThrough(i)) * abs(impedanceOf(law.law, wiring.hertz))) / e.load.volts
}

/** Whether element `i` works. */
export const works = (wiring: Wiring, solved: Solved, i: number): boolean => {
  const load = wiring.elements[i]?.load
  return load !== undefined && shareOf(wiring, solved, i) >= load.works
}
