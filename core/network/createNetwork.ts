import { checkChange, checkNetwork } from './check.ts'
import { zero } from './complex.ts'
import { type Elimination, minimumDegree, planElimination, slotBetween } from './elimination.ts'
import type { Branch, Change, Complex, Held, Network } from './network.ts'
import { solveDense } from './solveDense.ts'

/** How many plans for added branches a network keeps; past that it starts over. A few kilobytes each. */
const PLANS_KEPT = 512

/**
 * A pivot this much smaller than the admittances it is the sum of has lost digits to an inductor and a capacitor that
 * all but cancel; the solution is then left to the twin, which pivots.
 */
const CANCELLED = 1e-4

/** A plan with room for the values of one solution. Filled and emptied within one call of `solve`. */
interface Workspace extends Elimination {
  /** Slot of each branch of the network between two unknown nodes, −1 for any other. */
  readonly slotOfBranch: Int32Array
  /** Per slot: admittance between two positions. */
  readonly jointRe: Float64Array
  readonly jointIm: Float64Array
  /** Per position: admittance to known nodes, current those drive in, reciprocal of the pivot, voltage. */
  readonly tieRe: Float64Array
  readonly tieIm: Float64Array
  readonly driveRe: Float64Array
  readonly driveIm: Float64Array
  readonly inverseRe: Float64Array
  readonly inverseIm: Float64Array
  readonly voltRe: Float64Array
  readonly voltIm: Float64Array
}

/**
 * A network of impedances, some of its nodes held at known voltages; `solve` gives its steady state.
 *
 * Nodal analysis with the held nodes as knowns, by sparse LDLᵀ on an order found once. The factorisation is carried as
 * admittances (star–mesh: a node goes, its neighbours get joined) and each pivot is summed from them instead of being
 * subtracted down, so 1 mohm beside 10 Mohm costs no digits. Islands are found first: the matrix of what a held node
 * reaches is regular, and nothing else enters it.
 *
 * Throws `RangeError` for nodes, branches or impedances that cannot be, and, from `solve`, for a lossless circuit
 * exactly at resonance, which has no steady state. Not re-entrant; solutions stay valid.
 */
export function createNetwork(nodeCount: number, branches: readonly Branch[], held: readonly Held[]): Network {
  checkNetwork(nodeCount, branches, held)
  const branchCount = branches.length

  const known = new Uint8Array(nodeCount)
  const heldRe = new Float64Array(nodeCount)
  const heldIm = new Float64Array(nodeCount)
  for (const { node, v } of held) {
    known[node] = 1
    heldRe[node] = v.re
    heldIm[node] = v.im
  }
  const heldRoot = held[0]?.node ?? -1

  const endA = Int32Array.from(branches, (branch) => branch.a)
  const endB = Int32Array.from(branches, (branch) => branch.b)
  const admittances = branches.map((branch) => admittance(branch.z))
  const admitRe = Float64Array.from(admittances, (y) => y.re)
  const admitIm = Float64Array.from(admittances, (y) => y.im)

  const unknowns = [...known.keys()].filter((node) => !known[node])
  const unknownPairs = (edges: readonly Branch[], index: Int32Array) =>
    edges.flatMap(({ a, b }): (readonly [number, number])[] => {
      const i = index[a] ?? -1
      const j = index[b] ?? -1
      return a === b || i < 0 || j < 0 ? [] : [[i, j]]
    })
  const unknownIndex = new Int32Array(nodeCount).fill(-1)
  unknowns.forEach((node, i) => {
    unknownIndex[node] = i
  })
  const position = new Int32Array(nodeCount).fill(-1)
  minimumDegree(unknowns.length, unknownPairs(branches, unknownIndex)).forEach((i, k) => {
    position[unknowns[i] ?? 0] = k
  })

  const ownPairs = unknownPairs(branches, position)
  const ownPlan = workspace([])
  const plans = new Map<string, Workspace>()

  function workspace(extra: readonly Branch[]): Workspace {
    const size = unknowns.length
    const plan = planElimination(size, [...ownPairs, ...unknownPairs(extra, position)])
    const perPosition = () => new Float64Array(size)
    return {
      ...plan,
      slotOfBranch: Int32Array.from(branches, ({ a, b }) => slotOf(plan, a, b)),
      jointRe: new Float64Array(plan.rows.length),
      jointIm: new Float64Array(plan.rows.length),
      tieRe: perPosition(),
      tieIm: perPosition(),
      driveRe: perPosition(),
      driveIm: perPosition(),
      inverseRe: perPosition(),
      inverseIm: perPosition(),
      voltRe: perPosition(),
      voltIm: perPosition(),
    }
  }

  function slotOf(plan: Elimination, a: number, b: number): number {
    const i = position[a] ?? -1
    const j = position[b] ?? -1
    return i < 0 || j < 0 || a === b ? -1 : slotBetween(plan, i, j)
  }

  /** The plan that has a slot for every added branch: the network's own where it happens to, else one of its own. */
  function workspaceFor(plus: readonly Branch[]): Workspace {
    let key = ''
    for (const { a, b } of plus) {
      if (a === b || known[a] || known[b] || slotOf(ownPlan, a, b) >= 0) continue
      key += a < b ? `${a}-${b} ` : `${b}-${a} `
    }
    if (key === '') return ownPlan
    let found = plans.get(key)
    if (!found) {
      if (plans.size >= PLANS_KEPT) plans.clear()
      found = workspace(plus)
      plans.set(key, found)
    }
    return found
  }

  // Scratch for finding islands.
  const parent = new Int32Array(nodeCount)
  const taken = new Uint8Array(branchCount)
  const numberOfRoot = new Int32Array(nodeCount)

  function root(node: number): number {
    let at = node
    for (;;) {
      const up = parent[at] as number
      if (up === at) return at
      const above = parent[up] as number
      parent[at] = above
      at = above
    }
  }

  function findIslands(plus: readonly Branch[]): Int32Array {
    for (let node = 0; node < nodeCount; node++) parent[node] = known[node] ? heldRoot : node
    for (let i = 0; i < branchCount; i++) {
      if (taken[i]) continue
      const a = root(endA[i] as number)
      const b = root(endB[i] as number)
      if (a !== b) parent[a] = b
    }
    for (const branch of plus) parent[root(branch.a)] = root(branch.b)

    const island = new Int32Array(nodeCount)
    numberOfRoot.fill(-1)
    if (heldRoot >= 0) numberOfRoot[root(heldRoot)] = 0
    let floating = 0
    for (let node = 0; node < nodeCount; node++) {
      const top = root(node)
      let number = numberOfRoot[top] as number
      if (number < 0) {
        number = ++floating
        numberOfRoot[top] = number
      }
      island[node] = number
    }
    return island
  }

  /** Nodes at 0 V in the floating islands that current is injected into, by island. */
  function pins(island: Int32Array, change: Change): ReadonlyMap<number, number> {
    const found = new Map<number, number>()
    for (const { node } of change.inject ?? []) {
      const number = island[node] as number
      if (number > 0 && !found.has(number)) found.set(number, island.indexOf(number))
    }
    return found
  }

  function put(work: Workspace, slot: number, a: number, b: number, yRe: number, yIm: number): void {
    if (slot >= 0 && !known[a] && !known[b]) {
      work.jointRe[slot] = (work.jointRe[slot] as number) + yRe
      work.jointIm[slot] = (work.jointIm[slot] as number) + yIm
    } else {
      if (!known[a]) tie(work, position[a] as number, b, yRe, yIm)
      if (!known[b]) tie(work, position[b] as number, a, yRe, yIm)
    }
  }

  function tie(work: Workspace, at: number, to: number, yRe: number, yIm: number): void {
    const vRe = heldRe[to] as number
    const vIm = heldIm[to] as number
    work.tieRe[at] = (work.tieRe[at] as number) + yRe
    work.tieIm[at] = (work.tieIm[at] as number) + yIm
    work.driveRe[at] = (work.driveRe[at] as number) + yRe * vRe - yIm * vIm
    work.driveIm[at] = (work.driveIm[at] as number) + yRe * vIm + yIm * vRe
  }

  /** Sums admittances and driven currents into an emptied plan. Nodes that float or are pinned are tied to 0 V alone. */
  function assemble(
    work: Workspace,
    island: Int32Array,
    pinned: ReadonlyMap<number, number>,
    plus: readonly Branch[],
    inject: NonNullable<Change['inject']>,
  ): void {
    work.jointRe.fill(0)
    work.jointIm.fill(0)
    work.tieRe.fill(0)
    work.tieIm.fill(0)
    work.driveRe.fill(0)
    work.driveIm.fill(0)
    for (const node of pinned.values()) known[node] = 1
    const enters = (node: number) => island[node] === 0 || (pinned.size > 0 && pinned.has(island[node] as number))

    for (let i = 0; i < branchCount; i++) {
      const a = endA[i] as number
      const b = endB[i] as number
      if (taken[i] || a === b || !enters(a)) continue
      put(work, work.slotOfBranch[i] as number, a, b, admitRe[i] as number, admitIm[i] as number)
    }
    for (const { a, b, z } of plus) {
      if (a === b || !enters(a)) continue
      const y = admittance(z)
      put(work, slotOf(work, a, b), a, b, y.re, y.im)
    }
    for (const { node, i } of inject) {
      if (known[node]) continue
      const at = position[node] as number
      work.driveRe[at] = (work.driveRe[at] as number) + i.re
      work.driveIm[at] = (work.driveIm[at] as number) + i.im
    }
    for (const node of pinned.values()) known[node] = 0
    for (let node = 0; node < nodeCount; node++) {
      const at = position[node] as number
      if (at >= 0 && (!enters(node) || pinned.get(island[node] as number) === node)) work.tieRe[at] = 1
    }
  }

  return {
    solve(change = {}) {
      checkChange(nodeCount, branchCount, change)
      const { without = [], plus = [], inject = [] } = change
      taken.fill(0)
      for (const i of without) taken[i] = 1
      const island = findIslands(plus)
      const work = workspaceFor(plus)
      assemble(work, island, pins(island, change), plus, inject)
      if (!eliminate(work)) return solveDense(nodeCount, branches, held, change)
      substituteBack(work)

      const re = new Float64Array(nodeCount)
      const im = new Float64Array(nodeCount)
      for (let node = 0; node < nodeCount; node++) {
        const at = position[node] as number
        re[node] = at < 0 ? (heldRe[node] as number) : (work.voltRe[at] as number)
        im[node] = at < 0 ? (heldIm[node] as number) : (work.voltIm[at] as number)
      }
      return { re, im, island, current: (i) => branchCurrent(branches, without, re, im, i) }
    },
  }
}

/** The current from `a` to `b` of branch `i` at node voltages `re + j·im`; 0 where it was taken out. */
export function branchCurrent(
  branches: readonly Branch[],
  without: readonly number[],
  re: Float64Array,
  im: Float64Array,
  i: number,
): Complex {
  const branch = branches[i]
  if (!branch) throw new RangeError(`no branch ${i}`)
  if (without.includes(i)) return zero
  const { a, b, z } = branch
  const vRe = (re[a] as number) - (re[b] as number)
  const vIm = (im[a] as number) - (im[b] as number)
  const square = z.re * z.re + z.im * z.im
  return { re: (vRe * z.re + vIm * z.im) / square, im: (vIm * z.re - vRe * z.im) / square }
}

function admittance(z: Complex): Complex {
  const square = z.re * z.re + z.im * z.im
  return { re: z.re / square, im: -z.im / square }
}

/**
 * Factors and substitutes forward in one sweep. Eliminating node k, with pivot d the sum of all its admittances, joins
 * its neighbours i and j by y_ik·y_kj/d, ties i to the known nodes by y_ik·tie_k/d and drives y_ik·drive_k/d into it.
 * False where a pivot has cancelled. The casts are on typed arrays within their bounds, here and below.
 */
function eliminate(work: Workspace): boolean {
  const { size, start, rows, targets, jointRe, jointIm, tieRe, tieIm, driveRe, driveIm, inverseRe, inverseIm } = work
  let t = 0
  for (let k = 0; k < size; k++) {
    const from = start[k] as number
    const to = start[k + 1] as number
    const ownRe = tieRe[k] as number
    const ownIm = tieIm[k] as number
    let pivotRe = ownRe
    let pivotIm = ownIm
    let scale = Math.abs(ownRe) + Math.abs(ownIm)
    for (let p = from; p < to; p++) {
      const yRe = jointRe[p] as number
      const yIm = jointIm[p] as number
      pivotRe += yRe
      pivotIm += yIm
      scale += Math.abs(yRe) + Math.abs(yIm)
    }
    if (!(Math.abs(pivotRe) + Math.abs(pivotIm) > CANCELLED * scale)) return false
    const square = pivotRe * pivotRe + pivotIm * pivotIm
    const invRe = pivotRe / square
    const invIm = -pivotIm / square
    inverseRe[k] = invRe
    inverseIm[k] = invIm
    const inRe = driveRe[k] as number
    const inIm = driveIm[k] as number
    for (let p = from; p < to; p++) {
      const yRe = jointRe[p] as number
      const yIm = jointIm[p] as number
      if (yRe === 0 && yIm === 0) {
        t += to - p - 1
        continue
      }
      const shareRe = yRe * invRe - yIm * invIm
      const shareIm = yRe * invIm + yIm * invRe
      const row = rows[p] as number
      tieRe[row] = (tieRe[row] as number) + shareRe * ownRe - shareIm * ownIm
      tieIm[row] = (tieIm[row] as number) + shareRe * ownIm + shareIm * ownRe
      driveRe[row] = (driveRe[row] as number) + shareRe * inRe - shareIm * inIm
      driveIm[row] = (driveIm[row] as number) + shareRe * inIm + shareIm * inRe
      for (let q = p + 1; q < to; q++) {
        const target = targets[t++] as number
        const otherRe = jointRe[q] as number
        const otherIm = jointIm[q] as number
        jointRe[target] = (jointRe[target] as number) + shareRe * otherRe - shareIm * otherIm
        jointIm[target] = (jointIm[target] as number) + shareRe * otherIm + shareIm * otherRe
      }
    }
  }
  return true
}

/** Voltages from the last position to the first: each the mean of its later neighbours, weighted by admittance. */
function substituteBack(work: Workspace): void {
  const { size, start, rows, jointRe, jointIm, driveRe, driveIm, inverseRe, inverseIm, voltRe, voltIm } = work
  for (let k = size - 1; k >= 0; k--) {
    let sumRe = driveRe[k] as number
    let sumIm = driveIm[k] as number
    const to = start[k + 1] as number
    for (let p = start[k] as number; p < to; p++) {
      const row = rows[p] as number
      const yRe = jointRe[p] as number
      const yIm = jointIm[p] as number
      const vRe = voltRe[row] as number
      const vIm = voltIm[row] as number
      sumRe += yRe * vRe - yIm * vIm
      sumIm += yRe * vIm + yIm * vRe
    }
    const invRe = inverseRe[k] as number
    const invIm = inverseIm[k] as number
    voltRe[k] = sumRe * invRe - sumIm * invIm
    voltIm[k] = sumRe * invIm + sumIm * invRe
  }
}
