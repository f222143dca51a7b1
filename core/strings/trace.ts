import type { Conditions, ElementId, Setting } from '../circuit/model.ts'

/** What one load needs in a setting: the answer of the tool. Fields are those of the command line's `trace`. */
export interface LoadTrace {
  readonly load: ElementId
  readonly on: boolean
  readonly weak: boolean
  /** Volts across it and amperes through it in the first phase it is on, else in the first phase. */
  readonly volts: number
  readonly amps: number
  /** Contacts and links whose opening alone stops it, in the order current meets them. */
  readonly mustBeClosed: readonly ElementId[]
  /** Elements of other loads, resistors, capacitors in the way. */
  readonly through: readonly ElementId[]
  readonly wires: readonly ElementId[]
  /** Open elements whose closing alone would stop it. */
  readonly mustBeOpen: readonly ElementId[]
  /** Open elements whose closing would be a short. */
  readonly shorts: readonly ElementId[]
  /** Needed to start it, not to keep it. */
  readonly toStart: readonly ElementId[]
  /** Smallest groups of two to four of which one must be closed. */
  readonly anyOf: readonly (readonly ElementId[])[]
  /** Whether `anyOf` is all there is. */
  readonly complete: boolean
  /** Places from the first pole to the return; parallel stretches share a place. Without wires. */
  readonly order: readonly (readonly ElementId[])[]
  /** The same with wires: what the string view draws. */
  readonly path: readonly (readonly ElementId[])[]
  /** Names of the poles at both ends of `path`: `L1`, `L2`. */
  readonly poles: readonly [string, string] | readonly []
  readonly heldOpen: readonly { readonly element: ElementId; readonly reason: string }[]
  readonly enablers: readonly ElementId[]
  readonly mustRest: readonly ElementId[]
  readonly holdsItself: boolean
  readonly falsePaths: readonly { readonly through: ElementId; readonly volts: number }[]
}

/** How a wire or an element stands in one settled state. */
export type Feed =
  /** Carries current. */
  | 'live'
  /** Joined to a leg, carries nothing. */
  | 'fed'
  | 'dead'
  /** Joined to neutral or ground only. */
  | 'grounded'

/** One frozen state, as a drawing shows it. */
export interface Frame {
  readonly setting: Setting
  readonly conditions: Conditions
  /** Elements that conduct. */
  readonly conducts: ReadonlySet<ElementId>
  readonly feed: ReadonlyMap<ElementId, Feed>
  /** Why an open element is open, by element: `chart: o at cool-down`, `start released`, `M at rest`. */
  readonly why: ReadonlyMap<ElementId, string>
  readonly on: ReadonlySet<ElementId>
}

export interface StoryStep {
  /** From 1. */
  readonly step: number
  /** `M at speed`. */
  readonly text: string
  readonly frame: Frame
}

/** One setting, worked out. */
export interface Trace {
  readonly setting: Setting
  /** Those of the first phase. */
  readonly conditions: Conditions
  readonly story: readonly StoryStep[]
  readonly loads: readonly LoadTrace[]
}
