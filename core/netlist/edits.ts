import { invariant } from './invariant.ts'
import { lastLine } from './statements.ts'
import type { Gap, Line, Netlist, Span, Statement, TextEdit, Token } from './tree.ts'

/** In the order of the text; of those that begin at one place, an insertion is before a replacement, else as listed. */
function inOrder(text: string, edits: readonly TextEdit[]): readonly TextEdit[] {
  const sorted = edits.toSorted((a, b) => a.from - b.from || a.to - b.to)
  let free = 0
  for (const { from, to } of sorted) {
    invariant(from >= free, `the edit at ${from} does not overlap the one before it, which ends at ${free}`)
    invariant(to >= from && to <= text.length, `the edit ${from}…${to} lies within a text of ${text.length}`)
    free = to
  }
  return sorted
}

/** The text with all `edits` made. They may be in any order, and throw when they overlap or leave the text. */
export function applyEdits(text: string, edits: readonly TextEdit[]): string {
  let result = ''
  let kept = 0
  for (const { from, to, insert } of inOrder(text, edits)) {
    result += text.slice(kept, from) + insert
    kept = to
  }
  return result + text.slice(kept)
}

/** The edits that make `text` again of `applyEdits(text, edits)`. */
export function invertEdits(text: string, edits: readonly TextEdit[]): readonly TextEdit[] {
  let shift = 0
  return inOrder(text, edits).map(({ from, to, insert }) => {
    const start = from + shift
    shift += insert.length - (to - from)
    return { from: start, to: start + insert.length, insert: text.slice(from, to) }
  })
}

/** The shortest single edit that makes `after` of `before`; it does not part the halves of one character. */
export function diffEdit(before: string, after: string): TextEdit {
  const shorter = Math.min(before.length, after.length)
  let from = 0
  while (from < shorter && before.charCodeAt(from) === after.charCodeAt(from)) from++
  if (parts(before, from) || parts(after, from)) from--
  let same = 0
  while (
    same < shorter - from &&
    before.charCodeAt(before.length - 1 - same) === after.charCodeAt(after.length - 1 - same)
  )
    same++
  if (parts(before, before.length - same) || parts(after, after.length - same)) same--
  return { from, to: before.length - same, insert: after.slice(from, after.length - same) }
}

/** Whether `at` stands between the two halves of a character beyond U+FFFF. */
function parts(text: string, at: number): boolean {
  const low = text.charCodeAt(at)
  const high = text.charCodeAt(at - 1)
  return low >= 0xdc00 && low <= 0xdfff && high >= 0xd800 && high <= 0xdbff
}

/** Write `words` in the place of `token`. */
export function replaceToken({ from, to }: Token, words: string): readonly TextEdit[] {
  return [{ from, to, insert: words }]
}

/** Write `words` behind the last token of `line`, before its comment. A quote left open there is closed first. */
export function appendTokens(line: Line, words: string, gap: Exclude<Gap, 'none'> = 'column'): readonly TextEdit[] {
  const last = line.tokens.at(-1)
  invariant(last, `line ${line.number} has tokens to append to`)
  const open = last.kind === 'word' && last.text.split('"').length % 2 === 0
  return [{ from: last.to, to: last.to, insert: `${open ? '"' : ''}${gap === 'column' ? '  ' : ' '}${words}` }]
}

/**
 * Write a new line of `words` under `line`. Its `depth` is at most one more than that of the last line with tokens there;
 * it is indented and ends like the lines around it. Deeper lines below will belong to it: use `insertAfterStatement` to leave
 * those where they are.
 */
export function insertLineAfter(netlist: Netlist, line: Line, words: string, depth = line.depth): readonly TextEdit[] {
  const insert = indentationAt(netlist, line, depth) + words
  if (netlist.text === '') return [{ from: 0, to: 0, insert }]
  return [{ from: line.to, to: line.to, insert: lineEndAt(netlist, line) + insert }]
}

/** How `line` ends; the last one, how the line before it does. */
function lineEndAt({ text, lines }: Netlist, line: Line): string {
  const next = lines[line.number]
  const before = lines[line.number - 2]
  if (next) return text.slice(line.to, next.from)
  return before ? text.slice(before.to, line.from) : '\n'
}

/** Write a new line of `words` below `statement` and all that belongs to it, as its sibling. */
export function insertAfterStatement(netlist: Netlist, statement: Statement, words: string): readonly TextEdit[] {
  return insertLineAfter(netlist, lastLine(statement), words, statement.line.depth)
}

/** The white space that puts a line under `line` at `depth`: that of the nearest line so deep, else two blanks more. */
function indentationAt({ text, lines }: Netlist, line: Line, depth: number): string {
  const indentation = ({ from, tokens }: Line) => text.slice(from, tokens[0]?.from)
  const above = lines.slice(0, line.number).findLast((other) => other.tokens.length > 0 && other.depth <= depth)
  if (above?.depth === depth) return indentation(above)
  invariant(depth === (above ? above.depth + 1 : 0), `a line under line ${line.number} can stand at depth ${depth}`)
  const below = lines.slice(line.number).find(({ tokens }) => tokens.length > 0)
  if (below?.depth === depth) return indentation(below)
  return above ? `${indentation(above)}  ` : ''
}

/** Take out every line that `span` touches, with its line end. */
export function removeLines({ text, lines }: Netlist, span: Span): readonly TextEdit[] {
  const first = lines.find(({ to }) => to >= span.from)
  const last = lines.findLast(({ from }) => from <= span.to)
  invariant(first && last, `the stretch ${span.from}…${span.to} lies within the text`)
  const next = lines[last.number]
  if (next) return [{ from: first.from, to: next.from, insert: '' }]
  return [{ from: lines[first.number - 2]?.to ?? 0, to: text.length, insert: '' }]
}
