import { parse, quantity, type Span, type Statement, statements } from '../netlist/index.ts'

/** Where in the text to say what a review finds: the words that a person would correct. */
export interface Places {
  /** The line that begins with `word`, of this name where it has one; without those indented under it. */
  line(word: string, name?: string): Span | undefined
  /** A clause of the line named `name`, with its value: `opens 68 C`; the line where it has no such clause. */
  clause(name: string, clause: string): Span | undefined
  /** The clause of a line without a name. */
  clauseOf(word: string, clause: string): Span | undefined
  /** All lines at the left edge. */
  readonly statements: readonly Statement[]
}

export function placesIn(text: string): Places {
  const all = statements(parse(text).netlist)
  const head = ({ line }: Statement): Span => ({
    from: line.tokens[0]?.from ?? line.from,
    to: line.tokens.at(-1)?.to ?? line.to,
  })
  const clauseIn = (statement: Statement | undefined, clause: string): Span | undefined => {
    if (!statement) return undefined
    const { tokens } = statement.line
    const at = tokens.findIndex((token, i) => i > 1 && token.kind === 'word' && token.text === clause)
    const word = tokens[at]
    if (!word) return head(statement)
    return { from: word.from, to: (quantity(tokens, at + 1) ?? tokens[at + 1] ?? word).to }
  }
  const named = (name: string) => all.find(({ line }) => line.tokens[1]?.text === name)
  return {
    statements: all,
    line(word, name) {
      const found = all.find(
        ({ line: { tokens } }) => tokens[0]?.text === word && (name === undefined || tokens[1]?.text === name),
      )
      return found && head(found)
    },
    clause: (name, clause) => clauseIn(named(name), clause),
    clauseOf: (word, clause) =>
      clauseIn(
        all.find(({ line }) => line.tokens[0]?.text === word),
        clause,
      ),
  }
}
