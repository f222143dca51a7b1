import type { Span } from '../netlist/tree.ts'

/**
 * The circuit: terminals joined by elements.
 *
 * One idea carries the model. An **element** is what current must get through between two terminals; it is a list of
 * laws, each with the condition under which it holds. The condition speaks of controls (what a person sets) and of
 * **actors** (what physics sets: a motor at speed, a thermostat hot, a fuse blown). A door switch, a chart cell, a
 * thermostat, a fuse link and a motor's speed contact differ in nothing else.
 */

/** `PART.TAG`, `supply.L1`, `chassis`, or the name of a splice. */
export type TerminalId = string
/** `PART:NAME`, and `A~B` for a wire. */
export type ElementId = string

/** The control or actor `of` stands in one of the states `in`; with `not`, in none of them. */
export interface Clause {
  readonly of: string
  readonly in: readonly string[]
  readonly not?: true
}
/** Any of the alternatives, each of which is all of its clauses. `[[]]` always holds, `[]` never. */
export type Test = readonly (readonly Clause[])[]

/** What an element is electrically while one of its laws holds. */
export type Law =
  /** A metal path: closed contact, fuse link, wire. Ohms. */
  | { readonly kind: 'path'; readonly ohms: number }
  /** Working impedance at line frequency and resistance to direct current, in ohms. */
  | { readonly kind: 'impedance'; readonly re: number; readonly im: number; readonly dc: number }
  /** Open to direct current. */
  | { readonly kind: 'capacitance'; readonly farads: number }

export interface LawWhen {
  readonly when: Test
  readonly law: Law
}

/** What an element is for; decides where its name is listed, never how it is solved. */
export type Role = 'contact' | 'link' | 'load' | 'passive' | 'wire' | 'source'

/** When a load works. */
export interface Load {
  /** Rated volts across it. */
  readonly volts: number
  /** The share of its rated current from which it counts as on (0…1). */
  readonly works: number
  /** Below this share it is on but weak (0…1). */
  readonly weak: number
  /** A coil: the share that is enough once what it drives has moved (0…1). */
  readonly holds?: number
  /** The control that it turns on while it works. */
  readonly advances?: string
}

export interface Element {
  readonly id: ElementId
  /** Name of its part; `''` for a wire. */
  readonly part: string
  /** `A-C`, `link`, `main`, `1-2`; for a wire `A~B`. */
  readonly name: string
  readonly role: Role
  readonly ends: readonly [TerminalId, TerminalId]
  /** The first whose condition holds applies; when none does the element is open. */
  readonly laws: readonly LawWhen[]
  readonly load?: Load
  /** A secondary: a source of `ratio` times the volts across `primary`, behind its own law, good for so many amps. */
  readonly coupled?: { readonly primary: ElementId; readonly ratio: number; readonly amps: number }
  readonly figure: Figure
  /** A few words under the name in a drawing: `5400 W`, `heat`, `opens 68 °C`. */
  readonly note: string
  /** Its condition is a row of a contact chart. */
  readonly charted?: true
  /** The other throw of a changeover: the same blade, hinged at `ends[0]` of both. */
  readonly throwOf?: ElementId
  /** A pin of a plug: a run that names one half goes on at the other. */
  readonly passes?: true
  readonly wire?: Wire
  /** Its words in the netlist. */
  readonly at: Span
}

export interface Wire {
  /** The sheet's letters as typed, with a stripe as `WH/RD`; absent where the sheet gives none. */
  readonly colour?: string
  /** IEC 60757 letters that the sheet's own letters stand for, where they are others. */
  readonly iec?: string
  readonly gauge?: string
  readonly length?: string
}

/** Leads run from ±32 to ±`half`; the strokes stand on a line through (0, 0), 8 px grid, no higher than 20 either way. */
export interface Body {
  readonly half: number
  readonly strokes: readonly Stroke[]
}

/**
 * What a person sees for an element. Bodies are data, so a kind brings its own: after IEC 60617, and where IEEE 315 has
 * another shape, that too.
 */
export type Figure =
  | { readonly kind: 'contact'; readonly rest: 'open' | 'closed'; readonly by: Driver }
  | ({ readonly kind: 'body'; readonly ieee?: Body } & Body)
  | { readonly kind: 'wire' }
  | { readonly kind: 'source' }

/** What rides on a contact's blade. */
export type Driver =
  | 'hand'
  | 'dial'
  | 'door'
  | 'push'
  | 'speed'
  | 'heat'
  | 'heat-once'
  | 'heat-reset'
  | 'pressure'
  | 'float'
  | 'flow'
  | 'relay'

export interface Stroke {
  /** SVG path data. */
  readonly d: string
  /** `line` 2 px, `thin` 1.5 px, `paper` 2 px filled with the sheet, `fill` solid ink, `blade` 3 px. */
  readonly style: 'line' | 'thin' | 'paper' | 'fill' | 'blade'
  /** A letter: stands upright, whichever way the symbol is turned. */
  readonly letter?: true
}

/** A temperature in the unit it was typed in. */
export interface Temperature {
  readonly value: number
  readonly unit: 'C' | 'F'
}

/** A thing that physics moves between named states; the first is its rest. */
export interface Actor {
  readonly name: string
  /** Its part; `''` for a drive or an airflow. */
  readonly part: string
  readonly states: readonly [string, string, ...string[]]
  readonly sense: Sense
}

/** One thing that must be so for an actor to move. */
export type Need =
  /** A load or winding carries at least this share of its rated current (0…1). */
  | { readonly load: ElementId; readonly share: number }
  /** A control or another actor stands so. */
  | { readonly is: Clause }
/** Any of the alternatives, each of which is all of its needs. `[[]]` always, `[]` never. */
export type Needs = readonly (readonly Need[])[]

/** Where heat moves a thermal device, while `when` holds. */
export interface HeatPoint {
  readonly when: Needs
  /** Leaves rest when its zone reaches this. */
  readonly up: Temperature
  /** Comes back here; absent: stays for good. */
  readonly down?: Temperature
}

/** One step of a timed sequence: an actor's state, and where it goes from there. The first way that is open is taken. */
export interface SequenceWay {
  readonly to: string
  readonly when: Needs
  /** Seconds that `when` must have held in this step; 0: at once. */
  readonly after: number
  /** What the step is there to wait for: with no way open, the sequence is stuck in it. */
  readonly awaited?: true
}

/** What moves an actor. */
export type Sense =
  /** Leaves rest once `to` has held for `toSeconds`; comes back once `stay` has not held for `backSeconds`. */
  | {
      readonly by: 'needs'
      readonly to: Needs
      readonly stay: Needs
      readonly toSeconds?: number
      readonly backSeconds?: number
      /** A motor: fed but standing it hums, and its windings are not on. */
      readonly hums?: true
    }
  /** Moves with its zone's temperature; the first point whose condition holds applies. */
  | { readonly by: 'heat'; readonly zone: string; readonly points: readonly HeatPoint[] }
  /** Leaves rest for good when the settled current of any of the elements exceeds 1.35 × `amps`. */
  | { readonly by: 'current'; readonly elements: readonly ElementId[]; readonly amps: number }
  /** Steps through its states by time and need; keyed by state. */
  | { readonly by: 'sequence'; readonly ways: Readonly<Record<string, readonly SequenceWay[]>> }
  /** Stays at rest: what would move it is not known. */
  | { readonly by: 'nothing' }

export interface Control {
  readonly name: string
  readonly label: string
  /** In the order they turn. */
  readonly positions: readonly string[]
  /** Where it stands unless set. */
  readonly normally: string
  readonly springsBack: boolean
  /** Positions that nobody can leave it in, each with the one it springs to when let go. */
  readonly momentary?: Readonly<Record<string, string>>
  /** Where its positions are degrees of a turn: how many a bar of the sheet's strip is, and how long a motor takes for it. */
  readonly bar?: { readonly degrees: number; readonly seconds: number }
  readonly at: Span
}

/** A place that several thermal devices sense. */
export interface Zone {
  readonly name: string
  /** What warms it: loads at work, and actors away from rest (a flame). */
  readonly warmsWith: Needs
  readonly airflow?: string
  /** Where it settles if heat stays on; absent: no limit. */
  readonly normal?: Temperature
  readonly blocked?: Temperature
  /** Inside a part: its temperature is nobody's to read, and the story names the part instead. */
  readonly inside?: true
}

/** Every pole of every supply. */
export const polesOf = (circuit: Circuit): readonly Pole[] => circuit.supplies.flatMap((s) => s.poles)

/** A place in the unit that must be opened to reach parts. */
export interface Area {
  readonly name: string
  readonly label: string
  readonly minutes: number
  readonly after?: string
  readonly refit?: number
  readonly tool?: string
}

export interface Part {
  readonly name: string
  /** Word of its kind: `thermostat`. */
  readonly kind: string
  readonly label: string
  readonly area?: string
  readonly terminals: readonly TerminalId[]
  readonly elements: readonly ElementId[]
  /** All of its lines in the netlist. */
  readonly at: Span
}

/** A pole of a supply: its terminal, and the ideal source behind it, as a complex voltage about neutral. */
export interface Pole {
  readonly terminal: TerminalId
  /** The node behind the source's impedance; no wire and no probe reaches it. */
  readonly behind: TerminalId
  readonly re: number
  readonly im: number
  /** `L1`, `L2`, `N`, `G`. */
  readonly name: string
}

export interface Supply {
  /** `supply`, or the name of a further one. */
  readonly name: string
  /** Words for a heading: `240 V split-phase`. */
  readonly title: string
  readonly hertz: number
  /** Rated amps of the breaker; absent where not named. */
  readonly breaker?: number
  /** In the order L1, L2, N, G. */
  readonly poles: readonly Pole[]
}

export interface Unit {
  readonly title: string
  readonly model?: string
  readonly sheet?: string
}

/** What the user entered. Maps keep the order of the text. */
export interface Circuit {
  readonly unit: Unit
  /** In the order of the text; empty where none is typed yet. */
  readonly supplies: readonly Supply[]
  readonly controls: ReadonlyMap<string, Control>
  readonly areas: ReadonlyMap<string, Area>
  readonly zones: ReadonlyMap<string, Zone>
  readonly parts: ReadonlyMap<string, Part>
  readonly elements: ReadonlyMap<ElementId, Element>
  readonly actors: ReadonlyMap<string, Actor>
  /** Lines of this unit's own failure rates, word by word as typed. */
  readonly priors?: readonly (readonly string[])[]
  /** Every terminal, splices and `chassis` included. */
  readonly terminals: ReadonlySet<TerminalId>
}

/** One position for every control. */
export type Setting = Readonly<Record<string, string>>
/** One state for every actor. */
export type Conditions = Readonly<Record<string, string>>
