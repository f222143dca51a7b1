import { terminalId } from '../netlist/index.ts'
import type { Span } from '../netlist/tree.ts'
import type { Context, Line, Tell, Word } from './kind.ts'
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
import { holds } from './test.ts'

/** The names that lines claim, by the word of the line, so that any line may speak of any other. */
export type Claimed = ReadonlyMap<string, ReadonlySet<string>>

/** More names than this are not compared with one that is not known: it bounds the work on a long text full of slips. */
const MOST_NAMES = 500

function someOf(...lists: readonly Iterable<string>[]): readonly string[] {
  const names: string[] = []
  for (const list of lists) {
    for (const name of list) {
      if (names.length >= MOST_NAMES) return names
      names.push(name)
    }
  }
  return names
}

/** A circuit that grows line by line. */
export interface Gathering {
  add(line: Line): void
  /** The circuit, after what could only be checked with every line read. */
  finish(): Circuit
}

/**
 * An empty circuit. `lost` are names on lines that were told and not understood: what speaks of them is right, and
 * saying so again would send people to the wrong line.
 */
export function gather(claimed: Claimed, lost: ReadonlySet<string>, tell: Tell): Gathering {
  let unit: Unit = { title: '' }
  let supply: Supply | undefined
  const controls = new Map<string, Control>()
  const areas = new Map<string, Area>()
  const afterAt = new Map<string, Span>()
  const zones = new Map<string, Zone>()
  const parts = new Map<string, Part>()
  const elements = new Map<ElementId, Element>()
  const wires = new Map<ElementId, Element>()
  const actors = new Map<string, Actor>()
  const terminals = new Set<TerminalId>(['chassis'])
  const atTheEnd: (() => void)[] = []
  const explained = new Set(lost)

  const missing = (
    code: 'unknown-control' | 'unknown-part' | 'unknown-motor' | 'unknown-place',
    { text, at }: Word,
    ...known: readonly Iterable<string>[]
  ): undefined => {
    if (!explained.has(text)) tell(code, at, text, someOf(...known))
  }

  const terminalOf = (word: Word): TerminalId | undefined => {
    const id = terminalId(word.text) ?? word.text
    if (terminals.has(id)) return id
    const dot = id.indexOf('.')
    const owner = dot < 0 ? id : id.slice(0, dot)
    const tag = dot < 0 ? '' : id.slice(dot + 1)
    const part = parts.get(owner)
    if (explained.has(owner)) return undefined
    if (owner === 'supply' && !part) {
      explained.add(owner)
      return void tell('no-supply', word.at)
    }
    if (!part) {
      if (dot <= 0) return missing('unknown-place', word, terminals, parts.keys())
      return missing('unknown-part', { text: owner, at: word.at }, parts.keys())
    }
    if (tag === '' && part.terminals.length > 0) return void tell('terminal-needed', word.at, owner, part.terminals)
    const own = part.terminals.flatMap((t) => (t.startsWith(`${owner}.`) ? [t.slice(owner.length + 1)] : []))
    return void tell('unknown-terminal', word.at, owner, tag, own)
  }

  const checkStates = (of: Word, states: readonly Word[]): void => {
    const known = controls.get(of.text)?.positions ?? actors.get(of.text)?.states
    if (known) {
      for (const s of states) if (!known.includes(s.text)) tell('unknown-position', s.at, of.text, s.text, known)
    } else if (parts.has(of.text)) tell('no-states', of.at, of.text, someOf(controls.keys(), actors.keys()))
    else missing('unknown-control', of, controls.keys(), actors.keys())
  }

  const context: Context = {
    tell,
    unit(it) {
      unit = it
    },
    supply(it) {
      supply = it
    },
    control(it) {
      controls.set(it.name, it)
    },
    area(it, after) {
      areas.set(it.name, it)
      if (after) afterAt.set(it.name, after)
    },
    zone(it) {
      zones.set(it.name, it)
    },
    actor(it) {
      actors.set(it.name, it)
    },
    part(it, own, more = []) {
      const kept = new Map<ElementId, Element>()
      for (const e of own) {
        if (e.ends[0] === e.ends[1]) tell('same-tags', e.at, e.id, e.ends[0])
        else if (kept.has(e.id)) tell('element-twice', e.at, it.name, e.name)
        else kept.set(e.id, whole(e, kept))
      }
      for (const e of kept.values()) elements.set(e.id, e)
      // What is behind a pole of the supply is no terminal. A tag on another part exists only if that part has it.
      const ends = new Set([...own.flatMap((e) => (e.role === 'source' ? [e.ends[1]] : e.ends)), ...more])
      for (const t of ends) if (t === it.name || t.startsWith(`${it.name}.`)) terminals.add(t)
      parts.set(it.name, { ...it, elements: [...kept.keys()], terminals: [...ends] })
      return [...kept.values()]
    },
    wire(it) {
      const [a, b] = it.ends
      if (wires.has(it.id) || wires.has(`${b}~${a}`)) tell('wired-twice', it.at, a, b)
      else wires.set(it.id, it)
    },
    test(condition) {
      atTheEnd.push(() => {
        for (const { of, states } of condition.clauses) checkStates(of, states)
      })
      const test: Test = [condition.clauses.map((c) => ({ of: c.of.text, in: c.states.map((s) => s.text) }))]
      return test
    },
    tag(name, tag, at) {
      if (tag !== 'chassis' && !tag.includes('.') && !claimed.get('splice')?.has(tag)) return `${name}.${tag}`
      atTheEnd.push(() => terminalOf({ text: tag, at }))
      return tag
    },
    lost: (name) => void explained.add(name),
    isPlace: (text) => terminals.has(text) || parts.has(text),
    findControl: (word) => controls.get(word.text) ?? missing('unknown-control', word, controls.keys()),
    findName(kind, { text, at }) {
      const known = claimed.get(kind) ?? new Set()
      if (known.has(text)) return text
      if (!explained.has(text)) tell(`unknown-${kind}`, at, text, someOf(known))
      return undefined
    },
    findMotor(word) {
      if (actors.get(word.text)?.sense.by === 'turning') return word.text
      const motors = [...actors.values()].filter((a) => a.sense.by === 'turning').map((a) => a.name)
      return missing('unknown-motor', word, motors)
    },
    findLoads(word) {
      const part = parts.get(word.text)
      if (!part) return missing('unknown-part', word, parts.keys()) ?? []
      const loads = part.elements.filter((id) => elements.get(id)?.role === 'load')
      if (loads.length === 0) tell('no-load', word.at, word.text)
      return loads
    },
    findTerminal: terminalOf,
    findThrough(word) {
      const part = parts.get(word.text)
      const [first, second, third] = part?.terminals ?? []
      if (part && !terminals.has(word.text) && first !== undefined && second !== undefined && third === undefined) {
        return [first, second]
      }
      const one = terminalOf(word)
      return one === undefined ? undefined : [one, one]
    },
  }

  return {
    add: (line) => line.add(context),
    finish() {
      for (const check of atTheEnd) check()
      cutCircles(areas, afterAt, tell)
      // An element mounted on a terminal that does not exist would hang in the air: the terminal is made, the problem told.
      for (const e of elements.values()) for (const t of e.ends) terminals.add(t)
      for (const pole of supply?.poles ?? []) terminals.delete(pole.behind)
      const setting = Object.fromEntries([...controls.values()].map((c) => [c.name, c.normally]))
      const conditions = Object.fromEntries([...actors.values()].map((a) => [a.name, a.states[0]]))
      const atRest = (e: Element): Element => {
        if (e.figure.kind !== 'contact') return e
        const closed = e.laws.some(({ when }) => holds(when, setting, conditions))
        return { ...e, figure: { ...e.figure, rest: closed ? 'closed' : 'open' } }
      }
      return {
        unit,
        ...(supply && { supply }),
        controls,
        areas,
        zones,
        parts,
        elements: new Map([...elements, ...wires].map(([id, e]) => [id, atRest(e)])),
        actors,
        terminals,
      }
    },
  }
}

/** The other throw of a changeover without the first is a contact of its own. */
function whole(e: Element, kept: ReadonlyMap<ElementId, Element>): Element {
  if (e.throwOf === undefined || kept.has(e.throwOf)) return e
  const { throwOf: _, ...alone } = e
  return alone
}

/** Takes out the `after` that leads an area back to itself, since nobody could ever open it. */
function cutCircles(areas: Map<string, Area>, afterAt: ReadonlyMap<string, Span>, tell: Tell): void {
  for (const area of [...areas.values()]) {
    let at: string | undefined = area.after
    for (let steps = 0; at !== undefined && at !== area.name && steps < areas.size; steps++) at = areas.get(at)?.after
    if (at !== area.name) continue
    const { after: _, ...open } = area
    areas.set(area.name, open)
    const where = afterAt.get(area.name)
    if (where) tell('area-circle', where, area.name)
  }
}
