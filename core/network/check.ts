import type { Branch, Change, Held } from './network.ts'

/**
 * Refuses what is no network: a caller's bug, so it throws `RangeError` and names the culprit.
 * Returns nothing; a network that passes may be solved without further checks.
 */
export function checkNetwork(nodeCount: number, branches: readonly Branch[], held: readonly Held[]): void {
  if (!Number.isInteger(nodeCount) || nodeCount < 0) throw new RangeError(`a network of ${nodeCount} nodes`)
  branches.forEach((branch, i) => {
    checkBranch(nodeCount, branch, i)
  })
  const volts = new Map<number, Held['v']>()
  for (const { node, v } of held) {
    checkNode(nodeCount, node, 'a held node')
    if (!Number.isFinite(v.re) || !Number.isFinite(v.im)) throw new RangeError(`node ${node} held at ${v.re}+${v.im}j`)
    const other = volts.get(node)
    if (other && (other.re !== v.re || other.im !== v.im)) throw new RangeError(`node ${node} held at two voltages`)
    volts.set(node, v)
  }
}

/** The same for a change to a network of `branchCount` branches. */
export function checkChange(nodeCount: number, branchCount: number, change: Change): void {
  for (const i of change.without ?? []) {
    if (!Number.isInteger(i) || i < 0 || i >= branchCount) throw new RangeError(`no branch ${i} to take out`)
  }
  for (const branch of change.plus ?? []) checkBranch(nodeCount, branch, -1)
  for (const { node } of change.inject ?? []) checkNode(nodeCount, node, 'an injected current')
}

function checkBranch(nodeCount: number, { a, b, z }: Branch, index: number): void {
  const bad = !isNode(nodeCount, a) ? a : isNode(nodeCount, b) ? undefined : b
  if (bad !== undefined) throw new RangeError(`${branchName(index)}: node ${bad} of ${nodeCount}`)
  if (!Number.isFinite(z.re) || !Number.isFinite(z.im) || (z.re === 0 && z.im === 0)) {
    throw new RangeError(`${branchName(index)}: impedance ${z.re}+${z.im}j ohm`)
  }
}

function checkNode(nodeCount: number, node: number, name: string): void {
  if (!isNode(nodeCount, node)) throw new RangeError(`${name}: node ${node} of ${nodeCount}`)
}

function isNode(nodeCount: number, node: number): boolean {
  return Number.isInteger(node) && node >= 0 && node < nodeCount
}

/** Put together only when something is wrong: this is checked before every solution. */
function branchName(index: number): string {
  return index < 0 ? 'an added branch' : `branch ${index}`
}
