/** Longer names than this are not slips of the same hand; the limit also bounds the work. */
const LONGEST = 40

/**
 * The candidate that `name` was most likely meant to be, for "Did you mean …?"; the first of several as near. One slip is
 * forgiven up to five letters, two up to eight, three beyond: a letter left out, put in, or exchanged, or two neighbours
 * swapped. Case does not count.
 */
export function nearest(name: string, candidates: Iterable<string>): string | undefined {
  const wanted = name.toLowerCase()
  let best: string | undefined
  let fewest = (wanted.length <= 1 ? 0 : wanted.length <= 5 ? 1 : wanted.length <= 8 ? 2 : 3) + 1
  for (const candidate of candidates) {
    const slips = distance(wanted, candidate.toLowerCase(), fewest)
    if (slips < fewest) {
      fewest = slips
      best = candidate
    }
  }
  return best
}

/** Optimal string alignment distance, or `limit` if it is at least that (Damerau 1964; no stretch is edited twice). */
export function distance(a: string, b: string, limit = Number.POSITIVE_INFINITY): number {
  if (a === b) return 0
  if (Math.abs(a.length - b.length) >= limit || Math.max(a.length, b.length) > LONGEST) return limit
  let before: number[] = []
  let above = Array.from({ length: b.length + 1 }, (_, j) => j)
  for (let i = 1; i <= a.length; i++) {
    const row = [i]
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1]
      let slips = Math.min(at(above, j) + 1, at(row, j - 1) + 1, at(above, j - 1) + (same ? 0 : 1))
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        slips = Math.min(slips, at(before, j - 2) + 1)
      row.push(slips)
    }
    before = above
    above = row
  }
  return Math.min(at(above, b.length), limit)
}

function at(row: readonly number[], index: number): number {
  return row[index] ?? Number.POSITIVE_INFINITY
}
