import { parse, spanOf, statements } from '../netlist/index.ts'
import type { Problem } from '../netlist/tree.ts'
import { catalogue } from './catalogue.ts'
import { type Claimed, gather } from './gather.ts'
import type { Kind, Line, Tell, Teller } from './kind.ts'
import { problem } from './messages.ts'
import type { Circuit } from './model.ts'

export interface Reading {
  /** All that was understood; lines that were not add nothing. */
  readonly circuit: Circuit
  /** Of form and of meaning, in the order of the text. */
  readonly problems: readonly Problem[]
}

/**
 * The circuit that a netlist describes, with every problem. Never throws on any text. `kinds` are the kinds of line it
 * knows: the catalogue unless told otherwise.
 *
 * First the form of each line is read, then names are given out, then each line adds what it means.
 */
export function readCircuit(text: string, kinds: readonly Kind[] = catalogue): Reading {
  const { netlist, problems: ofForm } = parse(text)
  const problems: Problem[] = []
  const teller: Teller = {
    tell: (code, at, ...words) => void problems.push(problem(code, at, ...words)),
    pass: (one) => void problems.push(one),
    count: () => problems.length,
  }
  const byWord = new Map(kinds.map((k) => [k.word, k]))
  const lines: ReadLine[] = []
  const lost = new Set<string>()
  let passed = 0
  for (const statement of statements(netlist)) {
    const [first, second] = statement.line.tokens
    if (!first) continue
    const kind = byWord.get(first.text)
    if (!kind) {
      teller.tell('unknown-kind', first, first.text, [...byWord.keys()])
      if (second) lost.add(second.text)
      continue
    }
    // Problems of form within the line are told before it is said, so that it knows of them.
    const counted = passed
    const { to } = spanOf(statement)
    for (let one = ofForm[passed]; one && one.from <= to; one = ofForm[passed]) {
      problems.push(one)
      passed++
    }
    const line = kind.say(statement, teller, passed > counted)
    if (line) lines.push({ kind, line })
    if (!kind.holds) continue
    const parts = kinds.filter((k) => k.round === 2 && k.named === 'shared' && !k.holds)
    for (const child of statement.children) {
      const [word] = child.line.tokens
      const inner = parts.find((k) => k.word === word?.text)
      if (word && !inner)
        teller.tell(
          'unknown-line',
          word,
          word.text,
          kind.word,
          parts.map((k) => k.word),
        )
      const said = inner?.say(child, teller, passed > counted)
      if (inner && said) lines.push({ kind: inner, line: said, ...(line && { within: line.name }) })
    }
  }
  problems.push(...ofForm.slice(passed))

  const { accepted, claimed } = claimNames(lines, teller.tell)
  const circuit = gather(claimed, lost, teller.tell)
  for (const round of [1, 2, 3]) {
    for (const { kind, line, within } of accepted) if (kind.round === round) circuit.add(line, within)
  }
  const read = circuit.finish()
  return { circuit: read, problems: problems.toSorted((a, b) => a.from - b.from || a.to - b.to) }
}

interface ReadLine {
  readonly kind: Kind
  readonly line: Line
  /** The name of the line it is a part of. */
  readonly within?: string
}

/** Names that stand for something already; those of every record (`constructor`) would be mistaken for positions. */
const isReserved = (name: string): boolean =>
  name === 'supply' || name === 'chassis' || name === 'breaker' || name in Object.prototype

/** Leaves out lines whose name is taken or means something already, and second ones of a kind there is one of; tells. */
function claimNames(
  lines: readonly ReadLine[],
  tell: Tell,
): { readonly accepted: readonly ReadLine[]; readonly claimed: Claimed } {
  const owner = new Map<string, string>()
  const claimed = new Map<string, Set<string>>()
  const met = new Set<Kind>()
  const accepted = lines.filter(({ kind, line: { name, nameAt } }) => {
    if (kind.once && met.has(kind)) {
      tell('second-line', nameAt, kind.word)
      return false
    }
    met.add(kind)
    if (kind.named === 'no') return true
    const key = `${kind.named === 'shared' ? '' : kind.word} ${name}`
    const taken = owner.get(key)
    if (isReserved(name) && !(kind.namedBefore && name === kind.word)) tell('reserved-name', nameAt, name)
    else if (taken !== undefined) tell('name-taken', nameAt, name, taken)
    else {
      owner.set(key, kind.word)
      claimed.set(kind.word, (claimed.get(kind.word) ?? new Set()).add(name))
      return true
    }
    return false
  })
  return { accepted, claimed }
}
