import { number, type Quantity, quantity } from './quantity.ts'
import type { Line, Problem, Span, Token } from './tree.ts'

/**
 * Reads the tokens of a line from left to right. Each `take…` returns what it took and stands behind it, or leaves
 * everything as it was.
 */
export interface Cursor {
  /** Nothing is left. */
  readonly done: boolean
  /** What is left; when nothing is, the empty stretch behind the last token, where something may be missing. */
  readonly span: Span
  /** The token that `next` will give, or one `ahead` of it. */
  peek(ahead?: number): Token | undefined
  next(): Token | undefined
  takeWord(word: string): boolean
  takeMark(mark: ',' | '=' | '>'): boolean
  /** The words in quotes; also of a quote that is not closed, of which the parser has told. */
  takeString(): string | undefined
  takeNumber(): number | undefined
  /** A number with its unit, or the problem with it; undefined if no number comes next. */
  takeQuantity(): Quantity | Problem | undefined
  /** All that is left. */
  rest(): readonly Token[]
}

/** A cursor before the first token of `line`. */
export function cursor(line: Pick<Line, 'tokens' | 'from'>): Cursor {
  const { tokens } = line
  let at = 0
  /** Stand behind the next token and give `value`, unless it is undefined. */
  const take = <T>(value: T | undefined): T | undefined => {
    if (value !== undefined) at++
    return value
  }
  return {
    get done() {
      return at >= tokens.length
    },
    get span() {
      const to = tokens.at(-1)?.to ?? line.from
      return { from: tokens[at]?.from ?? to, to }
    },
    peek: (ahead = 0) => tokens[at + ahead],
    next: () => take(tokens[at]),
    takeWord: (word) => take(tokens[at]?.kind === 'word' && tokens[at]?.text === word ? true : undefined) ?? false,
    takeMark: (mark) => take(tokens[at]?.kind === mark ? true : undefined) ?? false,
    takeString: () => take(stringOf(tokens[at])),
    takeNumber: () => take(tokens[at]?.kind === 'word' ? number(tokens[at]?.text ?? '') : undefined),
    takeQuantity() {
      const read = quantity(tokens, at)
      if (read) while ((tokens[at]?.from ?? read.to) < read.to) at++
      return read
    },
    rest() {
      const left = tokens.slice(at)
      at = tokens.length
      return left
    },
  }
}

function stringOf(token: Token | undefined): string | undefined {
  if (token?.kind === 'string') return token.text
  return token?.kind === 'word' && token.text.lastIndexOf('"') === 0 ? token.text.slice(1) : undefined
}
