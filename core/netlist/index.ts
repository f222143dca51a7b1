export { type Cursor, cursor } from './cursor.ts'
export {
  appendTokens,
  applyEdits,
  diffEdit,
  insertAfterStatement,
  insertLineAfter,
  invertEdits,
  removeLines,
  replaceToken,
} from './edits.ts'
export { invariant } from './invariant.ts'
export { nearest } from './nearest.ts'
export { type Parsed, parse } from './parse.ts'
export { print, type Stripped, strip } from './print.ts'
export { type FormCode, messages, type Place, place } from './problems.ts'
export {
  isProblem,
  number,
  type Quantity,
  type QuantityName,
  quantity,
  type Unit,
  unitOf,
  unitWords,
} from './quantity.ts'
export { lastLine, spanOf, statements } from './statements.ts'
export type { Comment, Gap, Line, Netlist, Problem, Span, Statement, TextEdit, Token } from './tree.ts'
export { isName, quote, splitTags, terminalId } from './words.ts'
