import type { Circuit, Control, Setting } from '../circuit/model.ts'
import { rowCount, tableControls } from '../strings/index.ts'

/** Rows that a review looks at. */
export const MOST_ROWS = 512

/**
 * Settings of the maintained controls: every combination, or where those are more than `most`, a part of them that has
 * every position of every control and is spread evenly over the rest. The same for the same circuit.
 */
export function rowsOf(
  circuit: Circuit,
  most = MOST_ROWS,
): { readonly rows: readonly Setting[]; readonly all: boolean } {
  const controls = tableControls(circuit)
  const count = rowCount(controls)
  if (count <= most) return { rows: Array.from({ length: count }, (_, i) => rowAt(controls, BigInt(i))), all: true }
  const singles = controls.flatMap((c) => c.positions.map((position) => ({ ...usual(controls), [c.name]: position })))
  // A stride that shares no factor with the number of rows meets each position of each control as often as any other.
  const total = controls.reduce((n, c) => n * BigInt(c.positions.length), 1n)
  let stride = (total * 618n) / 1000n
  while (factor(stride, total) !== 1n) stride++
  const spread = Array.from({ length: Math.max(0, most - singles.length) }, (_, i) =>
    rowAt(controls, (stride * BigInt(i + 1)) % total),
  )
  return { rows: [...singles, ...spread], all: false }
}

const usual = (controls: readonly Control[]): Setting => Object.fromEntries(controls.map((c) => [c.name, c.normally]))

/** Row `number` of all, the last control turning fastest. */
function rowAt(controls: readonly Control[], number: bigint): Setting {
  let left = number
  const picks = controls.toReversed().map((c) => {
    const n = BigInt(c.positions.length)
    const pick = c.positions[Number(left % n)] ?? c.normally
    left /= n
    return [c.name, pick] as const
  })
  return Object.fromEntries(picks.toReversed())
}

const factor = (a: bigint, b: bigint): bigint => (b === 0n ? a : factor(b, a % b))
