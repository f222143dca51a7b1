import { problem } from './problems.ts'
import { isSpace, scan } from './scan.ts'
import type { Line, Netlist, Problem } from './tree.ts'

/** What was read, and what is wrong with its form. */
export interface Parsed {
  readonly netlist: Netlist
  readonly problems: readonly Problem[]
}

/** A line is indented under at most this many others; one that is deeper is read at this depth. Circuits need two. */
export const DEEPEST = 12

const TAB = 0x09
const LF = 0x0a
const CR = 0x0d
const HASH = 0x23
/** Some editors begin a file with one; it takes no room. */
const BYTE_ORDER_MARK = 0xfeff
/** A tab reaches to the next multiple of this many columns. */
const TAB_COLUMNS = 8

/**
 * Read any text as lines of tokens. Never throws; takes time in proportion to the text. What is wrong with the form of a
 * line is a problem, and reading goes on at the next line. Problems come in the order of the text.
 */
export function parse(text: string): Parsed {
  const lines: Line[] = []
  const problems: Problem[] = []
  // The columns where those lines begin that the next one may belong to, from the outermost in; each further right.
  const columns: number[] = []
  let first = true
  for (let number = 1, from = 0; ; number++) {
    const to = endOfLine(text, from)
    const { at, column } = indentation(text, from, to)
    let depth = 0
    if (at < to && text.charCodeAt(at) === HASH) {
      depth = commentDepth(columns, column)
    } else if (at < to) {
      while ((columns.at(-1) ?? -1) >= column) columns.pop()
      depth = Math.min(columns.length, DEEPEST)
      if (first && column > 0) problems.push(problem('indented-under-nothing', { from: at, to }))
      if (columns.length > DEEPEST) problems.push(problem('too-deep', { from: at, to }))
      else columns.push(column)
      first = false
    }
    lines.push({ number, depth, ...scan(text, at, to, problems), from, to })
    if (to === text.length) return { netlist: { text, lines }, problems }
    from = to + (text.charCodeAt(to) === CR && text.charCodeAt(to + 1) === LF ? 2 : 1)
  }
}

function endOfLine(text: string, from: number): number {
  let at = from
  while (at < text.length) {
    const code = text.charCodeAt(at)
    if (code === LF || code === CR) break
    at++
  }
  return at
}

/** Where the line's first token or comment stands: as an offset, and as a column counted from 0. */
function indentation(text: string, from: number, to: number): { readonly at: number; readonly column: number } {
  let column = 0
  let at = from
  for (; at < to; at++) {
    const code = text.charCodeAt(at)
    if (code === TAB) column += TAB_COLUMNS - (column % TAB_COLUMNS)
    else if (!isSpace(code)) break
    else if (code !== BYTE_ORDER_MARK) column++
  }
  return { at, column }
}

/** A comment alone on its line belongs to the lines above that begin further left, and nothing belongs to it. */
function commentDepth(columns: readonly number[], column: number): number {
  let depth = 0
  while (depth < DEEPEST && (columns[depth] ?? column) < column) depth++
  return depth
}
