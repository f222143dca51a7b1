import { type Block, blocks, type Cell, isMark } from './blocks.ts'
import { invariant } from './invariant.ts'
import type { Netlist, Token } from './tree.ts'

/** A cell wider than this does not push those below and above it; nor does a wider line push their comments. Code points. */
const WIDEST_CELL = 60
const WIDEST_LINE = 120

/**
 * The canonical text of a netlist: the same tokens, comments, blank lines and order; two blanks for each depth, columns
 * aligned. Printing what was printed changes nothing. Lines are joined by LF, so that a last blank line ends the text with
 * one.
 */
export function print({ lines }: Pick<Netlist, 'lines'>): string {
  return blocks(lines)
    .map((block) => printBlock(block).join('\n'))
    .join('\n')
}

/** A line without its place in the text, for comparing what two texts say. */
export interface Stripped {
  readonly depth: number
  readonly tokens: readonly Pick<Token, 'kind' | 'text' | 'gap'>[]
  readonly comment?: string
}

/** A netlist without positions. The gaps within a contact chart are columns, however it is typed: so it is printed. */
export function strip({ lines }: Pick<Netlist, 'lines'>): readonly Stripped[] {
  return blocks(lines).flatMap((block) =>
    block.map(({ line: { depth, comment }, cells }) => {
      const tokens = cells.flatMap((cell) =>
        cell.tokens.map(({ kind, text, gap }, index): Stripped['tokens'][number] => {
          const within = gap === 'column' ? 'space' : gap
          return { kind, text, gap: index === 0 ? cell.gap : within }
        }),
      )
      return comment ? { depth, tokens, comment: comment.text } : { depth, tokens }
    }),
  )
}

function printBlock(block: Block): readonly string[] {
  const bodies = align(block)
  const widest = block.reduce((most, { line, cells }, index) => {
    const size = line.comment && cells.length > 0 ? width(bodies[index] ?? '') : 0
    return size > WIDEST_LINE ? most : Math.max(most, size)
  }, 0)
  return block.map(({ line, cells }, index) => {
    const body = bodies[index] ?? ''
    if (!line.comment) return body
    return `${cells.length > 0 ? pad(body, widest + 2) : '  '.repeat(line.depth)}#${line.comment.text}`
  })
}

/** Each row's cells side by side, the n-th of all rows at one column where a column break is before it. */
function align(block: Block): readonly string[] {
  // What stands behind the first word may be a blank away from it (`wire BK`), or a column that lines up with those
  // (`run  BU`). The first two cells then count as one.
  const firsts = block.map(({ cells: [first, second] }) => ({ text: joined(first), gap: second?.gap }))
  const roomOfFirst = firsts.reduce(
    (most, { text, gap }) => (gap && fits(text) ? Math.max(most, width(text) + (gap === 'column' ? 2 : 1)) : most),
    0,
  )
  const rows = block.map(({ line, cells }, index) => {
    if (cells.length === 0) return []
    const { text, gap } = firsts[index] ?? { text: '' }
    const set = gap === 'column' ? pad(text, roomOfFirst) : gap === 'space' ? `${text} ` : text
    return ['  '.repeat(line.depth) + set + joined(cells[1]), ...cells.slice(2).map(joined)]
  })
  const rooms: number[] = []
  for (const row of rows) {
    // The last cell of a row pushes nothing.
    for (const [column, cell] of row.slice(0, -1).entries()) {
      if (fits(cell)) rooms[column] = Math.max(rooms[column] ?? 0, width(cell) + 2)
    }
  }
  return rows.map((row) =>
    row
      .map((cell, column) => (row.length - 1 > column ? pad(cell, rooms[column] ?? 0) : cell))
      .join('')
      .trimEnd(),
  )
}

function fits(cell: string): boolean {
  return width(cell) <= WIDEST_CELL
}

/** `text` filled up to `size`, with at least two blanks. */
function pad(text: string, size: number): string {
  return text + ' '.repeat(Math.max(2, size - width(text)))
}

function joined(cell: Cell | undefined): string {
  let text = ''
  let before: Token | undefined
  for (const token of cell?.tokens ?? []) {
    if (before) {
      invariant(token.gap !== 'none' || isMark(token) || isMark(before), 'two words do not touch')
      if (token.gap !== 'none') text += ' '
    }
    text += spelled(token)
    before = token
  }
  return text
}

function spelled({ kind, text }: Token): string {
  if (kind !== 'string') return text
  invariant(!/["\r\n]/.test(text), 'a string holds no quote and no line end')
  return `"${text}"`
}

/** Code points, which is what fixed-width type gives room to. */
function width(text: string): number {
  let size = text.length
  for (let at = 1; at < text.length; at++) {
    const code = text.charCodeAt(at)
    if (code >= 0xdc00 && code <= 0xdfff && isHigh(text.charCodeAt(at - 1))) size--
  }
  return size
}

function isHigh(code: number): boolean {
  return code >= 0xd800 && code <= 0xdbff
}
