import {
  appendTokens,
  applyEdits,
  type Cursor,
  cursor,
  diffEdit,
  insertAfterStatement,
  insertLineAfter,
  isName,
  isProblem,
  type Line,
  parse,
  quantity,
  quote,
  removeLines,
  replaceToken,
  type Span,
  type Statement,
  spanOf,
  splitTags,
  type TextEdit,
  type Token,
  terminalId,
} from '../netlist/index.ts'
import { catalogue } from './catalogue.ts'
import { tagOf } from './forms.ts'
import type { Clauses, LineForm, Teller } from './kind.ts'
import type { Circuit, ElementId, TerminalId } from './model.ts'
import { type Refusal, type RefusalCode, type RefusalWords, refusal } from './refusals.ts'
import { type ReadStatement, type Reference, type Study, study } from './study.ts'

/**
 * Edits of a circuit as small edits of its text: what a click in the drawing or a cell of a table does. Each gives the
 * text edits of the lines concerned, or says why it cannot be done; none leaves a text that reads worse than before.
 */
export type Edited = readonly TextEdit[] | Refusal

export const isRefusal = (edited: Edited): edited is Refusal => 'code' in edited

/** What `rename` can be asked to rename. */
export type Renamed =
  | { readonly kind: 'part' | 'control' | 'drive' | 'airflow' | 'area' | 'zone'; readonly name: string }
  | { readonly kind: 'position'; readonly control: string; readonly position: string }
  | { readonly kind: 'tag'; readonly part: string; readonly tag: string }

/** Gives a thing another name, everywhere it is spoken of. Labels and comments stay as they are. */
export function rename(text: string, it: Renamed, name: string): Edited {
  const read = study(text)
  const edits =
    it.kind === 'position'
      ? renamePosition(read, it.control, it.position, name)
      : it.kind === 'tag'
        ? renameTag(read, it.part, it.tag, name)
        : renameName(read, it.kind, it.name, name)
  return isRefusal(edits) ? edits : safe(read, edits, 'same')
}

function renameName(read: Study, kind: string, old: string, name: string): Edited {
  const names = kind === 'area' || kind === 'zone' ? kind : 'shared'
  const inNames = ({ kind: k }: ReadStatement): boolean =>
    names === 'shared' ? k.named === 'shared' : k.word === names
  const owner = read.lines.find((line) => inNames(line) && line.name === old)
  if (!owner) return refuse('no-such-thing', undefined, kind, old)
  if (!isName(name)) return refuse('bad-name', owner.nameAt, name)
  if (read.lines.some((line) => inNames(line) && line.name === name)) return refuse('name-in-use', owner.nameAt, name)
  if (name === old) return []
  const edits = collector(read.text)
  const isTerminal = read.reading.circuit.terminals.has(old)
  edits.put(owner.nameAt, name)
  for (const line of read.lines) {
    const written = wordIn(line, name)
    for (const ref of line.references) {
      if (ref.kind === 'name' && ref.names === names && ref.name === old) edits.put(ref.at, written)
      if (names !== 'shared') continue
      if (ref.kind === 'name' && ref.names === names && isBesides(ref.name, old)) {
        edits.put(prefixAt(read.text, ref.at, old), name)
      }
      if (ref.kind === 'place') {
        if (ref.word === old) edits.put(ref.at, written)
        else if (ref.word.startsWith(`${old}.`)) edits.put(prefixAt(read.text, ref.at, old), name)
      }
      if (ref.kind === 'tag' && ((isTerminal && ref.tag === old) || ref.tag.startsWith(`${old}.`))) {
        for (const token of tokensOf(line.statement)) {
          edits.rewrite(token, (tag) =>
            isTerminal && tag === old
              ? name
              : tag.startsWith(`${old}.`)
                ? `${name}${tag.slice(old.length)}`
                : undefined,
          )
        }
      }
    }
  }
  return edits.all()
}

/** What a line brings besides the thing it is about is called by both: `drum-belt`, `M:overload`. No name has such marks. */
const isBesides = (name: string, owner: string): boolean => name.startsWith(`${owner}-`) || name.startsWith(`${owner}:`)

/** Where the name stands at the beginning of a place, which may be in quotes. */
function prefixAt(text: string, { from }: Span, name: string): Span {
  const start = text.startsWith(name, from) ? from : from + 1
  return { from: start, to: start + name.length }
}

function renamePosition(read: Study, control: string, old: string, name: string): Edited {
  const owner = read.lines.find((line) => line.kind.word === 'control' && line.name === control)
  const known = read.reading.circuit.controls.get(control)
  if (!owner || !known?.positions.includes(old)) return refuse('no-such-position', owner?.nameAt, control, old)
  if (name === old) return []
  if (known.positions.includes(name)) return refuse('name-in-use', owner.nameAt, name)
  if (name === '' || /["“”„\r\n]/.test(name)) return refuse('bad-position', owner.nameAt, name)
  const edits = collector(read.text)
  const { tokens } = owner.statement.line
  const [, , third] = tokens
  const own = tokens.slice(third?.kind === 'string' ? 3 : 2).filter((t) => t.text === old && !isClauseWord(owner, t))
  const [first] = own
  if (!first) return refuse('not-written', owner.nameAt, old)
  for (const token of own) edits.put(token, wordIn(owner, name))
  // Words in quotes that stand before any label would be the label.
  if (first === third && wordIn(owner, name) !== name) return refuse('label-needed', owner.nameAt, name)
  for (const line of read.lines) {
    for (const ref of line.references) {
      if (ref.kind === 'state' && ref.of === control && ref.state === old) edits.put(ref.at, wordIn(line, name))
    }
    for (const { line: head } of line.statement.children.filter(isChart)) {
      const { axes, columns } = headingOf(head, line)
      for (const column of columns) {
        const parts = axes.length > 1 ? column.text.split('/') : [column.text]
        if (parts.length !== Math.max(1, axes.length)) continue
        const changed = parts.map((part, i) => (axes[i] === control && part === old ? name : part)).join('/')
        if (changed !== column.text) edits.put(column, wordIn(line, changed))
      }
    }
  }
  // Kinds that look positions up on their own tell of those that they no longer find.
  for (const { from, to } of missedAfter(read, edits.all(), old)) {
    const line = read.lines.find(({ statement }) => within({ from, to }, spanOf(statement)))
    if (line) edits.put({ from, to }, wordIn(line, name))
  }
  const after = study(applyEdits(read.text, edits.all())).reading.circuit
  // A position that says something by its name, such as how hot, cannot have another.
  const same = said(read.reading.circuit, control, old, name) === said(after, control, old, name)
  return same ? edits.all() : refuse('would-change-more', owner.nameAt)
}

/** Where words are told of, once the edits are made, that speak of the old name; as places in the text before. */
function missedAfter(read: Study, edits: readonly TextEdit[], old: string): readonly Span[] {
  const after = applyEdits(read.text, edits)
  const shiftAt = (at: number): number => {
    let shift = 0
    for (const e of edits) if (e.from + shift < at) shift += e.insert.length - (e.to - e.from)
    return shift
  }
  return study(after).reading.problems.flatMap(({ from, to }) => {
    const words = after.slice(from, to)
    if (words !== old && words !== `"${old}"`) return []
    const shift = shiftAt(from)
    return [{ from: from - shift, to: to - shift }]
  })
}

/** All that a circuit says, without places in the text, and with the position by its new name. */
const said = (circuit: Circuit, control: string, old: string, name: string): string =>
  JSON.stringify(circuit, function (this: Readonly<Record<string, unknown>>, key, value) {
    if (key === 'at') return undefined
    if (value instanceof Map || value instanceof Set) return [...value]
    const own = ['positions', 'normally', 'momentary'].includes(key) && this.name === control
    if (!own && !(key === 'in' && this.of === control)) return value
    const renamed = (p: string) => (p === old ? name : p)
    if (key === 'momentary') return Object.entries<string>(value).flat().map(renamed)
    return Array.isArray(value) ? value.map(renamed) : renamed(value)
  })

const isChart = ({ line }: Statement): boolean => line.tokens[0]?.text === 'chart'

/** The controls that a chart is laid out by, and the words of its columns. */
function headingOf(
  { tokens }: Line,
  { references, statement }: ReadStatement,
): { readonly axes: readonly string[]; readonly columns: readonly Token[] } {
  const head = tokens.slice(1)
  const last = head.findLastIndex((token) => token.kind === ',')
  const behind = head.slice(last + 2)
  if (last >= 0 && behind.length > 0 && behind.every((token) => token.text.includes('/'))) {
    const axes = head.slice(0, last + 2).filter((token) => token.kind !== ',')
    return { axes: axes.map((token) => token.text), columns: behind }
  }
  const turned = references.find(
    (ref) => ref.kind === 'name' && ref.names === 'shared' && within(ref.at, statement.line),
  )
  const axes = turned?.kind === 'name' ? [turned.name] : []
  return { axes, columns: head.filter((token) => token.kind !== ',') }
}

const within = (inner: Span, outer: Span): boolean => inner.from >= outer.from && inner.to <= outer.to

function renameTag(read: Study, part: string, old: string, tag: string): Edited {
  const owner = read.lines.find((line) => line.kind.named === 'shared' && line.name === part)
  const { circuit } = read.reading
  if (!owner || !circuit.terminals.has(`${part}.${old}`))
    return refuse('no-such-terminal', owner?.nameAt, `${part}.${old}`)
  if (tag === old) return []
  if (circuit.terminals.has(`${part}.${tag}`)) return refuse('name-in-use', owner.nameAt, `${part}.${tag}`)
  const written = tagAsWritten(tag)
  if (written === undefined) return refuse('bad-tag', owner.nameAt, tag)
  const edits = collector(read.text)
  const own = tokensOf(owner.statement)
  const rewritten = (one: string) => (one === old ? tag : undefined)
  for (const token of own) if (splitTags(token.text)) edits.rewrite(token, rewritten)
  // A word alone is a tag where writing another makes another terminal.
  for (const token of own.slice(2)) {
    if (splitTags(token.text) || tagOf(token) !== old || token.kind === 'string') continue
    const probe = study(applyEdits(read.text, replaceToken(token, written))).reading.circuit
    if (probe.terminals.has(`${part}.${tag}`)) edits.put(token, written)
    else if (written !== tag && token === own[2]) return refuse('label-needed', owner.nameAt, tag)
  }
  if (edits.all().length === 0) {
    const behind = own[2]?.kind === 'string' ? own[2] : own[1]
    const pair = old === '1' ? `${written}-2` : `1-${written}`
    if (!behind || !owner.kind.tags || (old !== '1' && old !== '2')) return refuse('not-written', owner.nameAt, old)
    edits.put({ from: behind.to, to: behind.to }, ` ${pair}`)
  }
  for (const line of read.lines) {
    for (const ref of line.references) {
      if (ref.kind === 'place' && terminalId(ref.word) === `${part}.${old}`) edits.put(ref.at, `${part}.${written}`)
      if (ref.kind === 'tag' && ref.tag === `${part}.${old}`) {
        for (const token of tokensOf(line.statement)) {
          edits.rewrite(token, (one) => (one === `${part}.${old}` ? `${part}.${tag}` : undefined))
        }
      }
    }
  }
  return edits.all()
}

/** A part to be added: `words` stand behind its name, `under` are its indented lines. */
export interface NewPart {
  readonly kind: string
  readonly name: string
  readonly words?: string
  readonly under?: readonly string[]
}

/** Adds a part below those of its kind, or where the kinds that are typed before it end. */
export function addPart(text: string, { kind, name, words = '', under = [] }: NewPart): Edited {
  const read = study(text)
  const place = catalogue.findIndex((k) => k.word === kind && k.named !== 'no')
  if (place < 0) return refuse('no-such-kind', undefined, kind)
  if (!isName(name)) return refuse('bad-name', undefined, name)
  if (read.lines.some((line) => line.kind.named === 'shared' && line.name === name)) {
    return refuse('name-in-use', undefined, name)
  }
  const before = read.lines.findLast((line) => catalogue.findIndex((k) => k.word === line.kind.word) <= place)
  const head = [kind, name, words].filter((word) => word !== '').join(' ')
  return safe(read, insertLines(read, before?.statement, [head, ...under.map((line) => `  ${line}`)]), 'grown')
}

/** New lines below a statement; below all there is where none is given. */
function insertLines(read: Study, after: Statement | undefined, lines: readonly string[]): readonly TextEdit[] {
  const { netlist, text } = read
  const end = /\r\n|\r|\n/.exec(text)?.[0] ?? '\n'
  const [first] = after?.line.tokens ?? []
  const indentation = after && first ? text.slice(after.line.from, first.from) : ''
  const words = lines.join(`${end}${indentation}`)
  if (after) return insertAfterStatement(netlist, after, words)
  const last = netlist.lines.findLast((line) => line.tokens.length > 0 || line.comment) ?? netlist.lines[0]
  return last ? insertLineAfter(netlist, last, words, 0) : []
}

/**
 * Takes a part out: its lines, and every wire at it. What it stood between in one line is joined there, and a list that
 * names it goes on without it. A condition or a tag that speaks of it has to be changed first.
 */
export function removePart(text: string, name: string): Edited {
  const read = study(text)
  const owner = read.lines.find((line) => line.kind.named === 'shared' && line.name === name)
  if (!owner) return refuse('no-such-thing', undefined, 'part', name)
  const isIts = (word: string): boolean => word === name || word.startsWith(`${name}.`)
  const isTerminal = read.reading.circuit.terminals.has(name)
  const edits = collector(text)
  for (const edit of removeLines(read.netlist, spanOf(owner.statement))) edits.put(edit, edit.insert)
  for (const line of read.lines) {
    if (line === owner) continue
    const places = placesOf(line)
    const gone = places.filter((ref) => isIts(ref.word)).length
    if (gone > 0) {
      const after = withoutPlaces(text, line, (word) => isIts(word))
      if (after === undefined) for (const e of removeLines(read.netlist, spanOf(line.statement))) edits.put(e, e.insert)
      else edits.line(line.statement.line, after)
    }
    for (const ref of line.references) {
      if (ref.kind === 'tag' && isIts(ref.tag) && (isTerminal || ref.tag !== name))
        return refuse('spoken-of', ref.at, name)
      if (ref.kind === 'state' && (ref.of === name || isBesides(ref.of, name))) return refuse('spoken-of', ref.at, name)
      if (ref.kind !== 'name' || ref.names !== 'shared' || ref.name !== name) continue
      const cut = cutOf(line, ref.at)
      if (!cut) return refuse('spoken-of', ref.at, name)
      edits.put(cut, '')
    }
  }
  const all = edits.all()
  const checked = safe(read, all, 'any')
  if (!isRefusal(checked)) return checked
  const spoken = read.lines.flatMap((line) => line.references).find((ref) => ref.kind === 'name' && ref.name === name)
  return spoken ? refuse('spoken-of', spoken.at, name) : checked
}

/** What to take out so that a line no longer names something: an item of a list, else the whole clause. */
function cutOf(line: ReadStatement, at: Span): Span | undefined {
  const [own, form] = lineWith(line, at)
  const index = own?.tokens.findIndex((token) => token.from === at.from) ?? -1
  const { tokens = [] } = own ?? {}
  const [before, token, behind] = [tokens[index - 1], tokens[index], tokens[index + 1]]
  if (!own || !form || !before || !token) return undefined
  if (before.kind === ',') return { from: tokens[index - 2]?.to ?? before.from, to: token.to }
  if (behind?.kind === ',') return { from: token.from, to: tokens[index + 2]?.from ?? behind.to }
  const clause = stretches(own, form).find((s) => s.kind === 'clause' && within(at, s))
  if (!clause) return undefined
  const previous = tokens.findLast((t) => t.to <= clause.from)
  return { from: previous?.to ?? clause.from, to: clause.to }
}

/** The line of a statement that a place lies in, with its form. */
function lineWith(read: ReadStatement, at: Span): readonly [Line | undefined, LineForm | undefined] {
  if (within(at, read.statement.line)) return [read.statement.line, read.kind]
  const child = read.statement.children.find(({ line }) => within(at, line))
  return [child?.line, child && formOf(read, child)]
}

function formOf({ kind }: ReadStatement, { line }: Statement): LineForm | undefined {
  const word = line.tokens[0]?.text ?? ''
  return kind.holds ? catalogue.find((k) => k.word === word) : kind.children[word]
}

/** A value to be written: of a clause by its word, or a rating that stands alone. */
export interface NewValue {
  readonly part: string
  /** The name of an indented line, or its first word where it has no name. */
  readonly element?: string
  readonly clause?: string
  /** As it is typed: `5000 W`, `70 C`, `box`. */
  readonly value: string
}

/** Changes a rating or a clause of a part, or adds it where the line has none. */
export function rerate(text: string, { part, element, clause, value }: NewValue): Edited {
  const read = study(text)
  const owner = read.lines.find((line) => line.kind.named !== 'no' && line.name === part)
  if (!owner) return refuse('no-such-thing', undefined, 'part', part)
  const child =
    element === undefined
      ? undefined
      : owner.statement.children.find(
          ({ line: { tokens } }) => (tokens[1]?.text ?? tokens[0]?.text) === element || tokens[0]?.text === element,
        )
  const statement = element === undefined ? owner.statement : child
  const form = element === undefined ? owner.kind : child && formOf(owner, child)
  if (!statement || !form) return refuse('no-such-thing', owner.nameAt, 'line', element ?? part)
  const { line } = statement
  const words = parse(value).netlist.lines
  const tokens = words.length === 1 ? (words[0]?.tokens ?? []) : []
  const known = stretches(line, form)
  if (clause !== undefined) {
    const taken = form.clauses[clause]
    if (!taken) return refuse('no-such-clause', owner.nameAt, clause, owner.kind.word)
    if (!takesAll(form, clause, tokens)) return refuse('bad-value', owner.nameAt, value, taken.form)
    const there = known.find((s) => s.kind === 'clause' && s.word === clause)
    const head = there && line.tokens.find((token) => token.from === there.from)
    const edit = there && head ? [{ from: head.to, to: there.to, insert: value === '' ? '' : ` ${value}` }] : undefined
    return safe(read, edit ?? appendTokens(line, `${clause} ${value}`.trim()), 'same')
  }
  const rating = quantity(tokens)
  if (
    !rating ||
    isProblem(rating) ||
    rating.to !== value.trimEnd().length ||
    !form.ratings?.includes(rating.quantity)
  ) {
    return refuse('bad-value', owner.nameAt, value, (form.ratings ?? []).join(', '))
  }
  const there = known.find((s) => s.kind === 'rating' && s.word === rating.quantity)
  const last = known.findLast((s) => s.kind === 'rating')
  const edit = there ?? (last && { from: last.to, to: last.to })
  if (edit) return safe(read, [{ from: edit.from, to: edit.to, insert: there ? value : ` ${value}` }], 'same')
  return safe(read, appendTokens(line, value), 'same')
}

export interface NewWire {
  readonly colour?: string
  readonly gauge?: string
  readonly length?: string
}

/** Adds a wire between two terminals, below the last of the wires. */
export function addWire(text: string, a: TerminalId, b: TerminalId, { colour, gauge, length }: NewWire = {}): Edited {
  const read = study(text)
  for (const end of [a, b]) {
    if (!read.reading.circuit.terminals.has(end)) return refuse('no-such-terminal', undefined, end)
  }
  if (a === b) return refuse('same-terminal', undefined, a)
  if (wireCalled(read, `${a}~${b}`)) return refuse('wired-already', undefined, a, b)
  const words = [
    'wire',
    colour,
    terminalAsWritten(a),
    terminalAsWritten(b),
    gauge && `gauge ${gauge}`,
    length && `length ${length}`,
  ].filter((word) => word !== undefined && word !== '')
  const last = read.lines.findLast((line) => line.kind.round === 3 && line.references.some((r) => r.kind === 'place'))
  const edits = insertLines(read, last?.statement ?? read.lines.at(-1)?.statement, [words.join(' ')])
  return wires(read, edits, [], [`${a}~${b}`])
}

/** Takes one wire out; a line of several is shortened, or becomes two. */
export function deleteWire(text: string, id: ElementId): Edited {
  const read = study(text)
  const it = wireCalled(read, id)
  if (!it) return refuse('no-such-wire', undefined, id)
  const { line, edge, name } = it
  const places = placesOf(line)
  const lines = [lineOf(read, line, 0, edge - 1), lineOf(read, line, edge, places.length - 1)]
  return wires(read, replaceLine(read, line, lines), [name], [])
}

/** Takes the end of a wire from one terminal to another. */
export function moveWireEnd(text: string, id: ElementId, end: TerminalId, to: TerminalId): Edited {
  const read = study(text)
  const it = wireCalled(read, id)
  if (!it) return refuse('no-such-wire', undefined, id)
  const { line, edge, name, ends } = it
  if (!ends.includes(end)) return refuse('no-such-end', line.statement.line, id, end)
  if (!read.reading.circuit.terminals.has(to)) return refuse('no-such-terminal', line.statement.line, to)
  if (to === end) return []
  const other = end === ends[0] ? ends[1] : ends[0]
  if (to === other) return refuse('same-terminal', line.statement.line, to)
  if (wireCalled(read, `${to}~${other}`)) return refuse('wired-already', line.statement.line, to, other)
  const last = placesOf(line).length - 1
  const lines =
    end === ends[1]
      ? [lineOf(read, line, 0, edge, { place: edge, to }), lineOf(read, line, edge, last)]
      : [lineOf(read, line, 0, edge - 1), lineOf(read, line, edge - 1, last, { place: edge - 1, to })]
  const moved = end === ends[0] ? `${to}~${other}` : `${other}~${to}`
  return wires(read, replaceLine(read, line, lines), [name], [moved])
}

/** A cell of a contact chart: closed, open, or neither side of a changeover. */
export type Cell = 'x' | 'o' | '-'

/** Sets a cell of a contact chart: of a contact by its tags, at a position of its control, or one of each control. */
export function setChartCell(text: string, part: string, contact: string, position: string, cell: Cell): Edited {
  const read = study(text)
  const owner = read.lines.find((line) => line.kind.named === 'shared' && line.name === part)
  if (!owner) return refuse('no-such-thing', undefined, 'part', part)
  const head = owner.statement.children.find(isChart)
  const column = head ? headingOf(head.line, owner).columns.findIndex((token) => token.text === position) : -1
  if (column < 0) return refuse('no-such-cell', owner.nameAt, contact, position)
  for (const { line } of [...(head?.children ?? []), ...owner.statement.children]) {
    const [first, to, one, , other] = line.tokens
    if (!first) continue
    const pair = splitTags(first.text)
    const sides = pair
      ? [pair.join('-')]
      : to?.text === 'to' && one && other
        ? [`${first.text}-${one.text}`, `${first.text}-${other.text}`]
        : []
    if (!sides.includes(contact)) continue
    const cells = line.tokens.slice(pair ? 1 : 5).filter((token) => token.kind !== 'string')
    const there = cells[column]
    if (there) return there.text === cell ? [] : safe(read, replaceToken(there, cell), 'same')
    const before = cells.at(-1) ?? line.tokens[pair ? 0 : 4]
    if (cells.length !== column || !before) return refuse('no-such-cell', first, contact, position)
    return safe(read, [{ from: before.to, to: before.to, insert: `  ${cell}` }], 'same')
  }
  return refuse('no-such-cell', owner.nameAt, contact, position)
}

// Wires.

type PlaceReference = Extract<Reference, { readonly kind: 'place' }>

const placesOf = ({ references }: ReadStatement): readonly PlaceReference[] =>
  references.filter((ref) => ref.kind === 'place')

interface FoundWire {
  readonly line: ReadStatement
  /** It joins the places before and at this one. */
  readonly edge: number
  readonly name: ElementId
  readonly ends: readonly [TerminalId, TerminalId]
}

function wireCalled(read: Study, id: ElementId): FoundWire | undefined {
  for (const line of read.lines) {
    for (const { id: name, ends, at } of line.wires) {
      if (name !== id && `${ends[1]}~${ends[0]}` !== id) continue
      return { line, edge: placesOf(line).findIndex((ref) => ref.at.from === at.from), name, ends }
    }
  }
  return undefined
}

/**
 * The words of a line of wires that keeps only its places `from` to `to`; undefined where those are fewer than two.
 * `moved` writes another terminal at one of them.
 */
function lineOf(
  read: Study,
  line: ReadStatement,
  from: number,
  to: number,
  moved?: { readonly place: number; readonly to: TerminalId },
): string | undefined {
  if (to - from < 1) return undefined
  const places = placesOf(line)
  const edits = collector(read.text)
  if (moved) {
    const at = places[moved.place]?.at
    if (at) edits.put(at, terminalAsWritten(moved.to))
  } else if (from > 0) {
    // A pin that was passed through is left at its far half.
    const first = places[from]
    const leaves = line.wires.find((wire) => wire.at.from === places[from + 1]?.at.from)?.ends[0]
    const meant = first && terminalId(first.word)
    if (first && leaves !== undefined && meant !== undefined && meant !== leaves) {
      edits.put(first.at, terminalAsWritten(leaves))
    }
  }
  const written = edits.all()
  const shift = written.reduce((n, e) => n + e.insert.length - (e.to - e.from), 0)
  const { line: own } = line.statement
  const text = applyEdits(read.text, written).slice(own.from, own.to + shift)
  return withoutPlacesIn(
    text,
    line,
    (i) => i < from || i > to,
    written.map((e) => ({ ...e, from: e.from - own.from, to: e.to - own.from })),
  )
}

/** The words of a line without the places whose words `gone` names; undefined where fewer than two are left. */
function withoutPlaces(text: string, line: ReadStatement, gone: (word: string) => boolean): string | undefined {
  const places = placesOf(line)
  const { line: own } = line.statement
  let last: string | undefined
  const leave = places.map(({ word }) => {
    // What is left on both sides of a part may be one terminal.
    const out = gone(word) || word === last
    if (!out) last = word
    return out
  })
  if (leave.filter((out) => !out).length < 2) return undefined
  return withoutPlacesIn(text.slice(own.from, own.to), line, (i) => leave[i] ?? false, [])
}

/** Takes places out of a line of wires, one after the other; a colour stays with the places it still colours. */
function withoutPlacesIn(
  text: string,
  line: ReadStatement,
  gone: (place: number) => boolean,
  shifted: readonly TextEdit[],
): string {
  const { line: own } = line.statement
  const isRun = own.tokens.some((token) => token.kind === '>')
  const move = (at: number): number =>
    shifted.reduce((n, e) => (e.to <= at ? n + e.insert.length - (e.to - e.from) : n), at)
  const starts = placesOf(line).map((ref) => move(ref.at.from - own.from))
  let result = text
  for (let i = starts.length - 1; i >= 0; i--) {
    if (gone(i)) result = withoutPlace(result, starts[i] ?? 0, isRun)
  }
  return result
}

function withoutPlace(text: string, at: number, isRun: boolean): string {
  const { tokens } = parse(text).netlist.lines[0] ?? { tokens: [] }
  const index = tokens.findIndex((token) => token.from === at)
  const [place, previous, next] = [tokens[index], tokens[index - 1], tokens[index + 1]]
  if (!place || !previous) return text
  const cut = (from: number, to: number) => text.slice(0, from) + text.slice(to)
  if (!isRun) return index === 1 && next ? cut(place.from, next.from) : cut(previous.to, place.to)
  if (next?.kind !== '>') {
    // The last: with the arrow before it, and the colour between.
    const arrow = tokens.slice(0, index).findLastIndex((token) => token.kind === '>')
    const end = tokens[arrow - 1]
    return end ? cut(end.to, place.to) : cut(previous.to, place.to)
  }
  const [after, beyond] = [tokens[index + 2], tokens[index + 3]]
  if (!after) return cut(place.from, next.to)
  const coloured =
    beyond !== undefined &&
    beyond.kind !== '>' &&
    beyond.kind !== ',' &&
    !['gauge', 'length'].includes(after.text) &&
    !['gauge', 'length'].includes(beyond.text)
  const own = previous.kind !== '>' && index > 1
  return cut(coloured && own ? previous.from : place.from, after.from)
}

/** A line of wires as one or two others, or none. */
function replaceLine(read: Study, line: ReadStatement, lines: readonly (string | undefined)[]): readonly TextEdit[] {
  const { line: own } = line.statement
  const [first, second] = lines.filter((words) => words !== undefined)
  if (first === undefined) return removeLines(read.netlist, spanOf(line.statement))
  const edits = collector(read.text)
  edits.line(own, first)
  if (second !== undefined) {
    // The comment stays where it was.
    const { comment, tokens } = parse(second).netlist.lines[0] ?? { tokens: [] }
    const words = (comment ? second.slice(0, comment.from) : second).slice(tokens[0]?.from ?? 0).trimEnd()
    for (const edit of insertLineAfter(read.netlist, own, words)) edits.put(edit, edit.insert)
  }
  return edits.all()
}

/** Edits after which the wires are the same but for `gone` and `added`; else a refusal. */
function wires(
  read: Study,
  edits: readonly TextEdit[],
  gone: readonly ElementId[],
  added: readonly ElementId[],
): Edited {
  const checked = safe(read, edits, 'any')
  if (isRefusal(checked)) return checked
  const namesIn = (one: Study) => one.lines.flatMap((line) => line.wires.map((w) => w.id)).toSorted()
  const wanted = namesIn(read)
  for (const id of gone) wanted.splice(wanted.indexOf(id), 1)
  const after = namesIn(study(applyEdits(read.text, checked)))
  const both = (id: ElementId) => [id, id.split('~').toReversed().join('~')].toSorted()[0] ?? id
  const same = [...wanted, ...added].map(both).toSorted().join() === after.map(both).toSorted().join()
  return same ? checked : refuse('would-change-more', undefined)
}

// Words of lines.

const isWord = ({ kind }: Token): boolean => kind === 'word' || kind === 'string'

/** Every word of a statement, of the lines under it too. */
const tokensOf = (statement: Statement): readonly Token[] => [
  ...statement.line.tokens.filter(isWord),
  ...statement.children.flatMap(tokensOf),
]

function isClauseWord({ kind }: ReadStatement, token: Token): boolean {
  return token.kind === 'word' && Object.hasOwn(kind.clauses, token.text)
}

/** A word as it must be typed in a line: in quotes where it would be read as something else. */
function wordIn({ kind }: ReadStatement, word: string): string {
  const clauses = [kind, ...Object.values(kind.children)].some((form) => Object.hasOwn(form.clauses, word))
  const [first, second] = parse(word).netlist.lines[0]?.tokens ?? []
  const plain = !second && first?.kind === 'word' && first.text === word && !/[\s#]/u.test(word)
  return plain && !clauses ? word : quote(word)
}

function tagAsWritten(tag: string): string | undefined {
  return [tag, quote(tag)].find((written) => splitTags(`${written}-0`)?.[0] === tag && !tag.includes('.'))
}

function terminalAsWritten(id: TerminalId): string {
  if (terminalId(id) === id || !id.includes('.')) return id
  const dot = id.indexOf('.')
  return `${id.slice(0, dot)}.${quote(id.slice(dot + 1))}`
}

interface Stretch extends Span {
  readonly kind: 'clause' | 'rating'
  /** The word of the clause, or what the rating measures. */
  readonly word: string
}

const deaf = (): Teller & { problems: number } => {
  const teller = {
    problems: 0,
    tell: () => void teller.problems++,
    pass: () => void teller.problems++,
    count: () => teller.problems,
  }
  return teller
}

/** The clauses and ratings of a line, in order. */
function stretches(line: Line, form: LineForm): readonly Stretch[] {
  const found: Stretch[] = []
  const at = cursor(line)
  at.next()
  for (let token = at.peek(); token; token = at.peek()) {
    const { from } = token
    const clause =
      token.kind === 'word' && Object.hasOwn(form.clauses, token.text) ? form.clauses[token.text] : undefined
    if (clause) {
      at.next()
      clause.read(placeIn(at, form, token.text))
      found.push({ kind: 'clause', word: token.text, from, to: endBefore(line, at) })
      continue
    }
    const read = form.ratings ? at.takeQuantity() : undefined
    if (!read) at.next()
    else if (!isProblem(read)) found.push({ kind: 'rating', word: read.quantity, from, to: read.to })
  }
  return found
}

const placeIn = (at: Cursor, form: { readonly clauses: Clauses }, clause: string, teller: Teller = deaf()) => ({
  clause,
  cursor: at,
  teller,
  beginsClause: (token: Token) => token.kind === 'word' && Object.hasOwn(form.clauses, token.text),
})

/** Where the last word that was taken ends. */
function endBefore({ tokens }: Line, at: Cursor): number {
  const next = at.peek()
  return (next ? tokens.findLast((token) => token.to <= next.from) : tokens.at(-1))?.to ?? 0
}

/** Whether the clause reads all of these words, and finds nothing wrong with them. */
function takesAll(form: LineForm, clause: string, tokens: readonly Token[]): boolean {
  const at = cursor({ tokens, from: 0 })
  const teller = deaf()
  return form.clauses[clause]?.read(placeIn(at, form, clause, teller)) !== undefined && at.done && teller.problems === 0
}

// Edits.

/** Gathers edits of a text, one for each place. */
function collector(text: string) {
  const edits = new Map<number, TextEdit>()
  return {
    put({ from, to }: Span, insert: string): void {
      if (text.slice(from, to) !== insert || from === to) edits.set(from, { from, to, insert })
    },
    /** The tags of a token, alone or in a pair, each as `change` gives it. */
    rewrite(token: Token, change: (tag: string) => string | undefined): void {
      const pair = splitTags(token.text)
      const single = pair ? undefined : tagOf(token)
      const tags = pair ?? (single === undefined || token.kind === 'string' ? [] : [single])
      const changed = tags.map((tag) => change(tag) ?? tag)
      if (changed.every((tag, i) => tag === tags[i])) return
      this.put(token, changed.map(asWritten).join('-'))
    },
    /** A line as it shall be; only what differs is edited. */
    line({ from, to }: Span, words: string): void {
      const edit = diffEdit(text.slice(from, to), words)
      this.put({ from: from + edit.from, to: from + edit.to }, edit.insert)
    },
    all: (): readonly TextEdit[] => [...edits.values()].toSorted((a, b) => a.from - b.from),
  }
}

function asWritten(tag: string): string {
  if (!tag.includes('.')) return tagAsWritten(tag) ?? tag
  return terminalAsWritten(tag)
}

/**
 * The edits, if the text reads as well after them as before: nothing new is wrong, and as it is wanted there is as much
 * in the circuit, or more, or whatever there is.
 */
function safe(read: Study, edits: readonly TextEdit[], wanted: 'same' | 'grown' | 'any'): Edited {
  const after = study(applyEdits(read.text, edits)).reading
  const before = read.reading
  const left = before.problems.map((p) => p.code)
  const fresh = after.problems.find((p) => {
    const known = left.indexOf(p.code)
    if (known >= 0) left.splice(known, 1)
    return known < 0 && p.severity === 'error'
  })
  if (fresh) return refuse('would-be-wrong', undefined, fresh.message)
  const sizes = ({ circuit: c }: Study['reading']) => [
    c.parts.size,
    c.elements.size,
    c.terminals.size,
    c.actors.size,
    c.controls.size,
    c.zones.size,
    c.areas.size,
  ]
  const [old, now] = [sizes(before), sizes(after)]
  const fits = old.every((n, i) => wanted === 'any' || n === now[i] || (wanted === 'grown' && n < (now[i] ?? 0)))
  return fits ? edits : refuse('would-change-more', undefined)
}

const refuse = <C extends RefusalCode>(code: C, at: Span | undefined, ...words: RefusalWords[C]): Refusal =>
  refusal(code, at ?? { from: 0, to: 0 }, ...words)
