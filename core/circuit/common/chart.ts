import type { Token } from '../../netlist/tree.ts'
import type { Context, Row } from '../kind.ts'
import type { Control, Test } from '../model.ts'
import { both, is, NEVER } from '../test.ts'
import { pairName } from './part.ts'

/** Contact charts: which positions of one or several controls close a contact. */

/** One of the controls that a chart is laid out by. */
export interface Axis {
  readonly name: string
  readonly positions: readonly string[]
}

/** A chart as headed: each column is a position of every control. */
export interface Heading {
  readonly axes: readonly Axis[]
  readonly columns: readonly (readonly string[])[]
}

/**
 * The heading of a chart: positions of the control that turns its part, or, where it names several controls, a position
 * of each with slashes between: `chart dial, heat  timed/high`.
 */
export function headingOf(part: string, head: readonly Token[], turnedBy: Control | undefined, to: Context): Heading {
  const last = head.findLastIndex((token) => token.kind === ',')
  const behind = head.slice(last + 2)
  const several = last >= 0 && behind.length > 0 && behind.every(({ text }) => text.includes('/'))
  const names = several ? head.slice(0, last + 2).filter((token) => token.kind !== ',') : []
  const found = several ? names.map((token) => to.findControl({ text: token.text, at: token })) : [turnedBy]
  const controls = found.filter((control) => control !== undefined)
  if (several && controls.length < names.length) return { axes: [], columns: [] }
  const tokens = several ? behind : head.filter((token) => token.kind !== ',')
  const seen = new Set<string>()
  const columns = tokens.map((token): readonly string[] => {
    if (seen.has(token.text)) to.tell('position-twice', token, `The chart of ${part}`, token.text)
    seen.add(token.text)
    const positions = several ? positionsIn(token.text, controls) : [token.text]
    if (!positions) {
      to.tell(
        'heading-form',
        token,
        token.text,
        controls.map((c) => c.name),
      )
      return []
    }
    positions.forEach((position, i) => {
      const control = controls[i]
      if (control && !control.positions.includes(position)) {
        to.tell('unknown-position', token, control.name, position, control.positions)
      }
    })
    return positions
  })
  return { axes: controls, columns }
}

/** A position of each control from `timed/high`; a slash within a position is found by what the controls have. */
function positionsIn(text: string, [first, ...rest]: readonly Control[]): readonly string[] | undefined {
  if (!first) return undefined
  if (rest.length === 0) return [text]
  const slashes = [...text.matchAll(/\//g)].map((m) => m.index)
  const splits = slashes.map((at) => [text.slice(0, at), text.slice(at + 1)] as const)
  const known = splits.filter(([one]) => first.positions.includes(one))
  for (const [one, others] of known.length > 0 ? known : splits) {
    const more = positionsIn(others, rest)
    if (more) return [one, ...more]
  }
  return undefined
}

/** Combinations of positions that the heading has no column for, as they would be written in it. */
export function columnsAbsent({ axes, columns }: Heading): readonly string[] {
  const all = axes.reduce<readonly (readonly string[])[]>(
    (rows, axis) => rows.flatMap((row) => axis.positions.map((p) => [...row, p])),
    [[]],
  )
  const there = new Set(columns.map((c) => c.join('/')))
  return axes.length === 0 ? [] : all.map((c) => c.join('/')).filter((c) => !there.has(c))
}

/** The columns where the cells of a row have this mark. */
export const columnsMarked = (row: Row, mark: string, { columns }: Heading): readonly (readonly string[])[] =>
  columns.filter((_, i) => row.cells[i]?.text === mark)

/** Tells of cells that are none, and of too few or too many of them. */
export function checkCells(row: Row, { columns }: Heading, restNotTyped: boolean, to: Context): void {
  const few = row.cells.length < columns.length && restNotTyped
  if (row.cells.length !== columns.length && !few) {
    to.tell('cells-do-not-match', row.at, pairName(row.tags), row.cells.length, columns.length)
  }
  for (const cell of row.cells) {
    const marks = row.other ? ['x', 'o', '-'] : ['x', 'o']
    if (!marks.includes(cell.text)) to.tell('unknown-cell', cell.at, cell.text)
  }
}

/** The condition that the controls stand in one of the columns, in as few words as it takes. */
export function standsAt(axes: readonly Axis[], columns: readonly (readonly string[])[]): Test {
  const [first] = axes
  if (!first) return NEVER
  if (columns.length === 0) return is(first.name, [])
  const test = reduced(axes, columns)
  // A contact that is closed everywhere is still one that the first control turns.
  return test.some((alternative) => alternative.length === 0) ? is(first.name, first.positions) : test
}

function reduced([axis, ...rest]: readonly Axis[], columns: readonly (readonly string[])[]): Test {
  if (!axis) return columns.length > 0 ? [[]] : NEVER
  const groups = new Map<string, { readonly positions: string[]; readonly test: Test }>()
  for (const position of axis.positions) {
    const test = reduced(
      rest,
      columns.filter(([first]) => first === position).map((column) => column.slice(1)),
    )
    const key = JSON.stringify(test)
    const group = groups.get(key)
    if (group) group.positions.push(position)
    else groups.set(key, { positions: [position], test })
  }
  const [only, ...others] = groups.values()
  if (only && others.length === 0) return only.test
  return [...groups.values()].flatMap(({ positions, test }) => both(is(axis.name, positions), test))
}
