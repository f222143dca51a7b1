import { checkChange, checkNetwork } from './check.ts'
import { abs, add, div, mul, sub, zero } from './complex.ts'
import { islands } from './graph.ts'
import type { Branch, Change, Complex, Held, Solution } from './network.ts'

/** A pivot below this share of its row's largest entry at the outset is no pivot: double precision has nothing left. */
const SINGULAR = 1e-15

/**
 * The plain twin of `createNetwork(…).solve(change)`, same contract: the nodal equations of everything a held node
 * reaches, solved by dense complex elimination with partial pivoting. Slow (cubic), and the one that survives an
 * inductor and a capacitor that all but cancel at a node.
 *
 * Its pivots are subtracted down, so 1 mohm beside 10 Mohm costs it ten digits where the sparse one keeps them.
 * Throws `RangeError` for a lossless circuit exactly at resonance: it has no steady state.
 */
export function solveDense(
  nodeCount: number,
  branches: readonly Branch[],
  held: readonly Held[],
  change: Change = {},
): Solution {
  checkNetwork(nodeCount, branches, held)
  checkChange(nodeCount, branches.length, change)
  const { without = [], plus = [], inject = [] } = change
  const present = [...branches.filter((_, i) => !without.includes(i)), ...plus]

  const known = new Map(held.map(({ node, v }) => [node, v]))
  const island = islandsFromHeld(nodeCount, present, held)
  const driven = new Set(inject.map(({ node }) => island[node] ?? 0))
  for (const number of driven) if (number > 0) known.set(island.indexOf(number), zero)
  const unknowns = [...island.keys()].filter((node) => {
    const number = island[node] ?? 0
    return !known.has(node) && (number === 0 || driven.has(number))
  })
  const row = new Map(unknowns.map((node, i) => [node, i]))

  const matrix = unknowns.map(() => unknowns.map(() => zero))
  const right = unknowns.map(() => zero)
  const addTo = (values: Complex[] | undefined, i: number, value: Complex) => {
    if (values) values[i] = add(values[i] ?? zero, value)
  }
  for (const { a, b, z } of present) {
    if (a === b) continue
    const y = div({ re: 1, im: 0 }, z)
    for (const [from, to] of [
      [a, b],
      [b, a],
    ] as const) {
      const i = row.get(from)
      if (i === undefined) continue
      addTo(matrix[i], i, y)
      const j = row.get(to)
      if (j === undefined) addTo(right, i, mul(y, known.get(to) ?? zero))
      else addTo(matrix[i], j, sub(zero, y))
    }
  }
  for (const { node, i } of inject) {
    const at = row.get(node)
    if (at !== undefined) addTo(right, at, i)
  }

  const volts = eliminateDense(matrix, right)
  const at = (node: number) => known.get(node) ?? volts[row.get(node) ?? -1] ?? zero
  const nodes = [...island.keys()].map(at)
  return {
    re: Float64Array.from(nodes, (v) => v.re),
    im: Float64Array.from(nodes, (v) => v.im),
    island,
    current(i) {
      const branch = branches[i]
      if (!branch) throw new RangeError(`no branch ${i}`)
      return without.includes(i) ? zero : div(sub(at(branch.a), at(branch.b)), branch.z)
    },
  }
}

/** Island 0 is what any held node reaches; the others are numbered from 1 by their lowest node. */
function islandsFromHeld(nodeCount: number, present: readonly Branch[], held: readonly Held[]): Int32Array {
  const raw = islands(nodeCount, present)
  const number = new Map(held.map(({ node }) => [raw[node], 0]))
  let floating = 0
  return raw.map((label) => {
    const seen = number.get(label)
    if (seen !== undefined) return seen
    number.set(label, ++floating)
    return floating
  })
}

/** Solves `matrix · x = right` by elimination with partial pivoting, rows scaled by their largest entry. */
function eliminateDense(matrix: readonly Complex[][], right: readonly Complex[]): Complex[] {
  const size = right.length
  const rows = matrix.map((line, i) => {
    const scale = Math.max(...line.map(abs)) || 1
    return [...line, right[i] ?? zero].map((x) => ({ re: x.re / scale, im: x.im / scale }))
  })
  const entry = (i: number, j: number) => rows[i]?.[j] ?? zero
  for (let k = 0; k < size; k++) {
    let best = k
    for (let i = k + 1; i < size; i++) if (abs(entry(i, k)) > abs(entry(best, k))) best = i
    if (abs(entry(best, k)) < SINGULAR) throw new RangeError('a lossless circuit exactly at resonance')
    const pivotRow = rows[best] ?? []
    rows[best] = rows[k] ?? []
    rows[k] = pivotRow
    for (let i = k + 1; i < size; i++) {
      const factor = div(entry(i, k), entry(k, k))
      if (factor.re === 0 && factor.im === 0) continue
      rows[i] = (rows[i] ?? []).map((x, j) => (j < k ? x : sub(x, mul(factor, entry(k, j)))))
    }
  }
  const x: Complex[] = new Array(size).fill(zero)
  for (let k = size - 1; k >= 0; k--) {
    let sum = entry(k, size)
    for (let j = k + 1; j < size; j++) sum = sub(sum, mul(entry(k, j), x[j] ?? zero))
    x[k] = div(sum, entry(k, k))
  }
  return x
}
