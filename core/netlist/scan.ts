import { problem } from './problems.ts'
import type { Comment, Gap, Problem, Token } from './tree.ts'

/** What stands between the indentation of a line and its end. */
export interface Scanned {
  readonly tokens: readonly Token[]
  readonly comment?: Comment
}

const TAB = 0x09
const HASH = 0x23
const QUOTE = 0x22

/** White space within a line: blanks and tabs, and whatever else Unicode prints as room, as it comes with pasted text. */
export function isSpace(code: number): boolean {
  if (code === 0x20 || code === TAB) return true
  if (code < 0xa0) return code === 0x0b || code === 0x0c
  return (
    code === 0xa0 ||
    code === 0x1680 ||
    (code >= 0x2000 && code <= 0x200a) ||
    code === 0x2028 ||
    code === 0x2029 ||
    code === 0x202f ||
    code === 0x205f ||
    code === 0x3000 ||
    code === 0xfeff
  )
}

/** `“`, `”` and `„`, which word processors and phones put where `"` was typed. */
function isCurly(code: number): boolean {
  return code >= 0x201c && code <= 0x201e
}

function markOf(code: number): ',' | '=' | '>' | undefined {
  if (code === 0x2c) return ','
  if (code === 0x3d) return '='
  if (code === 0x3e) return '>'
  return undefined
}

/** Characters nobody can see, so that two words that look alike are not: harmless only as a joiner within a label. */
const invisibleInWord = /[\p{Cc}\p{Cf}\p{Cs}]/u
const invisibleInString = /(?!\t)[\p{Cc}\p{Cs}]/u

/** The tokens of `text` from `from` up to `to`, which is one line or a part of it. Problems are added to `problems`. */
export function scan(text: string, from: number, to: number, problems: Problem[]): Scanned {
  const tokens: Token[] = []
  let last = from
  let at = from
  while (true) {
    while (at < to && isSpace(text.charCodeAt(at))) at++
    if (at >= to) return { tokens }
    const code = text.charCodeAt(at)
    if (code === HASH) return { tokens, comment: { text: text.slice(at + 1, to), from: at, to } }
    const gap = tokens.length === 0 ? 'none' : gapBetween(text, last, at)
    const mark = markOf(code)
    const token: Token =
      mark === undefined ? scanWord(text, at, to, gap, problems) : { kind: mark, text: mark, gap, from: at, to: at + 1 }
    tokens.push(token)
    at = last = token.to
  }
}

function gapBetween(text: string, from: number, to: number): Gap {
  if (from === to) return 'none'
  return to - from === 1 && text.charCodeAt(from) !== TAB ? 'space' : 'column'
}

/**
 * The word or string at `from`. A quoted stretch opened by `"` ends at the next `"`; one opened by a curly quote ends at
 * the next quote of any form. Curly quotes around a stretch become `"` in the token's text.
 */
function scanWord(text: string, from: number, to: number, gap: Gap, problems: Problem[]): Token {
  let at = from
  let spelled = ''
  let kept = from
  let plain = true
  let firstClose = -1
  while (at < to) {
    const code = text.charCodeAt(at)
    if (code === QUOTE || isCurly(code)) {
      const close = closingQuote(text, at, to)
      if (code !== QUOTE) {
        spelled += `${text.slice(kept, at)}"`
        kept = at + 1
      }
      if (close === to) {
        let end = to
        while (end > at + 1 && isSpace(text.charCodeAt(end - 1))) end--
        const token = noticed({ kind: 'word', text: spelled + text.slice(kept, end), gap, from, to: end }, problems)
        problems.push(problem('unclosed-quote', { from: at, to: end }))
        return token
      }
      if (text.charCodeAt(close) !== QUOTE) {
        spelled += `${text.slice(kept, close)}"`
        kept = close + 1
      }
      if (at === from) firstClose = close
      at = close + 1
      plain = false
    } else if (isSpace(code) || code === HASH || markOf(code) !== undefined) {
      break
    } else {
      if (code < 0x20 || code >= 0x7f) plain = false
      at++
    }
  }
  const word = spelled + text.slice(kept, at)
  if (firstClose === at - 1) return noticed({ kind: 'string', text: word.slice(1, -1), gap, from, to: at }, problems)
  const token: Token = { kind: 'word', text: word, gap, from, to: at }
  return plain ? token : noticed(token, problems)
}

/** Where the stretch opened at `open` ends, or `to`. */
function closingQuote(text: string, open: number, to: number): number {
  const anyForm = text.charCodeAt(open) !== QUOTE
  for (let at = open + 1; at < to; at++) {
    const code = text.charCodeAt(at)
    if (code === QUOTE || (anyForm && isCurly(code))) return at
  }
  return to
}

function noticed(token: Token, problems: Problem[]): Token {
  const invisible = (token.kind === 'string' ? invisibleInString : invisibleInWord).exec(token.text)
  if (invisible) problems.push(problem('control-character', token, invisible[0]))
  return token
}
