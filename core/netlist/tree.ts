/**
 * The shape of a netlist: lines of tokens, nothing about what they mean.
 *
 * Two trees are the same text but for spelling of white space when they are equal after `strip` (positions removed).
 */

/** A stretch of the text, as offsets in UTF-16 units; `to` is exclusive. */
export interface Span {
  readonly from: number
  readonly to: number
}

/** How a token is set off from the one before it: joined, by one space, or by a column break (two spaces or a tab). */
export type Gap = 'none' | 'space' | 'column'

/**
 * One token. A `word` is a run without white space, `,`, `=`, `>` or `#`; quotes may stand inside it (`1-"−"`).
 * A `string` is one quoted stretch alone; its `text` is without the quotes. Everything else is one of the three marks.
 */
export interface Token extends Span {
  readonly kind: 'word' | 'string' | ',' | '=' | '>'
  readonly text: string
  readonly gap: Gap
}

/** A `# …` to the end of its line; `text` is all after the `#`, kept to the letter. */
export interface Comment extends Span {
  readonly text: string
}

/** One line. `depth` counts the lines it is indented under; a blank line has no tokens and no comment. */
export interface Line extends Span {
  /** 1-based. */
  readonly number: number
  readonly depth: number
  readonly tokens: readonly Token[]
  readonly comment?: Comment
}

export interface Netlist {
  readonly text: string
  readonly lines: readonly Line[]
}

/** A line with the lines that belong to it: what the reader of a circuit walks. Blank and comment lines are left out. */
export interface Statement {
  readonly line: Line
  readonly children: readonly Statement[]
}

/** Something the user should know about the text: what is wrong, where, and the way out. */
export interface Problem extends Span {
  readonly code: string
  readonly severity: 'error' | 'warning'
  /** One sentence that says what is wrong. */
  readonly message: string
  /** One sentence that says what to do. */
  readonly hint: string
}

/** Replace `from`…`to` by `insert`. Edits of one list do not overlap, and all speak of the text before any of them. */
export interface TextEdit extends Span {
  readonly insert: string
}
