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

/** A plan for a topology, the network's joints as it lays them out, and room for those of one solution. */
interface Workspace extends Elimination {
  /** Slot of each branch of the network between two unknown nodes, −1 for any other. */
  readonly slotOfBranch: Int32Array
  readonly own: Joints
  readonly now: Joints
}

/** Per slot: admittance between two positions. */
interface Joints {
  readonly jointRe: Float64Array
  readonly jointIm: Float64Array
}

/** Per position: admittance to known nodes, and the current that they and injections drive in. */
interface Ties {
  readonly tieRe: Float64Array
  readonly tieIm: Float64Array
  readonly driveRe: Float64Array
  readonly driveIm: Float64Array
}

/** Per position: reciprocal of the pivot, and voltage. */
interface Answer {
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

  /** Per position, the branches of the network between it and a known node. */
  const tiesOf = unknowns.map((): number[] => [])
  /** Per branch, those between the same two nodes, itself included. */
  const parallels = parallelBranches(branches)
  branches.forEach(({ a, b }, i) => {
    if (known[a] && !known[b]) tiesOf[position[b] ?? 0]?.push(i)
    if (known[b] && !known[a]) tiesOf[position[a] ?? 0]?.push(i)
  })

  const size = unknowns.length
  const taken = new Uint8Array(branchCount)
  const ownTies = emptyTies(size)
  for (let at = 0; at < size; at++) sumTies(ownTies, at)
  const ties = emptyTies(size)
  const answer = emptyAnswer(size)

  const ownPairs = unknownPairs(branches, position)
  const ownPlan = workspace([])
  const plans = new Map<string, Workspace>()

  function workspace(extra: readonly Branch[]): Workspace {
    const plan = planElimination(size, [...ownPairs, ...unknownPairs(extra, position)])
    const slotOfBranch = Int32Array.from(branches, ({ a, b }) => slotOf(plan, a, b))
    const own = emptyJoints(plan.rows.length)
    slotOfBranch.forEach((slot, i) => {
      if (slot >= 0) join(own, slot, admitRe[i] as number, admitIm[i] as number)
    })
    return { ...plan, slotOfBranch, own, now: emptyJoints(plan.rows.length) }
  }

  // What is taken out is summed anew without it, not subtracted: 1 mohm leaves no crumbs on the 10 Mohm beside it.
  function sumJoint(joints: Joints, slot: number, meeting: readonly number[]): void {
    joints.jointRe[slot] = joints.jointIm[slot] = 0
    for (const i of meeting) if (!taken[i]) join(joints, slot, admitRe[i] as number, admitIm[i] as number)
  }

  function sumTies(into: Ties, at: number): void {
    into.tieRe[at] = into.tieIm[at] = into.driveRe[at] = into.driveIm[at] = 0
    for (const i of tiesOf[at] ?? []) {
      if (taken[i]) continue
      const a = endA[i] as number
      tie(into, at, known[a] ? a : (endB[i] as number), admitRe[i] as number, admitIm[i] as number)
    }
  }

  function tie(into: Ties, at: number, to: number, yRe: number, yIm: number): void {
    const vRe = heldRe[to] as number
    const vIm = heldIm[to] as number
    into.tieRe[at] = (into.tieRe[at] as number) + yRe
    into.tieIm[at] = (into.tieIm[at] as number) + yIm
    into.driveRe[at] = (into.driveRe[at] as number) + yRe * vRe - yIm * vIm
    into.driveIm[at] = (into.driveIm[at] as number) + yRe * vIm + yIm * vRe
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
  const ownParent = Int32Array.from(known, (isKnown, node) => (isKnown ? heldRoot : node))
  const parent = new Int32Array(nodeCount)
  const numberOfRoot = new Int32Array(nodeCount)
  /** The lowest node of each floating island, the first being island 1. */
  const lowest = new Int32Array(nodeCount)
  let floating = 0
  /** The islands found last: solutions whose islands are the same share them. */
  let lastIsland = new Int32Array(0)

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
    parent.set(ownParent)
    for (let i = 0; i < branchCount; i++) {
      if (taken[i]) continue
      const a = root(endA[i] as number)
      const b = root(endB[i] as number)
      if (a !== b) parent[a] = b
    }
    for (const branch of plus) parent[root(branch.a)] = root(branch.b)

    numberOfRoot.fill(-1)
    if (heldRoot >= 0) numberOfRoot[root(heldRoot)] = 0
    floating = 0
    let island = lastIsland.length === nodeCount ? lastIsland : new Int32Array(nodeCount)
    for (let node = 0; node < nodeCount; node++) {
      const top = root(node)
      let number = numberOfRoot[top] as number
      if (number < 0) {
        lowest[floating++] = node
        number = floating
        numberOfRoot[top] = number
      }
      if (island[node] === number) continue
      if (island === lastIsland) island = island.slice()
      island[node] = number
    }
    lastIsland = island
    return island
  }

  /** Starts from the network as it is and makes the change; `work` and `ties` then hold what is to be eliminated. */
  function assemble(work: Workspace, island: Int32Array, change: Change): void {
    const { own, now, slotOfBranch } = work
    now.jointRe.set(own.jointRe)
    now.jointIm.set(own.jointIm)
    ties.tieRe.set(ownTies.tieRe)
    ties.tieIm.set(ownTies.tieIm)
    ties.driveRe.set(ownTies.driveRe)
    ties.driveIm.set(ownTies.driveIm)

    if (change.without) {
      for (const i of change.without) {
        const slot = slotOfBranch[i] as number
        const a = endA[i] as number
        const b = endB[i] as number
        if (slot >= 0) sumJoint(now, slot, parallels[i] ?? [])
        else if (known[b] && !known[a]) sumTies(ties, position[a] as number)
        else if (known[a] && !known[b]) sumTies(ties, position[b] as number)
      }
    }
    if (change.plus) {
      for (const { a, b, z } of change.plus) {
        if (a === b) continue
        const y = admittance(z)
        const slot = slotOf(work, a, b)
        if (slot >= 0) join(now, slot, y.re, y.im)
        else if (!known[a]) tie(ties, position[a] as number, b, y.re, y.im)
        else if (!known[b]) tie(ties, position[b] as number, a, y.re, y.im)
      }
    }
    // A floating island is tied to 0 V by 1 siemens at one node. Nothing drives it, so all of it reads exactly 0,
    // unless current is injected: then that node takes up what the injected currents leave over.
    for (let i = 0; i < floating; i++) ties.tieRe[position[lowest[i] as number] as number] = 1
    if (change.inject) {
      for (const { node, i } of change.inject) {
        if (known[node]) continue
        drive(ties, position[node] as number, i, 1)
        const number = island[node] as number
        if (number > 0) drive(ties, position[lowest[number - 1] as number] as number, i, -1)
      }
    }
  }

  return {
    solve(change = {}) {
      checkChange(nodeCount, branchCount, change)
      const work = change.plus ? workspaceFor(change.plus) : ownPlan
      taken.fill(0)
      const without = change.without ?? []
      for (const i of without) taken[i] = 1
      const island = findIslands(change.plus ?? [])
      assemble(work, island, change)
      if (!eliminate(work, ties, answer)) return solveDense(nodeCount, branches, held, change)
      substituteBack(work, ties, answer)
      const { voltRe, voltIm } = answer
      if (change.inject) {
        for (let i = 0; i < floating; i++) {
          const at = position[lowest[i] as number] as number
          voltRe[at] = voltIm[at] = 0 // but for rounding it is already
        }
      }

      const volts = new ArrayBuffer(16 * nodeCount) // one, because making it takes longer than filling it
      const re = new Float64Array(volts, 0, nodeCount)
      const im = new Float64Array(volts, 8 * nodeCount, nodeCount)
      for (let node = 0; node < nodeCount; node++) {
        const at = position[node] as number
        re[node] = at < 0 ? (heldRe[node] as number) : (voltRe[at] as number)
        im[node] = at < 0 ? (heldIm[node] as number) : (voltIm[at] as number)
      }
      return { re, im, island, current: (i) => branchCurrent(branches, without, re, im, i) }
    },
  }
}

function emptyJoints(slots: number): Joints {
  return { jointRe: new Float64Array(slots), jointIm: new Float64Array(slots) }
}

function emptyTies(positions: number): Ties {
  const room = () => new Float64Array(positions)
  return { tieRe: room(), tieIm: room(), driveRe: room(), driveIm: room() }
}

function emptyAnswer(positions: number): Answer {
  const room = () => new Float64Array(positions)
  return { inverseRe: room(), inverseIm: room(), voltRe: room(), voltIm: room() }
}

function join(joints: Joints, slot: number, yRe: number, yIm: number): void {
  joints.jointRe[slot] = (joints.jointRe[slot] as number) + yRe
  joints.jointIm[slot] = (joints.jointIm[slot] as number) + yIm
}

function drive(ties: Ties, at: number, i: Complex, sign: number): void {
  ties.driveRe[at] = (ties.driveRe[at] as number) + sign * i.re
  ties.driveIm[at] = (ties.driveIm[at] as number) + sign * i.im
}

function parallelBranches(branches: readonly Branch[]): readonly (readonly number[])[] {
  const groups = new Map<string, number[]>()
  return branches.map(({ a, b }, i) => {
    const key = a < b ? `${a}-${b}` : `${b}-${a}`
    const group = groups.get(key) ?? []
    groups.set(key, group)
    group.push(i)
    return group
  })
}

/** The current from `a` to `b` of branch `i` at node voltages `re + j·im`; 0 where it was taken out. */
function branchCurrent(
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
function eliminate(work: Workspace, ties: Ties, answer: Answer): boolean {
  const { size, start, rows, targets } = work
  const { jointRe, jointIm } = work.now
  const { tieRe, tieIm, driveRe, driveIm } = ties
  const { inverseRe, inverseIm } = answer
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
function substituteBack(work: Workspace, { driveRe, driveIm }: Ties, answer: Answer): void {
  const { size, start, rows } = work
  const { jointRe, jointIm } = work.now
  const { inverseRe, inverseIm, voltRe, voltIm } = answer
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
