import { type ElementId, polesOf, type TerminalId } from '../circuit/model.ts'
import type { Solved, Wiring } from '../operate/index.ts'

/** Two ends of a source that metal joins in some state. */
export interface Short {
  /** As the text calls them. */
  readonly poles: readonly [string, string]
  /** A shortest way of metal from one to the other, as indices. */
  readonly way: readonly number[]
}

/** Every pair of ends of a source that metal joins. */
export function shortsOf(wiring: Wiring, solved: Solved): readonly Short[] {
  const poles = polesOf(wiring.circuit)
  const pairs = poles.flatMap((a, k) =>
    poles.slice(k + 1).flatMap((b) => (a.re === b.re && a.im === b.im ? [] : [[a.terminal, b.terminal] as const])),
  )
  const secondaries = wiring.elements.flatMap((e) => (e.coupled ? [e.ends] : []))
  const ways = metalFrom(wiring, solved)
  return [...pairs, ...secondaries].flatMap(([a, b]) => {
    const way = ways(a, b)
    return way ? [{ poles: [a, b] as const, way }] : []
  })
}

/** Finds shortest ways of metal in a state, from one terminal to another; undefined: there is none. */
export function metalFrom(wiring: Wiring, solved: Solved, only: (id: ElementId) => boolean = () => true) {
  const at = new Map<number, number[]>()
  wiring.elements.forEach((e, i) => {
    if (e.role === 'source' || e.laws[solved.active[i] ?? -1]?.law.kind !== 'path' || !only(e.id)) return
    for (const end of wiring.ends[i] ?? []) at.set(end, [...(at.get(end) ?? []), i])
  })
  return (from: TerminalId, to: TerminalId): readonly number[] | undefined => {
    const [start, goal] = [wiring.node.get(from), wiring.node.get(to)]
    if (start === undefined || goal === undefined) return undefined
    const cameBy = new Map<number, { readonly element: number; readonly from: number } | undefined>([
      [start, undefined],
    ])
    for (const node of cameBy.keys()) {
      for (const i of at.get(node) ?? []) {
        const [a, b] = wiring.ends[i] ?? [0, 0]
        const next = a === node ? b : a
        if (!cameBy.has(next)) cameBy.set(next, { element: i, from: node })
      }
    }
    if (!cameBy.has(goal)) return undefined
    const way: number[] = []
    for (let step = cameBy.get(goal); step; step = cameBy.get(step.from)) way.push(step.element)
    return way.reverse()
  }
}
