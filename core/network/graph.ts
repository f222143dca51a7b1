/** An undirected edge between two nodes, numbered from 0; parallel edges and loops (`a === b`) are allowed. */
export interface Edge {
  readonly a: number
  readonly b: number
}

interface Step {
  readonly edge: number
  readonly to: number
}

/** The connected component of each node, numbered from 0 in the order of their lowest nodes. */
export function islands(nodeCount: number, edges: readonly Edge[]): Int32Array {
  const steps = stepsFrom(nodeCount, edges)
  const island = new Int32Array(nodeCount).fill(-1)
  let count = 0
  for (let first = 0; first < nodeCount; first++) {
    if (island[first] !== -1) continue
    const waiting = [first]
    island[first] = count
    for (let node = waiting.pop(); node !== undefined; node = waiting.pop()) {
      for (const { to } of steps[node] ?? []) {
        if (island[to] !== -1) continue
        island[to] = count
        waiting.push(to)
      }
    }
    count++
  }
  return island
}

/** Indices, ascending, of the edges whose removal alone parts their ends. */
export function bridges(nodeCount: number, edges: readonly Edge[]): number[] {
  const block = blocks(nodeCount, edges)
  const size = new Map<number, number>()
  for (const number of block) size.set(number, (size.get(number) ?? 0) + 1)
  return edges.flatMap(({ a, b }, i) => (a !== b && size.get(block[i] ?? -1) === 1 ? [i] : []))
}

/**
 * The biconnected component of each edge: two edges share one exactly when some simple cycle runs through both. A
 * bridge and a loop are each alone in theirs. Numbered from 0 in the order of their lowest edges.
 *
 * Depth-first search with low points (Hopcroft and Tarjan, Efficient Algorithms for Graph Manipulation, 1973), with a
 * stack of its own, so that a long string overflows nothing.
 */
export function blocks(nodeCount: number, edges: readonly Edge[]): Int32Array {
  const steps = stepsFrom(nodeCount, edges)
  const block = new Int32Array(edges.length).fill(-1)
  const reached = new Int32Array(nodeCount) // 0: not yet; else when
  const low = new Int32Array(nodeCount)
  let clock = 0
  let count = 0

  for (let first = 0; first < nodeCount; first++) {
    if (reached[first]) continue
    const open: number[] = []
    const path = [{ node: first, via: -1, next: 0 }]
    reached[first] = low[first] = ++clock
    for (let top = path.at(-1); top; top = path.at(-1)) {
      const { node, via } = top
      const step = steps[node]?.[top.next++]
      if (step) {
        if (step.edge === via || block[step.edge] !== -1) continue
        if (step.to === node) {
          block[step.edge] = count++
        } else if (!reached[step.to]) {
          open.push(step.edge)
          reached[step.to] = low[step.to] = ++clock
          path.push({ node: step.to, via: step.edge, next: 0 })
        } else if (before(reached, step.to, reached, node)) {
          open.push(step.edge)
          if (before(reached, step.to, low, node)) low[node] = reached[step.to] ?? 0
        }
        continue
      }
      path.pop()
      const parent = path.at(-1)?.node
      if (parent === undefined) continue
      if (before(low, node, low, parent)) low[parent] = low[node] ?? 0
      if (!before(low, node, reached, parent)) {
        for (let edge = open.pop(); edge !== undefined; edge = edge === via ? undefined : open.pop())
          block[edge] = count
        count++
      }
    }
  }
  return renumbered(block)
}

/**
 * What lies between `s` and `t`, in the order it is met from `s`: one group of edge indices (ascending) for each
 * biconnected component on the way, a bridge being a group of one. Edges off the way are in no group. Empty when no
 * way leads to `t`, and when `s` is `t`.
 */
export function blockChain(nodeCount: number, edges: readonly Edge[], s: number, t: number): number[][] {
  const block = blocks(nodeCount, edges)
  const members = new Map<number, number[]>()
  block.forEach((number, edge) => {
    const group = members.get(number)
    if (group) group.push(edge)
    else members.set(number, [edge])
  })
  // Every simple path from s to t runs through the same blocks in the same order, each in one stretch.
  const chain = new Set(simplePath(nodeCount, edges, s, t).map((edge) => block[edge] ?? -1))
  return [...chain].map((number) => members.get(number) ?? [])
}

/** Edges of a shortest path from `s` to `t`; empty when there is none. */
function simplePath(nodeCount: number, edges: readonly Edge[], s: number, t: number): number[] {
  const steps = stepsFrom(nodeCount, edges)
  const cameBy = new Map<number, { readonly edge: number; readonly from: number } | undefined>([[s, undefined]])
  const queue = [s]
  for (const node of queue) {
    if (node === t) break
    for (const { edge, to } of steps[node] ?? []) {
      if (cameBy.has(to)) continue
      cameBy.set(to, { edge, from: node })
      queue.push(to)
    }
  }
  const path: number[] = []
  for (let step = cameBy.get(t); step; step = cameBy.get(step.from)) path.push(step.edge)
  return path.reverse()
}

function stepsFrom(nodeCount: number, edges: readonly Edge[]): readonly (readonly Step[])[] {
  const steps = Array.from({ length: nodeCount }, (): Step[] => [])
  edges.forEach(({ a, b }, edge) => {
    const fromA = steps[a]
    const fromB = steps[b]
    if (!fromA || !fromB) throw new RangeError(`edge ${edge} joins ${a} and ${b}, of ${nodeCount} nodes`)
    fromA.push({ edge, to: b })
    if (a !== b) fromB.push({ edge, to: a })
  })
  return steps
}

function before(times: Int32Array, node: number, others: Int32Array, other: number): boolean {
  return (times[node] ?? 0) < (others[other] ?? 0)
}

function renumbered(labels: Int32Array): Int32Array {
  const number = new Map<number, number>()
  return labels.map((label) => {
    const seen = number.get(label) ?? number.size
    number.set(label, seen)
    return seen
  })
}
