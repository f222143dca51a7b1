import {
  cursor,
  isName,
  isProblem,
  nearest,
  parse,
  type QuantityName,
  spanOf,
  splitTags,
  statements,
  terminalId,
} from '../netlist/index.ts'
import type { Problem, Span, Statement, Token } from '../netlist/tree.ts'
import { catalogue } from './catalogue.ts'
import type { ChildForm, Clauses, Context, Kind, Rating, Row, Said, SaidChild, Tags, Tell, Word } from './kind.ts'
import type {
  Actor,
  Area,
  Circuit,
  Control,
  Element,
  ElementId,
  Part,
  Supply,
  TerminalId,
  Test,
  Unit,
  Zone,
} from './model.ts'
import { standsIn } from './needs.ts'
import { holds } from './test.ts'

/** Names that stand for something already. */
const RESERVED = new Set(['supply', 'chassis', 'breaker'])

export interface Reading {
  /** All that was understood; lines that were not add nothing. */
  readonly circuit: Circuit
  /** Of form and of meaning, in the order of the text. */
  readonly problems: readonly Problem[]
}

/**
 * The circuit that a netlist describes, with every problem. Never throws on any text. `kinds` are the kinds of line it
 * knows: the catalogue unless told otherwise.
 */
export function readCircuit(text: string, kinds: readonly Kind[] = catalogue): Reading {
  const { netlist, problems } = parse(text)
  const told: Problem[] = [...problems]
  const tell: Tell = (code, { from, to }, message, hint, severity = 'error') => {
    told.push({ code, severity, from, to, message, hint })
  }
  const byWord = new Map(kinds.map((k) => [k.word, k]))
  const lines = statements(netlist).flatMap((statement) => {
    const [head] = statement.line.tokens
    const found = head && byWord.get(head.text)
    const said = found && say(statement, found, tell)
    if (said) return [{ kind: found, said }]
    if (head && !found) tellUnknownWord(tell, head, byWord.keys(), 'Nothing is called')
    return []
  })
  const { accepted, claimed } = claimNames(lines, tell)
  const gathered = gather(claimed, tell)
  for (const round of [1, 2, 3]) {
    for (const { kind, said } of accepted) if (kind.round === round) kind.read(said, gathered.context)
  }
  const circuit = gathered.finish()
  told.sort((a, b) => a.from - b.from || a.to - b.to)
  return { circuit, problems: told }
}

function tellUnknownWord(tell: Tell, token: Token, known: Iterable<string>, what: string): void {
  const candidates = [...known]
  const guess = nearest(token.text, candidates)
  tell(
    'unknown-word',
    token,
    `${what} “${token.text}”.`,
    guess ? `Did you mean \`${guess}\`?` : `It may be one of: ${candidates.join(', ')}.`,
  )
}

// ---- form: what a line says, by the words its kind knows ------------------------------------------------------------

/** Reads the form of a line. `undefined` when not even its name can be told. */
function say(statement: Statement, kind: Kind, tell: Tell): Said<Clauses> | undefined {
  const head: Span = {
    from: statement.line.tokens[0]?.from ?? statement.line.from,
    to: statement.line.tokens.at(-1)?.to ?? statement.line.to,
  }
  const own = readLine(statement, kind, tell, kind.named !== 'no')
  if (!own) return undefined
  const children: SaidChild<Record<string, ChildForm>>[] = []
  const lines = statement.children
  for (let i = 0; i < lines.length; i++) {
    const line = lines[i]
    const first = line?.line.tokens[0]
    if (!line || !first) continue
    const form = kind.children[first.text]
    if (!form) {
      tellUnknownWord(tell, first, Object.keys(kind.children), `A line under \`${kind.word}\` does not begin with`)
      continue
    }
    const child = readLine(line, { ...form, bare: form.rows }, tell, form.named)
    if (!child) continue
    const rows: Row[] = []
    if (form.rows) {
      // Rows stand beside the head of their table or under it.
      const beside: Statement[] = [...line.children]
      for (;;) {
        const next = lines[i + 1]
        if (!next || Object.hasOwn(kind.children, next.line.tokens[0]?.text ?? '')) break
        beside.push(next)
        i++
      }
      for (const row of beside) {
        const read = readRow(row, tell)
        if (read) rows.push(read)
      }
    }
    children.push({ ...child, word: first.text, rows } as SaidChild<Record<string, ChildForm>>)
  }
  return { ...own, head, at: spanOf(statement), children } as unknown as Said<Clauses>
}

interface LineForm {
  readonly word?: string
  readonly clauses: Clauses
  readonly ratings?: readonly QuantityName[] | undefined
  readonly bare?: true | undefined
}

function readLine(statement: Statement, form: LineForm, tell: Tell, named: boolean) {
  const at = cursor(statement.line)
  const word = at.next()
  let name = ''
  if (named) {
    const token = at.peek()
    if (token?.kind !== 'word' || !isName(token.text)) {
      tell(
        'no-name',
        token ?? at.span,
        token ? `“${token.text}” cannot be a name.` : `This ${word?.text ?? 'line'} has no name.`,
        'Write a name after the first word: letters, digits and `_`, beginning with a letter.',
      )
      return undefined
    }
    at.next()
    name = token.text
  }
  const label = at.takeString() ?? ''
  const tags: Tags[] = []
  const bare: Token[] = []
  const ratings: Rating[] = []
  const clauses: Record<string, { value: unknown; at: Span }> = {}
  for (let token = at.peek(); token; token = at.peek()) {
    const clause =
      token.kind === 'word' && Object.hasOwn(form.clauses, token.text) ? form.clauses[token.text] : undefined
    if (clause) {
      at.next()
      const value = clause.read(at, tell)
      if (Object.hasOwn(clauses, token.text)) {
        tell('clause-twice', token, `\`${token.text}\` stands twice in this line.`, 'Take one of the two out.')
      } else if (value !== undefined) clauses[token.text] = { value, at: { from: token.from, to: at.span.from } }
      continue
    }
    const pair = form.bare || token.kind !== 'word' ? undefined : splitTags(token.text)
    if (pair) {
      at.next()
      tags.push({ pair, at: { from: token.from, to: token.to } })
      continue
    }
    const quantity = form.ratings && at.takeQuantity()
    if (quantity && !isProblem(quantity)) {
      if (form.ratings?.includes(quantity.quantity)) ratings.push({ quantity, at: quantity })
      else {
        tell(
          'wrong-quantity',
          quantity,
          `${quantity.value} ${quantity.unit} has no meaning here.`,
          `This line takes ${form.ratings?.join(', ')}, and the clauses ${Object.keys(form.clauses).join(', ')}.`,
        )
      }
      continue
    }
    if (quantity) {
      tell(quantity.code, quantity, quantity.message, quantity.hint)
      continue
    }
    at.next()
    if (form.bare) bare.push(token)
    else tellUnknownWord(tell, token, Object.keys(form.clauses), 'This line does not take')
  }
  const head = { from: word?.from ?? statement.line.from, to: statement.line.tokens.at(-1)?.to ?? statement.line.to }
  return { name, label, tags, bare, ratings, clauses, head, at: head }
}

function readRow(statement: Statement, tell: Tell): Row | undefined {
  const at = cursor(statement.line)
  const first = at.next()
  const pair = first?.kind === 'word' ? splitTags(first.text) : undefined
  if (!first || !pair) {
    if (first)
      tell(
        'row-form',
        first,
        `“${first.text}” is no pair of tags.`,
        'Begin a row of the chart with its two tags: `A-B`.',
      )
    return undefined
  }
  const cells: Word[] = []
  let label = ''
  for (let token = at.peek(); token; token = at.peek()) {
    const text = at.takeString()
    if (text !== undefined) label = text
    else {
      at.next()
      cells.push({ text: token.text, at: { from: token.from, to: token.to } })
    }
  }
  const span = { from: first.from, to: statement.line.tokens.at(-1)?.to ?? first.to }
  return { tags: { pair, at: { from: first.from, to: first.to } }, cells, label, at: span }
}

// ---- meaning: what the kinds add, and the names that must be there ---------------------------------------------------

interface Gathered {
  readonly context: Context
  finish(): Circuit
}

interface ReadLine {
  readonly kind: Kind
  readonly said: Said<Clauses>
}

/** Things other than parts that share the parts' space of names, since conditions speak of all of them. */
const NAMED_LIKE_PARTS = new Set(['control', 'drive', 'airflow'])

/** The names that lines claim, by the word of the line, so that any line may speak of any other. */
type Claimed = ReadonlyMap<string, ReadonlySet<string>>

/** Leaves out lines whose name is taken or means something already, and tells. */
function claimNames(
  lines: readonly ReadLine[],
  tell: Tell,
): { readonly accepted: readonly ReadLine[]; readonly claimed: Claimed } {
  const owner = new Map<string, string>()
  const claimed = new Map<string, Set<string>>()
  const accepted = lines.filter(({ kind, said }) => {
    if (kind.named === 'no') return true
    const space = kind.named === 'part' || NAMED_LIKE_PARTS.has(kind.word) ? 'part' : kind.word
    const key = `${space} ${said.name}`
    const taken = owner.get(key)
    if (RESERVED.has(said.name)) {
      tell(
        'reserved-name',
        said.head,
        `“${said.name}” already means something in every circuit.`,
        'Choose another name.',
      )
      return false
    }
    if (taken !== undefined) {
      tell('name-taken', said.head, `Another ${taken} is called ${said.name}.`, 'Give one of the two another name.')
      return false
    }
    owner.set(key, kind.word)
    claimed.set(kind.word, (claimed.get(kind.word) ?? new Set()).add(said.name))
    return true
  })
  return { accepted, claimed }
}

function gather(claimed: Claimed, tell: Tell): Gathered {
  let unit: Unit = { title: '' }
  const supplies: Supply[] = []
  const controls = new Map<string, Control>()
  const areas = new Map<string, Area>()
  const zones = new Map<string, Zone>()
  const parts = new Map<string, Part>()
  const elements = new Map<ElementId, Element>()
  const wires = new Map<ElementId, Element>()
  const actors = new Map<string, Actor>()
  const terminals = new Set<TerminalId>()
  const atTheEnd: (() => void)[] = []

  const missing = (what: string, word: Word, known: Iterable<string>): undefined => {
    const candidates = [...known]
    const guess = nearest(word.text, candidates)
    tell(
      `unknown-${what.replaceAll(' ', '-')}`,
      word.at,
      `No ${what} is called “${word.text}”.`,
      guess
        ? `Did you mean ${guess}?`
        : candidates.length > 0
          ? `There are: ${candidates.slice(0, 12).join(', ')}.`
          : `Add a line for it.`,
    )
  }
  const statesOf = (name: string): readonly string[] | undefined =>
    controls.get(name)?.positions ?? actors.get(name)?.states
  const resting = () => Object.fromEntries([...controls.values()].map((c) => [c.name, c.normally]))

  const terminalOf = (word: Word): TerminalId | undefined => {
    const id = terminalId(word.text) ?? word.text
    if (terminals.has(id)) return id
    const [partName, tag] = id.split('.', 2)
    const part = partName === undefined ? undefined : parts.get(partName)
    if (tag === undefined) {
      if (part && part.terminals.length > 0) {
        return void tell(
          'terminal-needed',
          word.at,
          `${id} has several terminals.`,
          `Say which: ${part.terminals.slice(0, 12).join(', ')}.`,
        )
      }
      return missing('terminal', word, terminals)
    }
    if (!part) return missing('part', { ...word, text: partName ?? '' }, parts.keys())
    const guess = nearest(id, part.terminals)
    return void tell(
      'unknown-terminal',
      word.at,
      `${partName} has no terminal “${tag}”.`,
      guess ? `Did you mean ${guess}?` : `It has ${part.terminals.join(', ')}.`,
    )
  }

  const context: Context = {
    tell,
    unit: (it) => {
      unit = it
    },
    supply: (it) => {
      supplies.push(it)
    },
    hasSupply: () => supplies.length > 0,
    control: (it) => void controls.set(it.name, it),
    area: (it) => void areas.set(it.name, it),
    zone: (it) => void zones.set(it.name, it),
    actor: (it) => void actors.set(it.name, it),
    part: (it, own, more = []) => {
      const kept = own.filter((e) => {
        if (e.ends[0] === e.ends[1]) {
          tell('same-tags', e.at, `Both ends of ${e.id} are ${e.ends[0]}.`, 'Correct one of its tags.')
          return false
        }
        if (elements.has(e.id)) {
          tell(
            'element-twice',
            e.at,
            `${it.name} has ${e.name} twice.`,
            'Give each of its elements its own name or tags.',
          )
          return false
        }
        elements.set(e.id, e)
        return true
      })
      const ends = new Set([...kept.flatMap((e) => (e.role === 'source' ? [e.ends[1]] : e.ends)), ...more])
      // A tag on another part stays that part's terminal, and exists only if that part has it.
      for (const t of ends) if (t === it.name || t.startsWith(`${it.name}.`)) terminals.add(t)
      parts.set(it.name, { ...it, elements: kept.map((e) => e.id), terminals: [...ends] })
    },
    wire: (it) => {
      const [a, b] = it.ends
      if (wires.has(it.id) || wires.has(`${b}~${a}`)) {
        tell(
          'wired-twice',
          it.at,
          `${a} and ${b} are already joined by a wire.`,
          'Take one of the two out; it changes nothing.',
          'warning',
        )
      } else wires.set(it.id, it)
    },
    hasTerminal: (id) => terminals.has(id),
    test: (condition) => {
      atTheEnd.push(() => {
        for (const { of, states } of condition.clauses) {
          const known = statesOf(of.text)
          if (!known) missing('control', of, [...controls.keys(), ...actors.keys()])
          else {
            for (const s of states) {
              if (known.includes(s.text)) continue
              const guess = nearest(s.text, known)
              tell(
                'unknown-position',
                s.at,
                `${of.text} is never “${s.text}”.`,
                guess ? `Did you mean ${guess}?` : `It can be ${known.join(', ')}.`,
              )
            }
          }
        }
      })
      const test: Test = [condition.clauses.map((c) => ({ of: c.of.text, in: c.states.map((s) => s.text) }))]
      return test
    },
    holdsAtRest: (test) => holds(test, resting(), {}),
    tag: (name, tag, at) => {
      if (tag !== 'chassis' && !tag.includes('.') && !claimed.get('splice')?.has(tag)) return `${name}.${tag}`
      atTheEnd.push(() => terminalOf({ text: tag, at }))
      return tag
    },
    findControl: (word) => controls.get(word.text) ?? missing('control', word, controls.keys()),
    findName: (kindWord, word) => {
      const known = claimed.get(kindWord) ?? new Set()
      return known.has(word.text) ? word.text : missing(kindWord, word, known)
    },
    findArea: (word) => (word ? context.findName('area', word) : undefined),
    findActor: (word) => (actors.has(word.text) ? word.text : missing('part', word, actors.keys())),
    findWorking: (word) => {
      const part = parts.get(word.text)
      if (!part) return missing('part', word, parts.keys()) ?? []
      const loads = part.elements.flatMap((id) => {
        const { role, load } = elements.get(id) ?? {}
        return role === 'load' && load ? [[{ load: id, share: load.works }]] : []
      })
      const actor = actors.get(word.text)
      return loads.length > 0 || !actor ? loads : standsIn(actor.name, [actor.states[0]], true)
    },
    findTerminal: terminalOf,
    findThrough: (word) => {
      const part = parts.get(word.text)
      const [first, second, third] = part?.terminals ?? []
      if (!part || terminals.has(word.text)) {
        const one = terminalOf(word)
        return one === undefined ? undefined : [one, one]
      }
      if (first !== undefined && second !== undefined && third === undefined) return [first, second]
      return void tell(
        'terminal-needed',
        word.at,
        `${word.text} has ${part.terminals.length} terminals, so a run cannot tell where to pass.`,
        `Name the terminal: ${part.terminals.slice(0, 12).join(', ')}.`,
      )
    },
  }

  terminals.add('chassis')
  return {
    context,
    finish: () => {
      for (const check of atTheEnd) check()
      // An element mounted on a terminal that does not exist would hang in the air: the terminal is made, the problem told.
      for (const e of elements.values()) for (const t of e.ends) terminals.add(t)
      for (const pole of supplies.flatMap((s) => s.poles)) terminals.delete(pole.behind)
      return {
        unit,
        supplies,
        controls,
        areas,
        zones,
        parts,
        elements: new Map([...elements, ...wires]),
        actors,
        terminals,
      }
    },
  }
}
