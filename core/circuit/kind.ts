import type { Cursor, Quantity, QuantityName } from '../netlist/index.ts'
import type { Span, Token } from '../netlist/tree.ts'
import type { Actor, Area, Control, Element, Needs, Part, Supply, TerminalId, Test, Unit, Zone } from './model.ts'

/**
 * What a kind is: one file in parts/ that says which words its lines may hold and what they add to a circuit. The
 * reader, the printer, completion and help take everything from here; nothing else in the project switches over kinds.
 */
export interface Kind<C extends Clauses = Clauses, R extends Children = Children> {
  /** The first word of its line. */
  readonly word: string
  /** What a person calls it: `Thermostat`. */
  readonly title: string
  /** A line that shows its form, for hints and help; it is read by a test. */
  readonly example: string
  /** What its name is: a part's, another thing's, or none. Parts, controls, drives and airflows share one space of names. */
  readonly named: 'part' | 'thing' | 'no'
  readonly clauses: C
  readonly children: R
  /** Quantities that may stand in the line without a word of their own: `5400 W`. */
  readonly ratings?: readonly QuantityName[]
  /** What else stands in the line is for `read` to understand; no tags are looked for. */
  readonly bare?: true
  /**
   * Lines are read in three rounds, each in the order of the text: what others refer to by name (controls, areas), then
   * parts, then what joins them (wires, zones). So `read` may look up all that earlier rounds added.
   */
  readonly round: 1 | 2 | 3
  /** Make of the line what it says. */
  read(line: Said<C, R>, to: Context): void
}

/** One clause: what follows its word. `undefined` when it could not be read (a problem has been told). */
export interface ClauseForm<T = unknown> {
  /** What stands after the word, for hints: `68 C`, `a zone`. */
  readonly form: string
  read(cursor: Cursor, tell: Tell): T | undefined
}
export type Clauses = Readonly<Record<string, ClauseForm>>
export type Children = Readonly<Record<string, ChildForm>>

/** The form of an indented line. A `rows` child takes every line under it that begins with a tag pair: a chart. */
export interface ChildForm<C extends Clauses = Clauses> {
  readonly named: boolean
  readonly clauses: C
  readonly ratings?: readonly QuantityName[]
  /** What else stands in the line is for the kind to understand; every following line that begins with tags is a row. */
  readonly rows?: true
}

export type Tell = (code: string, at: Span, message: string, hint: string, severity?: 'error' | 'warning') => void

type Values<C extends Clauses> = {
  readonly [W in keyof C]?: { readonly value: C[W] extends ClauseForm<infer T> ? T : never; readonly at: Span }
}

/** Two tags as typed: `C-NO`, `HL.2-2`. */
export interface Tags {
  readonly pair: readonly [string, string]
  readonly at: Span
}
export interface Word {
  readonly text: string
  readonly at: Span
}
export interface Rating {
  readonly quantity: Quantity
  readonly at: Span
}

/** A line as the reader understood its form. */
export interface Said<C extends Clauses = Clauses, R extends Children = Children> {
  readonly name: string
  readonly label: string
  readonly tags: readonly Tags[]
  readonly bare: readonly Token[]
  readonly ratings: readonly Rating[]
  readonly clauses: Values<C>
  readonly children: readonly SaidChild<R>[]
  /** The line itself. */
  readonly head: Span
  /** The line with all that belongs to it. */
  readonly at: Span
}

export type SaidChild<R extends Children> = {
  readonly [W in keyof R & string]: R[W] extends ChildForm<infer C>
    ? Omit<Said<C, Record<never, never>>, 'children'> & { readonly word: W; readonly rows: readonly Row[] }
    : never
}[keyof R & string]

/** A row of a table: tags, then cells, then perhaps a label. */
export interface Row {
  readonly tags: Tags
  readonly cells: readonly Word[]
  readonly label: string
  readonly at: Span
}

/** What a kind's `read` works with: the circuit so far, and how to add to it. */
export interface Context {
  readonly tell: Tell
  unit(unit: Unit): void
  supply(supply: Supply): void
  /** Whether a line before this one was a supply. */
  hasSupply(): boolean
  control(control: Control): void
  area(area: Area): void
  zone(zone: Zone): void
  actor(actor: Actor): void
  /** A part with its elements; its terminals are the ends of its elements and `more`. */
  part(part: Omit<Part, 'elements' | 'terminals'>, elements: readonly Element[], more?: readonly TerminalId[]): void
  wire(wire: Element): void

  hasTerminal(id: TerminalId): boolean
  /** The condition as a test; names and states are checked once every line has been read. */
  test(condition: Condition): Test
  /** Whether a condition on controls alone holds where they normally stand. */
  holdsAtRest(test: Test): boolean
  /** The terminal a tag of part `name` means; of another part, a splice or `chassis` too, checked at the end. */
  tag(name: string, tag: string, at: Span): TerminalId
  /** Each of these tells a problem and gives `undefined` when there is no such thing. */
  findControl(word: Word): Control | undefined
  findName(kindWord: string, word: Word): string | undefined
  findArea(word: Word | undefined): string | undefined
  /** A motor, a relay: what moves between states. */
  findActor(word: Word): string | undefined
  /** When a part works: any of its loads does; of one without loads, when its actor is away from rest. */
  findWorking(word: Word): Needs
  findTerminal(word: Word): TerminalId | undefined
  /** In and out of a part that a run passes through; both the same for a terminal. */
  findThrough(word: Word): readonly [TerminalId, TerminalId] | undefined
}

/** A condition as typed. */
export interface Condition {
  readonly clauses: readonly { readonly of: Word; readonly states: readonly Word[] }[]
  readonly at: Span
}

/** Keeps the clause words' types for `read` while the catalogue holds kinds of all sorts. */
export function kind<const C extends Clauses, const R extends Children>(it: Kind<C, R>): Kind {
  return it as unknown as Kind
}
export const child = <const C extends Clauses>(it: ChildForm<C>): ChildForm<C> => it
