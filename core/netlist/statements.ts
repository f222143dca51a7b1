import type { Line, Netlist, Span, Statement } from './tree.ts'

/** Lines with the lines that are indented under them, in the order of the text. Blank and comment lines are left out. */
export function statements(netlist: Netlist): readonly Statement[] {
  const top: Statement[] = []
  // Where a line of each depth goes: among the children of the last line above that stands one less deep.
  const families: Statement[][] = [top]
  for (const line of netlist.lines) {
    if (line.tokens.length === 0) continue
    const children: Statement[] = []
    families.length = Math.min(families.length, line.depth + 1)
    families.at(-1)?.push({ line, children })
    families.push(children)
  }
  return top
}

/** All lines of a statement, from the start of its own (indentation included) to the end of its last. */
export function spanOf(statement: Statement): Span {
  return { from: statement.line.from, to: lastLine(statement).to }
}

/** The last line that belongs to a statement: its own where nothing is indented under it. */
export function lastLine(statement: Statement): Line {
  let last = statement
  for (let child = last.children.at(-1); child; child = last.children.at(-1)) last = child
  return last.line
}
