/**
 * Sets of candidates as bit masks: bit i stands for candidate i. Masks make "is a subset of" one operation whatever
 * the number of candidates; they never leave this folder.
 */
export type Mask = bigint

export const none: Mask = 0n

export function bit(index: number): Mask {
  return 1n << BigInt(index)
}

export function isSubset(inner: Mask, outer: Mask): boolean {
  return (inner & outer) === inner
}

/** Indices in a mask, ascending. */
export function indices(mask: Mask): number[] {
  const found: number[] = []
  for (let rest = mask, i = 0; rest > 0n; rest >>= 1n, i++) if (rest & 1n) found.push(i)
  return found
}

/** How many are in a mask. */
export function sizeOf(mask: Mask): number {
  let size = 0
  for (let rest = mask; rest > 0n; rest &= rest - 1n) size++
  return size
}

/** Smaller sets first; among equals the one whose earliest different candidate comes first. */
export function inOrder(masks: readonly Mask[]): Mask[] {
  const keyed = masks.map((mask) => ({ mask, list: indices(mask) }))
  keyed.sort((x, y) => {
    if (x.list.length !== y.list.length) return x.list.length - y.list.length
    const at = x.list.findIndex((index, i) => index !== y.list[i])
    return at < 0 ? 0 : (x.list[at] ?? 0) - (y.list[at] ?? 0)
  })
  return keyed.map(({ mask }) => mask)
}

/** The members a mask stands for, in the order of `members`. */
export function membersOf<T>(members: readonly T[], mask: Mask): T[] {
  return members.filter((_, i) => mask & bit(i))
}
