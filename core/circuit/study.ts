import { type Netlist, parse, type Span, type Statement, statements } from '../netlist/index.ts'
import { catalogue } from './catalogue.ts'
import type { Context, Kind, Word } from './kind.ts'
import type { Element } from './model.ts'
import { type Reading, readCircuit } from './reader.ts'

/** What names live together: parts, controls, drives and airflows share one set, areas and zones have their own. */
export type Names = 'shared' | 'area' | 'zone'

/** Words of a text that speak of something by its name. */
export type Reference =
  | { readonly kind: 'name'; readonly names: Names; readonly name: string; readonly at: Span }
  /** `PART.TAG`, a splice, or what a run passes through. */
  | { readonly kind: 'place'; readonly word: string; readonly at: Span }
  /** A tag of part `part`, among the words at `at`. */
  | { readonly kind: 'tag'; readonly part: string; readonly tag: string; readonly at: Span }
  | { readonly kind: 'state'; readonly of: string; readonly state: string; readonly at: Span }

/** A line at the left edge, as its kind read it. */
export interface ReadStatement {
  readonly statement: Statement
  readonly kind: Kind
  readonly name: string
  readonly nameAt: Span
  /** All that it speaks of, its own name left out. */
  readonly references: Reference[]
  /** Wires that it made, in order; the place of each is that of its second end. */
  readonly wires: Element[]
}

/** A text, read so that one knows which words speak of what. */
export interface Study {
  readonly text: string
  readonly netlist: Netlist
  readonly reading: Reading
  readonly lines: readonly ReadStatement[]
}

/**
 * Reads a text and writes down which words its lines look up. Every kind looks names up through its context alone, so
 * that a new kind needs nothing here.
 */
export function study(text: string): Study {
  const { netlist } = parse(text)
  const byFirst = new Map(statements(netlist).map((s) => [s.line.tokens[0]?.from ?? -1, s]))
  const lines: ReadStatement[] = []
  const watching = catalogue.map(
    (kind): Kind => ({
      ...kind,
      say(statement, teller, spoilt) {
        const line = kind.say(statement, teller, spoilt)
        if (!line) return undefined
        const outer = byFirst.get(statement.line.tokens[0]?.from ?? -1)
        const read: ReadStatement = {
          statement,
          kind,
          name: line.name,
          nameAt: line.nameAt,
          references: [],
          wires: [],
        }
        // A line within an assembly is read with it.
        if (outer) lines.push(read)
        return { ...line, add: (to) => line.add(watched(to, outer ? read : (enclosing(lines, read) ?? read))) }
      },
    }),
  )
  const reading = readCircuit(text, watching)
  return { text, netlist, reading, lines }
}

const enclosing = (lines: readonly ReadStatement[], { statement }: ReadStatement): ReadStatement | undefined =>
  lines.findLast(({ statement: outer }) => outer.children.includes(statement))

function watched(to: Context, { references, wires }: ReadStatement): Context {
  const named = (names: Names, { text, at }: Word): void =>
    void references.push({ kind: 'name', names, name: text, at: { from: at.from, to: at.to } })
  const placed = ({ text, at }: Word): void =>
    void references.push({ kind: 'place', word: text, at: { from: at.from, to: at.to } })
  return {
    ...to,
    wire(wire) {
      wires.push(wire)
      to.wire(wire)
    },
    test(condition) {
      for (const { of, states } of condition.clauses) {
        named('shared', of)
        for (const { text, at } of states) references.push({ kind: 'state', of: of.text, state: text, at })
      }
      return to.test(condition)
    },
    tag(name, tag, at) {
      references.push({ kind: 'tag', part: name, tag, at })
      return to.tag(name, tag, at)
    },
    away(word) {
      named('shared', word)
      return to.away(word)
    },
    changeHeat(of, change) {
      named('shared', of)
      to.changeHeat(of, change)
    },
    findControl(word) {
      named('shared', word)
      return to.findControl(word)
    },
    findName(kind, word) {
      named(kind === 'airflow' ? 'shared' : kind, word)
      return to.findName(kind, word)
    },
    findMover(word) {
      named('shared', word)
      return to.findMover(word)
    },
    findMotor(word) {
      named('shared', word)
      return to.findMotor(word)
    },
    findWorking(word) {
      named('shared', word)
      return to.findWorking(word)
    },
    findTerminal(word) {
      placed(word)
      return to.findTerminal(word)
    },
    findThrough(word) {
      placed(word)
      return to.findThrough(word)
    },
  }
}
