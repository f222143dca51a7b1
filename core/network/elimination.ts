/**
 * The plan by which unknown nodes are eliminated one after the other: the symbolic half of a sparse LDLᵀ
 * factorisation. It depends on which nodes are joined, never on values, so it is made once for a topology.
 *
 * Positions count unknown nodes in the order they are eliminated. Column k of the plan holds the later positions that
 * k is still joined to when its turn comes; slot p of `rows` is such a joint.
 */
export interface Elimination {
  readonly size: number
  /** Column k occupies the slots from `start[k]` up to, not including, `start[k + 1]`; its rows ascend. */
  readonly start: Int32Array
  readonly rows: Int32Array
  /**
   * Where eliminating leads: for every k, for every two slots p < q of its column, the slot that joins `rows[p]` to
   * `rows[q]`, in the order those loops meet them.
   */
  readonly targets: Int32Array
}

/**
 * An order of elimination for nodes 0…size−1 joined by `pairs` that keeps fill low: always the node with the fewest
 * neighbours left, the lowest number first among equals (minimum degree; George and Liu, Computer Solution of Large
 * Sparse Positive Definite Systems, 1981). Returns the nodes in that order.
 */
export function minimumDegree(size: number, pairs: readonly (readonly [number, number])[]): Int32Array {
  const neighbours = Array.from({ length: size }, () => new Set<number>())
  for (const [a, b] of pairs) {
    neighbours[a]?.add(b)
    neighbours[b]?.add(a)
  }
  const order = new Int32Array(size)
  const left = new Set(neighbours.keys())
  for (let k = 0; k < size; k++) {
    let next = -1
    let fewest = Number.POSITIVE_INFINITY
    for (const node of left) {
      const degree = neighbours[node]?.size ?? 0
      if (degree < fewest) {
        fewest = degree
        next = node
        if (fewest <= 1) break // no fill can come of it, and nothing later is better by more than an empty column
      }
    }
    order[k] = next
    left.delete(next)
    const around = [...(neighbours[next] ?? [])]
    for (const node of around) {
      const set = neighbours[node]
      set?.delete(next)
      for (const other of around) if (other !== node) set?.add(other)
    }
  }
  return order
}

/**
 * The plan for `pairs` of positions (already in the order of elimination). A column's rows are its own pairs and the
 * rows of every earlier column whose first row it is.
 */
export function planElimination(size: number, pairs: readonly (readonly [number, number])[]): Elimination {
  const columns = Array.from({ length: size }, (): number[] => [])
  for (const [a, b] of pairs) if (a !== b) columns[Math.min(a, b)]?.push(Math.max(a, b))

  const children = Array.from({ length: size }, (): number[][] => [])
  const seen = new Int32Array(size).fill(-1)
  const start = new Int32Array(size + 1)
  for (let k = 0; k < size; k++) {
    const own: number[] = []
    for (const source of [columns[k] ?? [], ...(children[k] ?? [])]) {
      for (const row of source) {
        if (row === k || seen[row] === k) continue
        seen[row] = k
        own.push(row)
      }
    }
    own.sort((x, y) => x - y)
    columns[k] = own
    const [first] = own
    if (first !== undefined) children[first]?.push(own)
    start[k + 1] = (start[k] ?? 0) + own.length
  }
  const rows = Int32Array.from(columns.flat())

  const targets: number[] = []
  const slotOfRow = new Int32Array(size)
  for (const column of columns) {
    column.forEach((joined, p) => {
      columns[joined]?.forEach((row, i) => {
        slotOfRow[row] = (start[joined] ?? 0) + i
      })
      for (let q = p + 1; q < column.length; q++) targets.push(slotOfRow[column[q] ?? 0] ?? 0)
    })
  }
  return { size, start, rows, targets: Int32Array.from(targets) }
}

/** The slot that joins two positions, or −1 where the plan has none. */
export function slotBetween({ start, rows }: Elimination, a: number, b: number): number {
  const column = Math.min(a, b)
  const row = Math.max(a, b)
  let low = start[column] ?? 0
  let high = (start[column + 1] ?? 0) - 1
  while (low <= high) {
    const middle = (low + high) >> 1
    const found = rows[middle] ?? 0
    if (found === row) return middle
    if (found < row) low = middle + 1
    else high = middle - 1
  }
  return -1
}
