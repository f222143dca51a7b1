import type { Quantity, QuantityName } from '../netlist/index.ts'
import type { Problem, Span, Statement, Token } from '../netlist/tree.ts'
import type { ClauseForm } from './forms.ts'
import { sayStatement } from './line.ts'
import type { Code, WordsOf } from './messages.ts'
import type {
  Actor,
  Area,
  Control,
  Element,
  HeatPoint,
  Needs,
  Part,
  Supply,
  TerminalId,
  Test,
  Unit,
  Zone,
} from './model.ts'

/**
 * What a kind is: one file in parts/ that says which words its lines may hold and what they add to a circuit. The
 * reader, completion and help take everything from here; nothing else in the project switches over kinds.
 */
export interface KindForm<C extends Clauses, R extends Children> extends LineForm<C> {
  /** The first word of its line. */
  readonly word: string
  /** What a person calls it: `Thermostat`. */
  readonly title: string
  /** Lines that show its form, for help. Those of the whole catalogue are one circuit, which a test reads. */
  readonly example: string
  /**
   * `shared`: its name must differ from those of all parts, controls, drives and airflows, since conditions speak of all
   * of them. `own`: only from those of its kind. `no`: its line has no name.
   */
  readonly named: 'shared' | 'own' | 'no'
  /** It has a name only if one of these words stands behind it; else it is called by its first word. */
  readonly namedBefore?: readonly string[]
  /** A circuit has one such line. */
  readonly once?: true
  readonly children: R
  /** Lines indented under it are parts, each of its own kind; what they bring belongs to this one. */
  readonly holds?: true
  /**
   * Lines are read in three rounds, each in the order of the text: what others refer to by name (controls, areas), then
   * parts, then what joins them (wires, zones). So `read` may look up all that earlier rounds added.
   */
  readonly round: 1 | 2 | 3
  /** Make of the line what it says. */
  read(line: Said<C, R>, to: Context): void
}

/** A kind as the reader uses it, whatever its clauses are. */
export interface Kind extends Omit<KindForm<Clauses, Children>, 'read'> {
  /**
   * Reads the form of a line of this kind; `spoilt`: the parser found something wrong in it. `undefined` when not even
   * its name can be told.
   */
  say(statement: Statement, teller: Teller, spoilt: boolean): Line | undefined
}

/** A line of which the form has been read. */
export interface Line {
  /** `''` where its kind has no name. */
  readonly name: string
  readonly nameAt: Span
  /** Adds what the line means. */
  add(to: Context): void
}

/** Makes a kind of what its file says: its clauses' types stay between its form and its `read`. */
export function kind<const C extends Clauses, const R extends Children>(form: KindForm<C, R>): Kind {
  const { read, ...rest } = form
  return {
    ...rest,
    say(statement, teller, spoilt) {
      const said = sayStatement(statement, form, teller, spoilt)
      return said && { name: said.name, nameAt: said.nameAt, add: (to) => read(said, to) }
    },
  }
}

export type Clauses = Readonly<Record<string, ClauseForm>>
export type Children = Readonly<Record<string, ChildForm>>

/** Which words a line may hold. */
export interface LineForm<C extends Clauses = Clauses> {
  readonly clauses: C
  /** It may hold tags: `C-NO`. */
  readonly tags?: true
  /** Quantities that may stand in the line without a word of their own: `5400 W`. */
  readonly ratings?: readonly QuantityName[]
  /** What else stands in the line is for `read` to understand. */
  readonly bare?: true
}

/** The form of an indented line. */
export interface ChildForm<C extends Clauses = Clauses> extends LineForm<C> {
  readonly named: boolean
  /** It is the head of a table: every following line up to another child is a row, and begins with tags. */
  readonly rows?: true
  /** Lines indented under it are read like those beside it, which follow it. */
  readonly leads?: true
}

/** Tells a problem of meaning. */
export type Tell = <C extends Code>(code: C, at: Span, ...words: WordsOf[C]) => void

/** Where problems go while the form of lines is read. */
export interface Teller {
  readonly tell: Tell
  /** Passes a problem of form on. */
  pass(problem: Problem): void
  /** How many there are so far. */
  count(): number
}

export type Values<C extends Clauses> = {
  readonly [W in keyof C]?: C[W] extends ClauseForm<infer T> ? T : never
}

/** Two tags, each as `terminalId` gives it, without quotes: `C-NO`, `HL.2-2`. */
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

/** A line as its form was understood. */
export interface SaidLine<C extends Clauses = Clauses> {
  /** Its first word. */
  readonly word: string
  readonly name: string
  readonly nameAt: Span
  readonly label: string
  readonly tags: readonly Tags[]
  readonly bare: readonly Token[]
  readonly ratings: readonly Rating[]
  /** Absent: not in the line, or not understood. */
  readonly clauses: Values<C>
  /** Something in it was not understood, of which has been told: what seems to be absent may only be misspelt. */
  readonly told: boolean
  /** The line itself. */
  readonly head: Span
}

/** A line with those that belong to it. */
export interface Said<C extends Clauses = Clauses, R extends Children = Children> extends SaidLine<C> {
  readonly children: readonly SaidChild<R>[]
  /** The line with all that belongs to it. */
  readonly at: Span
}

/** An indented line; its `word` says of which form. */
export type SaidChild<R extends Children> = {
  readonly [W in keyof R & string]: R[W] extends ChildForm<infer C>
    ? SaidLine<C> & { readonly word: W; readonly rows: readonly Row[] }
    : never
}[keyof R & string]

/** A row of a table: tags, or both of a changeover (`C to NO else NC`), then cells, then perhaps a label. */
export interface Row {
  readonly tags: Tags
  readonly other?: Tags
  readonly cells: readonly Word[]
  readonly label: string
  readonly at: Span
}

/** A condition as typed. */
export interface Condition {
  readonly clauses: readonly { readonly of: Word; readonly states: readonly Word[] }[]
}

/** What a kind's `read` works with: the circuit so far, and how to add to it. */
export interface Context {
  readonly tell: Tell
  unit(unit: Unit): void
  supply(supply: Supply): void
  control(control: Control): void
  /** `after` is where the line says which area comes first. */
  area(area: Area, after?: Span): void
  zone(zone: Zone): void
  actor(actor: Actor): void
  /**
   * A part with its elements; its terminals are the ends of its elements and `more`. Returns the elements that the
   * circuit has now: one with both ends at a terminal, or with the name of another, is told and left out.
   */
  part(
    part: Omit<Part, 'elements' | 'terminals'>,
    elements: readonly Element[],
    more?: readonly TerminalId[],
  ): readonly Element[]
  wire(wire: Element): void
  /** What the sheet's letters mean: letters of IEC 60757, or words. */
  colours(letters: ReadonlyMap<string, string>): void
  /** What the letters of a wire stand for on this sheet, if a line says so. */
  colourOf(letters: string): string | undefined
  priors(words: readonly string[]): void

  /** The condition as a test; names and states are checked once every line has been read. */
  test(condition: Condition): Test
  /** That a thing is away from rest, or a control from where it normally stands; checked once every line has been read. */
  away(word: Word): Test
  /** Does something once every line has been read: what speaks of things that later lines bring. */
  later(run: () => void): void
  /** Changes the points at which heat moves the actor `of`, once every line has been read. */
  changeHeat(of: Word, change: (points: readonly HeatPoint[]) => readonly HeatPoint[]): void
  /** The terminal a tag of part `name` means: of another part, a splice or `chassis` too, which is checked at the end. */
  tag(name: string, tag: string, at: Span): TerminalId
  /** The line of this name adds nothing, and why has been told: nothing more need be said where others speak of it. */
  lost(name: string): void
  /** Whether a part or a terminal is called so. */
  isPlace(text: string): boolean
  /** Each of these tells a problem and gives `undefined` when there is no such thing. */
  findControl(word: Word): Control | undefined
  /** A name of an area, a zone or an airflow, of which the line may come later. */
  findName(kind: 'area' | 'zone' | 'airflow', word: Word): string | undefined
  /** Whether a condition can speak of it; nothing is told. */
  isMover(name: string): boolean
  /** What a condition can speak of: a control, or what physics moves. */
  findMover(word: Word): Control | Actor | undefined
  /** What turns: the name of a motor. */
  findMotor(word: Word): string | undefined
  /** When a part works: any of its loads does; without loads, when its actor is away from rest. Neither is told too. */
  findWorking(word: Word): Needs
  findTerminal(word: Word): TerminalId | undefined
  /** In and out of a part that a run passes through; both the same for a terminal. */
  findThrough(word: Word): readonly [TerminalId, TerminalId] | undefined
}
