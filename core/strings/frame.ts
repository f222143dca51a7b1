import { type ElementId, polesOf } from '../circuit/model.ts'
import { abs } from '../network/index.ts'
import type { Settled, Step, Wiring } from '../operate/index.ts'
import { freeze, loadsOf } from './frozen.ts'
import { whyOpen } from './reason.ts'
import type { Feed, Frame } from './trace.ts'

/** Less than this is no current anyone works with, amperes. */
const CARRIES = 1e-3
/** Less than this is no voltage anyone works with, volts to neutral. */
const FED = 1

/** One state as a drawing shows it. */
export function frameOf(wiring: Wiring, step: Step | Settled): Frame {
  const { setting, conditions, solved } = step
  const { circuit, elements } = wiring
  const conducts = new Set<ElementId>()
  const feed = new Map<ElementId, Feed>()
  const why = new Map<ElementId, string>()
  const grounded = groundedNodes(wiring, solved.active)
  /** Second terminal of the secondary that feeds an island, by island. */
  const returns = new Map<number, number>()
  for (const { element } of wiring.secondaries) {
    const back = wiring.ends[element]?.[1] ?? 0
    const island = solved.solution.island[back] ?? 0
    if (island !== 0 && !returns.has(island)) returns.set(island, back)
  }
  const feedOf = (i: number): Feed => {
    if (abs(solved.ampsThrough(i)) >= CARRIES) return 'live'
    const ends = wiring.ends[i] ?? [0, 0]
    if (ends.every((n) => grounded.has(n))) return 'grounded'
    const { re, im, island } = solved.solution
    const hot = (n: number): boolean => {
      // A secondary that nothing joins to the house has its volts against its own return.
      const against = returns.get(island[n] ?? 0)
      if (island[n] !== 0 && against === undefined) return false
      const [x, y] = against === undefined ? [0, 0] : [re[against] ?? 0, im[against] ?? 0]
      return Math.hypot((re[n] ?? 0) - x, (im[n] ?? 0) - y) >= FED
    }
    return ends.some(hot) ? 'fed' : 'dead'
  }
  elements.forEach((e, i) => {
    if ((solved.active[i] ?? -1) >= 0) conducts.add(e.id)
    else why.set(e.id, whyOpen(circuit, e, setting, conditions))
    feed.set(e.id, feedOf(i))
  })
  const frozen = freeze(wiring, { setting, conditions, solved, chatters: [] })
  const on = new Set(loadsOf(wiring).flatMap((i) => (frozen.isOn(i) ? [frozen.element(i).id] : [])))
  return { setting, conditions, conducts, feed, why, on }
}

/** Nodes that metal joins to the ground pole. */
function groundedNodes(wiring: Wiring, active: Int32Array): ReadonlySet<number> {
  const grounds = polesOf(wiring.circuit).filter((p) => p.name === 'G')
  const reached = new Set(grounds.flatMap((pole) => wiring.node.get(pole.terminal) ?? []))
  const at = new Map<number, number[]>()
  wiring.elements.forEach((e, i) => {
    if (e.role === 'source' || (active[i] ?? -1) < 0 || e.laws[active[i] ?? -1]?.law.kind !== 'path') return
    const [a, b] = wiring.ends[i] ?? [0, 0]
    at.set(a, [...(at.get(a) ?? []), b])
    at.set(b, [...(at.get(b) ?? []), a])
  })
  for (const n of reached) for (const next of at.get(n) ?? []) reached.add(next)
  return reached
}
