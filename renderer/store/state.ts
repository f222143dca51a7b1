import type { Circuit, ElementId, Setting } from '../../core/circuit/index.ts'
import type { Plan } from '../../core/drawing/plan.ts'
import type { SymbolSet } from '../../core/drawing/symbols.ts'
import type { Problem } from '../../core/netlist/index.ts'
import type { Entry } from '../../core/requests/index.ts'
import type { Trace } from '../../core/strings/trace.ts'
import type { Draft } from './memory.ts'

/** Where the text on the bench came from, and so where it is saved. */
export type Source =
  | { readonly kind: 'shelf'; readonly id: string; readonly revision: string }
  | { readonly kind: 'demo'; readonly id: string }
  | { readonly kind: 'file'; readonly name: string }
  | { readonly kind: 'new' }

/** A text as the reader's worker understood it. */
export interface Read {
  readonly text: string
  readonly circuit: Circuit
  readonly problems: readonly Problem[]
  /** Equal for two texts that describe the same circuit, whatever their spacing, comments and order of words. */
  readonly print: string
}

/** What the editor is told to hold: a fresh text without a past, or a change that undo takes back. */
export interface Handed {
  readonly serial: number
  readonly text: string
  readonly undoable: boolean
}

/** Something that went wrong or was done, in a sentence a person can act on. */
export interface Note {
  readonly kind: 'trouble' | 'done'
  readonly text: string
}

export type Dialog =
  | { readonly kind: 'shelf' }
  | { readonly kind: 'save-as'; readonly name: string; readonly taken?: string; readonly free?: string }
  | {
      readonly kind: 'conflict'
      readonly message: string
      readonly theirs: { readonly text: string; readonly revision: string } | null
    }
  | { readonly kind: 'keys' }
  /** Leaving a text that was never saved, to go on with `then`. */
  | { readonly kind: 'leave'; readonly then: () => void }

/** What a worker has been at for longer than half a second. */
export type Busy = 'reading' | 'working out' | 'drawing'

export type Theme = 'light' | 'dark'

export interface Bench {
  readonly source: Source
  /** The text as it was opened or last saved. */
  readonly savedText: string
  readonly text: string
  readonly handed: Handed
  readonly canUndo: boolean
  readonly canRedo: boolean

  /** The latest text that was read. */
  readonly read: Read | null
  /** The latest that had something to draw: what the drawing and the string show. */
  readonly shown: Read | null
  readonly plan: { readonly print: string; readonly plan: Plan } | null
  /** Of `shown`, by setting. */
  readonly traces: ReadonlyMap<string, Trace>
  /** The one on show; of an earlier setting while the present one is worked out. */
  readonly trace: Trace | null

  /** Controls a person set. A spring-back control left out is pressed and released. */
  readonly given: Setting
  /** No person has set a control yet: the bench may choose a position in which something runs. */
  readonly unset: boolean
  /** The load whose string is shown. */
  readonly load: ElementId | null
  /** Index into the story; null: the frame that suits the load. */
  readonly step: number | null
  readonly selected: ElementId | null

  readonly entries: readonly Entry[]
  readonly recovered: Draft | null
  readonly dialog: Dialog | null
  readonly note: Note | null
  readonly busy: Busy | null
  readonly theme: Theme
  readonly symbols: SymbolSet
}

export function emptyBench(theme: Theme, symbols: SymbolSet = 'iec'): Bench {
  return {
    source: { kind: 'new' },
    savedText: '',
    text: '',
    handed: { serial: 0, text: '', undoable: false },
    canUndo: false,
    canRedo: false,
    read: null,
    shown: null,
    plan: null,
    traces: new Map(),
    trace: null,
    given: {},
    unset: true,
    load: null,
    step: null,
    selected: null,
    entries: [],
    recovered: null,
    dialog: null,
    note: null,
    busy: null,
    theme,
    symbols,
  }
}
