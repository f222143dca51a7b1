import { type Cursor, cursor, isName, isProblem, spanOf, splitTags } from '../netlist/index.ts'
import type { Span, Statement, Token } from '../netlist/tree.ts'
import { type Place, quantityAsTyped, tagOf } from './forms.ts'
import type {
  ChildForm,
  Children,
  Clauses,
  KindForm,
  LineForm,
  Rating,
  Row,
  Said,
  SaidChild,
  SaidLine,
  Tags,
  Teller,
  Values,
  Word,
} from './kind.ts'
import { canBe, quantityText } from './range.ts'

/** The form of a line: what it says, by the words its kind knows. What it means is the kind's own `read`. */

/**
 * Reads a line with all that belongs to it; `spoilt`: the parser found something wrong in there. `undefined` when not
 * even its name can be told.
 */
export function sayStatement<C extends Clauses, R extends Children>(
  statement: Statement,
  form: KindForm<C, R>,
  teller: Teller,
  spoilt: boolean,
): Said<C, R> | undefined {
  const before = teller.count()
  const third = statement.line.tokens[2]?.text ?? ''
  const unnamed = form.namedBefore && !form.namedBefore.includes(third)
  const said = sayLine(statement, form, form.named !== 'no' && !unnamed, teller)
  const own = said && unnamed ? { ...said, name: form.word } : said
  const children = form.holds ? [] : sayChildren(statement, form, teller)
  return own && { ...own, told: spoilt || teller.count() > before, at: spanOf(statement), children }
}

function sayChildren<R extends Children>(
  statement: Statement,
  { word, children: forms }: { readonly word: string; readonly children: R },
  teller: Teller,
): readonly SaidChild<R>[] {
  const formOf = ({ line }: Statement): ChildForm | undefined => {
    const first = line.tokens[0]?.text ?? ''
    return Object.hasOwn(forms, first) ? forms[first] : undefined
  }
  const lines = flatten(
    statement.children,
    (line) => (formOf(line)?.rows ? 'all' : formOf(line)?.leads === true),
    teller,
  )
  const children: SaidChild<R>[] = []
  // Rows below a head that is misspelt went with it.
  let headless = false
  for (let i = 0; i < lines.length; i++) {
    const line = lines[i]
    const first = line?.line.tokens[0]
    if (!line || !first) continue
    const form = formOf(line)
    if (!form) {
      if (headless && splitTags(first.text)) continue
      teller.tell('unknown-line', first, first.text, word, Object.keys(forms))
      headless = true
      continue
    }
    headless = false
    const rows: Row[] = []
    if (form.rows) {
      // Rows stand under the head of their table or beside it.
      const beside: Statement[] = []
      for (let next = lines[i + 1]; next && !formOf(next); next = lines[i + 1]) {
        beside.push(next)
        i++
      }
      for (const row of flatten([...line.children, ...beside], () => false, teller)) {
        const said = sayRow(row, teller)
        if (said) rows.push(said)
      }
    }
    const said = sayLine(line, form.rows ? { ...form, bare: true } : form, form.named, teller)
    // The word decides the form, so the two fit; that cannot be said in types where the forms are not known yet.
    if (said) children.push({ ...said, rows } as SaidLine as SaidChild<R>)
  }
  return children
}

/**
 * Lines with those indented under them, which is told, unless the upper one `takes` lines: `all` stay with it, else they
 * follow it.
 */
function flatten(
  lines: readonly Statement[],
  takes: (line: Statement) => boolean | 'all',
  teller: Teller,
): readonly Statement[] {
  return lines.flatMap((line) => {
    const taken = takes(line)
    if (taken === 'all' || line.children.length === 0) return [line]
    const [under] = line.children
    if (under && !taken) {
      const at = { from: under.line.tokens[0]?.from ?? under.line.from, to: under.line.to }
      teller.tell('indented-too-far', at, line.line.tokens[0]?.text ?? '')
    }
    return [{ ...line, children: [] }, ...flatten(line.children, takes, teller)]
  })
}

function sayLine<C extends Clauses>(
  { line }: Statement,
  form: LineForm<C>,
  named: boolean,
  teller: Teller,
): SaidLine<C> | undefined {
  const before = teller.count()
  const at = cursor(line)
  const first = at.next()
  const word = first?.text ?? ''
  const head: Span = { from: first?.from ?? line.from, to: line.tokens.at(-1)?.to ?? line.to }
  const place = { cursor: at, teller, beginsClause: (token: Token) => clauseOf(form, token) !== undefined }
  const name = named ? takeName({ ...place, clause: word }) : { text: '', at: head }
  if (!name) return undefined

  let label = ''
  const tags: Tags[] = []
  const bare: Token[] = []
  const ratings: Rating[] = []
  const clauses: Record<string, unknown> = {}
  let last: Token | undefined
  let strayed = false
  for (let token = at.peek(); token; last = token, token = at.peek()) {
    const wasStray = strayed
    strayed = false
    const clause = clauseOf(form, token)
    if (clause) {
      at.next()
      const value = clause.read({ ...place, clause: token.text })
      if (Object.hasOwn(clauses, token.text)) teller.tell('clause-twice', token, token.text)
      else if (value !== undefined) clauses[token.text] = value
      continue
    }
    const pair = form.tags && token.kind === 'word' ? splitTags(token.text) : undefined
    if (pair) {
      at.next()
      tags.push({ pair, at: { from: token.from, to: token.to } })
    } else if (takeRating(at, form, ratings, teller)) {
      // A rating, or a problem with one.
    } else if (form.bare && !(named && label === '' && token.kind === 'string' && last?.kind !== ',')) {
      at.next()
      bare.push(token)
    } else {
      const text = at.takeString()
      if (text === undefined) {
        at.next()
        // What follows a word that is not understood belongs to it.
        if (!wasStray) teller.tell('unknown-word', token, token.text, form.tags === true, Object.keys(form.clauses))
        strayed = true
      } else if (label !== '') teller.tell('label-twice', token, text)
      else label = text
    }
  }
  return {
    word,
    name: name.text,
    nameAt: name.at,
    label,
    tags,
    bare,
    ratings,
    // Each value was read by the form of its word; a record that is filled word by word cannot be typed so.
    clauses: clauses as Values<C>,
    told: teller.count() > before,
    head,
  }
}

function clauseOf<C extends Clauses>({ clauses }: LineForm<C>, token: Token) {
  return token.kind === 'word' && Object.hasOwn(clauses, token.text) ? clauses[token.text] : undefined
}

function takeName({ clause: word, cursor: at, beginsClause, teller }: Place): Word | undefined {
  const token = at.peek()
  if (!token || token.kind === 'string' || beginsClause(token)) {
    teller.tell('no-name', token ?? at.span, word, undefined)
    return undefined
  }
  if (token.kind !== 'word' || !isName(token.text)) {
    teller.tell('no-name', token, word, token.text)
    return undefined
  }
  at.next()
  return { text: token.text, at: { from: token.from, to: token.to } }
}

/** Takes a number with its unit, right or wrong; false when none comes next. */
function takeRating(at: Cursor, form: LineForm, ratings: Rating[], teller: Teller): boolean {
  if (form.bare && !form.ratings) return false
  const read = at.takeQuantity()
  if (!read) return false
  if (isProblem(read)) {
    teller.pass(read)
    return true
  }
  const text = quantityAsTyped(read)
  const takes = form.ratings ?? []
  if (!takes.includes(read.quantity)) {
    const fitting = Object.keys(form.clauses).filter((word) => form.clauses[word]?.quantity === read.quantity)
    teller.tell('wrong-quantity', read, text, fitting, takes.map(quantityText))
  } else if (!canBe(read)) teller.tell('impossible-value', read, text)
  else if (ratings.some((other) => other.quantity.quantity === read.quantity)) {
    teller.tell('rating-twice', read, text, quantityText(read.quantity))
  } else ratings.push({ quantity: read, at: { from: read.from, to: read.to } })
  return true
}

function sayRow({ line }: Statement, teller: Teller): Row | undefined {
  const at = cursor(line)
  const first = at.next()
  if (!first) return undefined
  const pair = first.kind === 'word' ? splitTags(first.text) : undefined
  const sides = pair ? undefined : takeSides(first, at)
  if (!pair && !sides) {
    teller.tell('row-form', first, first.text)
    return undefined
  }
  const cells: Word[] = []
  let label = ''
  for (let token = at.peek(); token; token = at.peek()) {
    const text = at.takeString()
    if (text === undefined) {
      at.next()
      cells.push({ text: token.text, at: { from: token.from, to: token.to } })
    } else if (label !== '') teller.tell('label-twice', token, text)
    else label = text
  }
  const of = (tags: readonly [string, string]): Tags => ({ pair: tags, at: { from: first.from, to: first.to } })
  const common = { cells, label, at: { from: first.from, to: line.tokens.at(-1)?.to ?? first.to } }
  return sides ? { tags: of(sides[0]), other: of(sides[1]), ...common } : { tags: of(pair ?? ['', '']), ...common }
}

/** Both sides of a changeover, of which the first tag was taken: `C to NO else NC`. */
function takeSides(
  first: Token,
  at: Cursor,
): readonly [readonly [string, string], readonly [string, string]] | undefined {
  const [to, one, or, other] = [at.peek(), at.peek(1), at.peek(2), at.peek(3)]
  const [common, a, b] = [tagOf(first), one && tagOf(one), other && tagOf(other)]
  if (to?.text !== 'to' || or?.text !== 'else' || common === undefined || a === undefined || b === undefined) {
    return undefined
  }
  for (let i = 0; i < 4; i++) at.next()
  return [
    [common, a],
    [common, b],
  ]
}
