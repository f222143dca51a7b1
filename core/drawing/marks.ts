import { num, path, rect, text } from './ink.ts'
import { textWidth } from './text-width.ts'

/** Marks of what was worked out (blue pencil), of doubt (red), of a test. Each has a shape of its own; colour may go. */

/** Must be closed. */
export function collar(x: number, y: number, width = 68, height = 48, className = 'collar'): string {
  return rect(x - width / 2, y - height / 2, width, height, className, Math.min(width, height) / 2)
}

/** Any of: dots round the group. */
export function anyOf(x1: number, y1: number, x2: number, y2: number, r = 12): string {
  return rect(x1, y1, x2 - x1, y2 - y1, 'anyof', Math.min(r, (x2 - x1) / 2, (y2 - y1) / 2))
}

/** The load whose string is shown: a square seat. */
export function seat(x: number, y: number, width = 68, height = 44): string {
  return rect(x - width / 2, y - height / 2, width, height, 'load')
}

/** Enabler: a flag planted on the collar, naming the load that has to work first. */
export function flag(x: number, top: number, foot: number, words: string): string {
  const width = flagWidth(words)
  return (
    path(`M${num(x)} ${num(foot)}V${num(top)}`, 'flagstaff') +
    path(`M${num(x)} ${num(top)}h${num(width)}v15h${num(-width)}z`, 'flag') +
    text(x + width / 2, top + 12, words, 'flagt')
  )
}

export function flagWidth(words: string): number {
  return textWidth(words, 13, 700) + 12
}

/** A reason on its shelf, with a leader down to the open gap where there is room for one. */
export function shelf(
  x: number,
  y: number,
  words: string,
  gap: { readonly x: number; readonly y: number } | undefined,
): string {
  const half = textWidth(words, 13, 600) / 2 + 3
  const from = gap && Math.max(x - half + 4, Math.min(x + half - 4, gap.x + 6))
  const leader = gap && from !== undefined ? `M${num(from)} ${num(y)}L${num(gap.x)} ${num(gap.y)}` : ''
  return path(`M${num(x - half)} ${num(y)}H${num(x + half)}${leader}`, 'leader') + text(x, y - 4.5, words, 'reason')
}

/** Protective ground: a hatched line. */
export function hatch(x1: number, y: number, x2: number): string {
  let ticks = ''
  for (let x = x1 + 6; x < x2 - 2; x += 8) ticks += `M${num(x - 4)} ${num(y + 5)}l8 -10`
  return path(`M${num(x1)} ${num(y)}H${num(x2)}`, 'wire gline') + path(ticks, 'wire gtick')
}

/** What is known of an element or a wire from readings. */
export type Verdict =
  /** In doubt: its rank from 1, and how likely in per cent. */
  | { readonly kind: 'suspect'; readonly rank: number; readonly percent: number }
  /** Proved good, by a reading: `r3`. */
  | { readonly kind: 'cleared'; readonly by: string }
  /** Found bad: `found open`. */
  | { readonly kind: 'found'; readonly says: string }

/** One reading of the meter between two points: `0.2 Ω`, and whether it is what was expected. */
export interface Reading {
  readonly says: string
  readonly agrees: boolean
}

/** `suspect 2, 28 per cent`. */
export function verdictWords(verdict: Verdict): string {
  switch (verdict.kind) {
    case 'suspect':
      return `suspect ${verdict.rank}, ${Math.round(verdict.percent)} per cent`
    case 'cleared':
      return `cleared by ${verdict.by}`
    case 'found':
      return verdict.says
  }
}

/** Px of a pennant's fly for one per cent, the same all over a sheet. */
const FLY = 1.25
const hoist = 18

/** How far a pennant reaches to the right of its staff, lettering included, px. */
export function pennantWidth(percent: number): number {
  return hoist + Math.max(8, percent * FLY) + 6 + textWidth(percentWords(percent), 13, 700)
}

const percentWords = (percent: number): string => (percent > 0 && percent < 1 ? '< 1 %' : `${Math.round(percent)} %`)

/** Suspect: a pennant with its rank in the hoist, its fly as long as it is likely. (x, y) is the top of its staff. */
export function pennant(x: number, y: number, rank: number, percent: number): string {
  const width = hoist + Math.max(8, percent * FLY)
  return (
    path(`M${num(x)} ${num(y - 4)}V${num(y + 24)}`, 'staff') +
    path(`M${num(x)} ${num(y)}h${num(width)}l-7 9l7 9h${num(-width)}z`, 'pennant') +
    text(x + 9.5, y + 13.5, String(rank), 'rank') +
    text(x + width + 6, y + 13.5, percentWords(percent), 'percent', 'start')
  )
}

/** Cleared: a tick, and the reading that did it. (x, y) is the tick's middle. */
export function cleared(x: number, y: number, by: string): string {
  return tick(x, y) + text(x + 14, y + 4.5, by, 'by', 'start')
}

const tick = (x: number, y: number): string => path(`M${num(x - 8)} ${num(y)}l5.5 6l11.5 -14`, 'tick')
const differs = (x: number, y: number): string =>
  path(
    `M${num(x - 8)} ${num(y - 3.5)}h16M${num(x - 8)} ${num(y + 3.5)}h16M${num(x + 5)} ${num(y - 9)}l-10 18`,
    'differs',
  )

/** Found bad: the collar is broken above, where the blade would swing, and says so below. */
export function found(x: number, y: number, says: string, width = 68, height = 48): string {
  const r = height / 2
  const side = width / 2 - r
  return (
    path(
      `M${num(x + 12)} ${num(y - r)}H${num(x + side)}a${r} ${r} 0 0 1 0 ${height}H${num(x - side)}a${r} ${r} 0 0 1 0 ${-height}H${num(x - 12)}`,
      'found',
    ) + text(x, y + r + 16, says, 'foundt')
  )
}

/** A probe with its tip at (x, y), from below: solid where it is parked, hollow where it walks. */
export function probe(x: number, y: number, kind: 'parked' | 'moving', length = 24): string {
  return path(
    `M${num(x)} ${num(y)}l4.5 ${num(length * 0.45)}v${num(length * 0.55)}h-9v${num(-length * 0.55)}z`,
    kind === 'parked' ? 'fill' : 's paper',
  )
}

/** The marker behind a place where a probe of the next test goes, tip to tip. */
export function nextWash(x: number, y: number, width = 26, height = 40): string {
  return rect(x - width / 2, y, width, height, 'next')
}

/** A reading: a dimension line between two probe tips at `y`, its extension lines down from `top`, its value on it. */
export function dimension(x1: number, x2: number, top: number, y: number, reading: Reading): string {
  const width = textWidth(reading.says, 13, 700) + 26
  const mid = (x1 + x2) / 2
  // Where the value is as wide as the line it stands above it.
  const above = width + 28 > x2 - x1
  const ty = above ? y - 8 : y + 4.5
  return (
    path(`M${num(x1)} ${num(top)}V${num(y + 4)}M${num(x2)} ${num(top)}V${num(y + 4)}`, 'ext') +
    path(
      above
        ? `M${num(x1)} ${num(y)}H${num(x2)}`
        : `M${num(x1)} ${num(y)}H${num(mid - width / 2)}M${num(mid + width / 2)} ${num(y)}H${num(x2)}`,
      'dim',
    ) +
    path(`M${num(x1)} ${num(y)}l9 -4.5v9z`, 'fill') +
    path(`M${num(x2)} ${num(y)}l-9 -4.5v9z`, 'dim paper') +
    text(mid - 11, ty, reading.says, 'value') +
    (reading.agrees ? tick : differs)(mid + width / 2 - 11, ty - 4.5)
  )
}
