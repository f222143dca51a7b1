import type { Gap, Line, Token } from './tree.ts'

/** Tokens that stand together, and how they are set off from the cell before them. Without tokens, a place left free. */
export interface Cell {
  readonly gap: Gap
  readonly tokens: readonly Token[]
}

/** A line as cells. The first is the first token alone; beyond the second, all are set off by a column break. */
export interface Row {
  readonly line: Line
  readonly cells: readonly Cell[]
}

/** Lines whose cells are aligned with each other. */
export type Block = readonly Row[]

/**
 * All lines as blocks. A block ends before a blank line, before a line of another depth and before and after a contact
 * chart; comments alone on a line are in it and have no cells.
 */
export function blocks(lines: readonly Line[]): readonly Block[] {
  const found: Block[] = []
  let open: Row[] = []
  let depth = -1
  for (let index = 0; index < lines.length; index++) {
    const line = lines[index]
    if (line === undefined) break
    const table = tableAt(lines, index)
    const commentAlone = line.tokens.length === 0 && line.comment !== undefined
    const starts = table !== undefined || isBlank(line) || (!commentAlone && line.depth !== depth && depth !== -1)
    if (starts && open.length > 0) {
      found.push(open)
      open = []
      depth = -1
    }
    if (table) {
      found.push(table)
      index += table.length - 1
    } else if (isBlank(line)) {
      found.push([{ line, cells: [] }])
    } else {
      open.push({ line, cells: cellsOf(line) })
      if (!commentAlone) depth = line.depth
    }
  }
  if (open.length > 0) found.push(open)
  return found
}

function isBlank(line: Line): boolean {
  return line.tokens.length === 0 && !line.comment
}

/** The tokens of a line, parted behind the first and at every column break. */
function cellsOf({ tokens }: Line): readonly Cell[] {
  const cells: { gap: Gap; tokens: Token[] }[] = []
  for (const [index, token] of tokens.entries()) {
    const cell = cells.at(-1)
    if (cell && index > 1 && token.gap !== 'column') cell.tokens.push(token)
    else cells.push({ gap: token.gap, tokens: [token] })
  }
  return cells
}

/**
 * The table whose head is the line at `start`: one that begins with the word `chart`. Its rows are the lines below at the
 * same depth, each of them a word and then cells: as many as the head has, or each a single character. A string that ends
 * a row has a column of its own. A head with commas (`chart dial, heat  timed/high …`) has its cells behind the last; a
 * row of a changeover has them behind `C to NO else NC`.
 */
function tableAt(lines: readonly Line[], start: number): Block | undefined {
  const head = lines[start]
  if (head === undefined || !isHead(head)) return undefined
  const lastMark = head.tokens.findLastIndex(isMark)
  const headings = marksOf(head, lastMark === -1 ? 1 : lastMark + 2)
  const parted: (Marks | undefined)[] = [headings]
  let end = start + 1
  for (let index = end; index < lines.length; index++) {
    const line = lines[index]
    if (line === undefined || isBlank(line)) break
    const row = isStrip(line) ? undefined : marksOf(line, isChangeover(line) ? 5 : 1)
    if (line.tokens.length > 0) {
      if (line.depth !== head.depth || isHead(line) || !row) break
      if (row.marks.length !== headings?.marks.length && !row.marks.every(({ text }) => text.length === 1)) break
      end = index + 1
    }
    parted.push(row)
  }
  const width = parted.reduce((most, row) => Math.max(most, row?.marks.length ?? 0), 0)
  return lines.slice(start, end).map((line, index) => {
    const row = parted[index]
    return { line, cells: row ? tableCells(row, width) : cellsOf(line) }
  })
}

export function isMark({ kind }: Token): boolean {
  return kind !== 'word' && kind !== 'string'
}

function isHead({ tokens: [first] }: Line): boolean {
  return first?.kind === 'word' && first.text === 'chart'
}

const isChangeover = ({ tokens }: Line): boolean => tokens[1]?.text === 'to' && tokens[3]?.text === 'else'
/** `D-E closed 0..240 deg`: a row of a timing strip, which has no cells. */
const isStrip = ({ tokens }: Line): boolean => tokens[1]?.text === 'closed'

/** A row of a chart: what stands left of its marks, its marks, and its label. */
interface Marks {
  readonly stub: readonly Token[]
  readonly marks: readonly Token[]
  readonly label: readonly Token[]
}

/** A line as a row whose marks begin with the token at `from`; undefined where it has none, or other than words. */
function marksOf({ tokens }: Line, from: number): Marks | undefined {
  const to = tokens.length > from && tokens.at(-1)?.kind === 'string' ? tokens.length - 1 : tokens.length
  const marks = tokens.slice(from, to)
  if (marks.length === 0 || tokens[0]?.kind !== 'word' || marks.some(({ kind }) => kind !== 'word')) return undefined
  return { stub: tokens.slice(0, from), marks, label: tokens.slice(to) }
}

/** The label has a column of its own, so that each row has `width` marks and a label, or room for them. */
function tableCells({ stub, marks, label }: Marks, width: number): readonly Cell[] {
  const free = Array.from({ length: width - marks.length }, () => [])
  const columns = [...marks.map((mark) => [mark]), ...free, label]
  return [{ gap: 'none', tokens: stub }, ...columns.map((tokens): Cell => ({ gap: 'column', tokens }))]
}
