import type { ElementId, Setting } from '../../core/circuit/index.ts'
import type { SymbolSet } from '../../core/drawing/symbols.ts'
import type { Source, Theme } from './state.ts'

/** Text that was not saved when its page went away. */
export interface Draft {
  readonly key: string
  readonly text: string
  /** Milliseconds since 1970. */
  readonly at: number
}

/** How a circuit was left: its setting, and the load whose string was on show. */
export interface LeftAt {
  readonly given: Setting
  readonly load: ElementId | null
}

/** What this browser keeps between visits. A browser that refuses to keep anything loses only convenience. */
export interface Memory {
  theme(): Theme | undefined
  keepTheme(theme: Theme): void
  symbols(): SymbolSet | undefined
  keepSymbols(symbols: SymbolSet): void
  leftAt(source: Source): LeftAt | undefined
  keepLeftAt(source: Source, left: LeftAt): void
  last(): Source | undefined
  keepLast(source: Source): void
  /** Another text comes onto the bench: drafts kept from now on are its own, and leave earlier ones alone. */
  turnOver(): void
  keepDraft(source: Source, text: string): void
  dropDraft(source: Source): void
  /** Unsaved text that earlier turns left, in this tab or another, latest first. */
  drafts(source: Source): readonly Draft[]
  forget(draft: Draft): void
}

const ROOT = 'halfsplit'

/** `newId` never gives the same twice, in any tab; `now` in milliseconds since 1970. */
export function createMemory(storage: Storage, newId: () => string, now: () => number): Memory {
  let turn = newId()
  const put = (key: string, value: unknown) => {
    try {
      storage.setItem(`${ROOT}.${key}`, JSON.stringify(value))
    } catch {
      // Full or forbidden. The text is still in the editor, and saving does not need this.
    }
  }
  const get = (key: string): unknown => {
    try {
      return JSON.parse(storage.getItem(`${ROOT}.${key}`) ?? 'null')
    } catch {
      return null
    }
  }
  const prefix = (source: Source) => `${ROOT}.draft/${nameOf(source)}/`
  return {
    theme: () => {
      const theme = get('theme')
      return theme === 'light' || theme === 'dark' ? theme : undefined
    },
    keepTheme: (theme) => put('theme', theme),
    symbols: () => {
      const symbols = get('symbols')
      return symbols === 'iec' || symbols === 'ieee' ? symbols : undefined
    },
    keepSymbols: (symbols) => put('symbols', symbols),
    leftAt: (source) => asLeftAt(get(`left/${nameOf(source)}`)),
    keepLeftAt: (source, left) => put(`left/${nameOf(source)}`, left),
    last: () => asSource(get('last')),
    keepLast: (source) => put('last', source),
    turnOver: () => {
      turn = newId()
    },
    keepDraft: (source, text) => put(`draft/${nameOf(source)}/${turn}`, { text, at: now() }),
    dropDraft: (source) => storage.removeItem(prefix(source) + turn),
    drafts: (source) =>
      Object.keys(storage)
        .filter((key) => key.startsWith(prefix(source)) && key !== prefix(source) + turn)
        .flatMap((key) => {
          const kept = get(key.slice(ROOT.length + 1))
          return isKept(kept) ? [{ key, text: kept.text, at: kept.at }] : []
        })
        .sort((a, b) => b.at - a.at),
    forget: ({ key }) => storage.removeItem(key),
  }
}

/** Without a slash of its own: no name begins another. */
function nameOf(source: Source): string {
  switch (source.kind) {
    case 'shelf':
    case 'demo':
      return `${source.kind}/${encodeURIComponent(source.id)}`
    case 'file':
      return `file/${encodeURIComponent(source.name)}`
    case 'new':
      return 'new'
  }
}

function asSource(kept: unknown): Source | undefined {
  if (typeof kept !== 'object' || kept === null || !('kind' in kept)) return undefined
  const { kind } = kept
  if (kind === 'new') return { kind }
  if (kind === 'file' && 'name' in kept && typeof kept.name === 'string') return { kind, name: kept.name }
  if (!('id' in kept) || typeof kept.id !== 'string') return undefined
  if (kind === 'shelf') return { kind, id: kept.id, revision: '' }
  return kind === 'demo' ? { kind, id: kept.id } : undefined
}

function asLeftAt(kept: unknown): LeftAt | undefined {
  if (typeof kept !== 'object' || kept === null || !('given' in kept) || !('load' in kept)) return undefined
  const { given, load } = kept
  if (typeof given !== 'object' || given === null || !(load === null || typeof load === 'string')) return undefined
  const positions = Object.entries(given).filter((e): e is [string, string] => typeof e[1] === 'string')
  return { given: Object.fromEntries(positions), load }
}

const isKept = (kept: unknown): kept is { text: string; at: number } =>
  typeof kept === 'object' &&
  kept !== null &&
  'text' in kept &&
  typeof kept.text === 'string' &&
  'at' in kept &&
  typeof kept.at === 'number'
