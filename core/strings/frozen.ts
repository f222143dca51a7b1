import type { Element, ElementId } from '../circuit/model.ts'
import { loadsIn } from '../circuit/needs.ts'
import { abs } from '../network/index.ts'
import { type Settled, type Solved, shareOf, solveActive, type Wiring } from '../operate/index.ts'

/** The share of its volts that a load must keep to count as kept. */
const KEPT = 0.8

/**
 * One settled state, frozen: contacts, conditions and all, so that a question about an element is one more solution
 * with that element changed. Elements are spoken of by their index in the wiring.
 */
export interface Frozen {
  readonly wiring: Wiring
  readonly settled: Settled
  /** Elements that conduct, the supply's own left out. */
  readonly conducting: readonly number[]
  /** Contacts and links that do not. */
  readonly open: readonly number[]
  element(i: number): Element
  /** The state with these elements opened. */
  without(elements: readonly number[]): Solved
  /** The state with these elements closed, by the first of their laws. */
  closing(elements: readonly number[]): Solved
  /** Whether the load keeps its volts in a changed state. */
  keeps(load: number, changed: Solved): boolean
  /** Whether the load is on in this state. */
  isOn(load: number): boolean
  /** Whether it would be on with the laws of `changed` in force. */
  isFed(load: number, changed: Solved): boolean
}

const frozenBefore = new WeakMap<Settled, Frozen>()

/** A settled state, frozen; the same for the same state, so that loads share what was solved for any of them. */
export function freeze(wiring: Wiring, settled: Settled): Frozen {
  const known = frozenBefore.get(settled) ?? freezeAnew(wiring, settled)
  frozenBefore.set(settled, known)
  return known
}

function freezeAnew(wiring: Wiring, settled: Settled): Frozen {
  const { solved } = settled
  const { active } = solved
  const element = (i: number): Element => {
    const found = wiring.elements[i]
    if (!found) throw new Error(`Broken promise: element ${i} is one of ${wiring.elements.length}`)
    return found
  }
  const conducting: number[] = []
  const open: number[] = []
  wiring.elements.forEach((e, i) => {
    if (e.role === 'source') return
    if ((active[i] ?? -1) >= 0) conducting.push(i)
    else if (e.laws.length > 0 && (e.role === 'contact' || e.role === 'link')) open.push(i)
  })
  const changed = (elements: readonly number[], law: number): Solved => {
    const next = active.slice()
    for (const i of elements) next[i] = law
    return solveActive(wiring, next, solved.forces)
  }
  const singles = new Map<number, Solved>()
  const { standing, moved } = drivingLoads(wiring, settled)
  return {
    wiring,
    settled,
    conducting,
    open,
    element,
    without(elements) {
      const [only] = elements
      if (elements.length !== 1 || only === undefined) return changed(elements, -1)
      const known = singles.get(only) ?? changed(elements, -1)
      singles.set(only, known)
      return known
    },
    closing: (elements) => changed(elements, 0),
    keeps: (load, after) => abs(after.voltsAcross(load)) >= KEPT * abs(solved.voltsAcross(load)),
    isOn(load) {
      const { id, load: rated } = element(load)
      if (!rated || standing.has(id)) return false
      const share = moved.has(id) ? Math.min(rated.works, rated.holds ?? rated.works) : rated.works
      return shareOf(wiring, solved, load) >= share
    },
    isFed: (load, after) => shareOf(wiring, after, load) >= (element(load).load?.works ?? 1),
  }
}

/** Windings of motors that stand, which hum and are not on; and loads whose actor has moved, which need less to hold it. */
function drivingLoads(wiring: Wiring, { conditions }: Settled) {
  const standing = new Set<ElementId>()
  const moved = new Set<ElementId>()
  for (const { name, states, sense } of wiring.circuit.actors.values()) {
    if (sense.by !== 'needs') continue
    const rests = conditions[name] === states[0]
    if (rests && sense.hums) for (const id of loadsIn(sense.stay)) standing.add(id)
    if (!rests) for (const id of loadsIn(sense.stay)) moved.add(id)
  }
  return { standing, moved }
}

/** Indices of a circuit's loads, in the order of the text. */
export const loadsOf = (wiring: Wiring): readonly number[] =>
  wiring.elements.flatMap((e, i) => (e.role === 'load' ? [i] : []))
