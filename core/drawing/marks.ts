import { num, path, rect, text } from './ink.ts'
import { textWidth } from './text-width.ts'

/** Marks of what was worked out: blue pencil. Each has a shape of its own; colour may be taken away. */

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
