import type { Circuit, Conditions, Element, ElementId, Law, Setting, TerminalId } from '../circuit/model.ts'
import { holds } from '../circuit/test.ts'
import {
  abs,
  type Branch,
  type Complex,
  createNetwork,
  div,
  type Network,
  type Solution,
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
  /** Nodes behind the supply's poles. */
  readonly poles: readonly number[]
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
  const poles = (circuit.supply?.poles ?? []).map((p) => ({ node: number(p.behind), v: { re: p.re, im: p.im } }))
  for (const terminal of circuit.terminals) number(terminal)
  const elements = [...circuit.elements.values()]
  const branches: Branch[] = []
  const firstBranch: number[] = []
  const ends = elements.map((e): readonly [number, number] => [number(e.ends[0]), number(e.ends[1])])
  elements.forEach((e, i) => {
    firstBranch.push(branches.length)
    const [a, b] = ends[i] ?? [0, 0]
    for (const { law } of e.laws) branches.push({ a, b, z: impedanceOf(law) })
  })
  const wiring: Wiring = {
    circuit,
    elements,
    index: new Map(elements.map((e, i) => [e.id, i])),
    node,
    nodeCount: node.size,
    ends,
    firstBranch,
    branches,
    network: createNetwork(node.size, branches, poles),
    poles: poles.map((p) => p.node),
  }
  built.set(circuit, wiring)
  return wiring
}

/** Working impedance of a law, ohms. */
export const impedanceOf = (law: Law): Complex =>
  law.kind === 'path' ? { re: law.ohms, im: 0 } : { re: law.re, im: law.im }

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
  /** Volts across element `i`, from its first end to its second. */
  voltsAcross(i: number): Complex
  /** Amperes through element `i`, from its first end to its second; 0 when open. */
  ampsThrough(i: number): Complex
}

/** Solve the circuit with these laws in force. */
export function solveActive(wiring: Wiring, active: Active): Solved {
  const without: number[] = []
  wiring.elements.forEach((e, i) => {
    for (let k = 0; k < e.laws.length; k++) if (k !== active[i]) without.push((wiring.firstBranch[i] ?? 0) + k)
  })
  const solution = wiring.network.solve({ without })
  const { re, im } = solution
  return {
    active,
    solution,
    voltsAcross(i) {
      const [a, b] = wiring.ends[i] ?? [0, 0]
      return { re: (re[a] ?? 0) - (re[b] ?? 0), im: (im[a] ?? 0) - (im[b] ?? 0) }
    },
    ampsThrough(i) {
      const law = wiring.elements[i]?.laws[active[i] ?? -1]
      return law ? div(this.voltsAcross(i), impedanceOf(law.law)) : zero
    },
  }
}

/**
 * The share of its rated current that element `i` carries: rated volts over its healthy impedance in the state it is in.
 * 0 for what is open or has no rating.
 */
export function shareOf(wiring: Wiring, solved: Solved, i: number): number {
  const e = wiring.elements[i]
  const law = e?.laws[solved.active[i] ?? -1]
  if (!e?.load || !law || e.load.volts === 0) return 0
  return (abs(solved.ampsThrough(i)) * abs(impedanceOf(law.law))) / e.load.volts
}

/** Whether element `i` works. */
export const works = (wiring: Wiring, solved: Solved, i: number): boolean => {
  const load = wiring.elements[i]?.load
  return load !== undefined && shareOf(wiring, solved, i) >= load.works
}
