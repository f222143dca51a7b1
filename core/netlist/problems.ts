import { invariant } from './invariant.ts'
import type { Problem, Span } from './tree.ts'

interface Wording {
  readonly severity: Problem['severity']
  /** One sentence that says what is wrong with `words`. */
  readonly message: (words: string) => string
  /** One sentence that says what to do. */
  readonly hint: (wayOut: string) => string
}

/** Every problem of form, by its code. An error was not understood as typed; a warning was, and may be a slip. */
export const messages = {
  'unclosed-quote': {
    severity: 'error',
    message: () => 'This quote is not closed.',
    hint: () => 'Type " where the quoted words end.',
  },
  'control-character': {
    severity: 'error',
    message: (character) => `A character that cannot be seen (${codePoint(character)}) stands in here.`,
    hint: () => 'Delete these words and type them again.',
  },
  'indented-under-nothing': {
    severity: 'warning',
    message: () => 'This line is indented, and there is no line above it to belong to.',
    hint: () => 'Begin it at the left edge.',
  },
  'too-deep': {
    severity: 'warning',
    message: () => 'This line is indented under more lines than any part needs.',
    hint: () => 'Begin it below the first word of the line above it.',
  },
  'missing-unit': {
    severity: 'error',
    message: (number) => `${number} has no unit.`,
    hint: () => 'Write the unit after the number, such as 15 A.',
  },
  'unknown-unit': {
    severity: 'error',
    message: (word) => `"${word}" is not a unit.`,
    hint: (wayOut) => wayOut,
  },
  'decimal-comma': {
    severity: 'error',
    message: (number) => `The comma in ${number} ends the number.`,
    hint: () => 'Write 2.4 with a point, and 5400 without any mark.',
  },
} as const satisfies Record<string, Wording>

/** A stable name for what is wrong with the form of a text. */
export type FormCode = keyof typeof messages

/** The problem `code` at `span`; `words` and `wayOut` go into its sentences where they have room for them. */
export function problem(code: FormCode, { from, to }: Span, words = '', wayOut = ''): Problem {
  const { severity, message, hint }: Wording = messages[code]
  return { code, severity, message: message(words), hint: hint(wayOut), from, to }
}

function codePoint(character: string): string {
  return `U+${(character.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')}`
}

/** Where an offset stands, as people count: lines and columns from 1, a column for each UTF-16 unit. */
export interface Place {
  readonly line: number
  readonly column: number
}

/** The place of `offset` (0 … the text's length). Between the two characters of a CRLF is still the line that they end. */
export function place(text: string, offset: number): Place {
  invariant(offset >= 0 && offset <= text.length, `offset ${offset} lies within a text of ${text.length}`)
  let line = 1
  let start = 0
  for (let at = 0; at < offset; at++) {
    const code = text.charCodeAt(at)
    if (code === 0x0d && text.charCodeAt(at + 1) === 0x0a) continue
    if (code === 0x0d || code === 0x0a) {
      line++
      start = at + 1
    }
  }
  return { line, column: offset - start + 1 }
}
