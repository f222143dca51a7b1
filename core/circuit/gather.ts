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
import { standsIn } from './needs.ts'
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
  /** `within`: the assembly that the line is indented under. */
  add(line: Line, within?: string): void
  /** The circuit, after what could only be checked with every line read. */
  finish(): Circuit
}

/**
 * An empty circuit. `lost` are names on lines that were told and not understood: what speaks of them is right, and
 * saying so again would send people to the wrong line.
 */
export function gather(claimed: Claimed, lost: ReadonlySet<string>, tell: Tell): Gathering {
  let unit: Unit = { title: '' }
  const supplies: Supply[] = []
  const controls = new Map<string, Control>()
  const areas = new Map<string, Area>()
  const afterAt = new Map<string, Span>()
  const zones = new Map<string, Zone>()
  const parts = new Map<string, Part>()
  const elements = new Map<ElementId, Element>()
  const wires = new Map<ElementId, Element>()
  const actors = new Map<string, Actor>()
  const colours = new Map<string, string>()
  const priors: (readonly string[])[] = []
  /** Elements of what stands in an assembly, by its own name. */
  const inner = new Map<string, readonly ElementId[]>()
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
    // The minus of the sheets, U+2212, is on no keyboard.
    const id = (terminalId(word.text) ?? word.text).replace(/\.-$/, '.−')
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
      supplies.push(it)
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
        else if (kept.has(e.id) || elements.has(e.id)) tell('element-twice', e.at, it.name, e.name)
        // A secondary stands behind its primary: what was told of that one explains both.
        else if (e.coupled && !kept.has(e.coupled.primary)) continue
        else kept.set(e.id, whole(e, kept))
      }
      for (const e of kept.values()) elements.set(e.id, e)
      // What is behind a pole of the supply is no terminal. A tag on another part exists only if that part has it.
      const ends = new Set([...own.flatMap((e) => (e.role === 'source' && !e.coupled ? [e.ends[1]] : e.ends)), ...more])
      for (const t of ends) if (t === it.name || t.startsWith(`${it.name}.`)) terminals.add(t)
      const before = parts.get(it.name)
      parts.set(it.name, {
        ...it,
        elements: [...(before?.elements ?? []), ...kept.keys()],
        terminals: [...new Set([...(before?.terminals ?? []), ...ends])],
      })
      return [...kept.values()]
    },
    wire(it) {
      const [a, b] = it.ends
      if (wires.has(it.id) || wires.has(`${b}~${a}`)) tell('wired-twice', it.at, a, b)
      else wires.set(it.id, it)
    },
    colours(letters) {
      for (const [own, meaning] of letters) colours.set(own, meaning)
    },
    colourOf: (letters) => colours.get(letters),
    priors: (words) => void priors.push(words),
    test(condition) {
      atTheEnd.push(() => {
        for (const { of, states } of condition.clauses) checkStates(of, states)
      })
      const test: Test = [condition.clauses.map((c) => ({ of: c.of.text, in: c.states.map((s) => s.text) }))]
      return test
    },
    away(word) {
      const rest: string[] = []
      atTheEnd.push(() => {
        const mover = context.findMover(word)
        if (mover) rest.push('positions' in mover ? mover.normally : mover.states[0])
      })
      return [[{ of: word.text, in: rest, not: true }]]
    },
    later: (run) => void atTheEnd.push(run),
    changeHeat(of, change) {
      atTheEnd.push(() => {
        const actor = actors.get(of.text)
        if (actor?.sense.by === 'heat') {
          actors.set(of.text, { ...actor, sense: { ...actor.sense, points: change(actor.sense.points) } })
        } else if (!parts.has(of.text)) missing('unknown-part', of, parts.keys())
        // A thermal device in no zone has no points; that is said of it, not of what would change them.
        else if (actor?.sense.by !== 'nothing') tell('not-by-heat', of.at, of.text)
      })
    },
    tag(name, tag, at) {
      if (tag !== 'chassis' && !tag.includes('.') && !claimed.get('splice')?.has(tag)) return `${name}.${tag}`
      const terminal = tag.replace(/\.-$/, '.−')
      atTheEnd.push(() => terminalOf({ text: terminal, at }))
      return terminal
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
    isMover: (name) => controls.has(name) || actors.has(name),
    findMover(word) {
      const found = controls.get(word.text) ?? actors.get(word.text)
      if (!found && parts.has(word.text)) tell('no-states', word.at, word.text, [...controls.keys(), ...actors.keys()])
      return (
        found ??
        (parts.has(word.text) ? undefined : missing('unknown-control', word, [...controls.keys(), ...actors.keys()]))
      )
    },
    findMotor(word) {
      const motors = [...actors.values()].flatMap((a) => (a.sense.by === 'needs' && a.sense.hums ? [a.name] : []))
      return motors.includes(word.text) ? word.text : missing('unknown-motor', word, motors)
    },
    findWorking(word) {
      const own = inner.get(word.text) ?? parts.get(word.text)?.elements
      if (!own) return missing('unknown-part', word, parts.keys()) ?? []
      const loads = own.flatMap((id) => {
        const { role, load } = elements.get(id) ?? {}
        return role === 'load' && load ? [[{ load: id, share: load.works }]] : []
      })
      const actor = actors.get(word.text)
      if (loads.length > 0 || !actor || actor.sense.by === 'heat') {
        if (loads.length === 0) tell('no-load', word.at, word.text)
        return loads
      }
      return standsIn(actor.name, [actor.states[0]], true)
    },
    findTerminal: terminalOf,
    findThrough(word) {
      const part = parts.get(word.text)
      const [first, second, third] = part?.terminals ?? []
      if (part && !terminals.has(word.text) && first !== undefined && second !== undefined && third === undefined) {
        return [first, second]
      }
      const one = terminalOf(word)
      if (one === undefined) return undefined
      const owner = parts.get(one.slice(0, one.indexOf('.')))
      const pin = owner?.elements.map((id) => elements.get(id)).find((e) => e?.passes && e.ends.includes(one))
      return [one, pin ? (pin.ends[0] === one ? pin.ends[1] : pin.ends[0]) : one]
    },
  }

  /** The circuit as a line within an assembly sees it: its elements and tags are those of the assembly. */
  const contextWithin = (owner: Part): Context => ({
    ...context,
    tag: (_, tag, at) => context.tag(owner.name, tag, at),
    actor: (it) => context.actor({ ...it, part: owner.name }),
    part(it, own, more = []) {
      const nameOf = (e: Element): string => (own.length === 1 ? it.name : `${it.name}-${e.name}`)
      const ids = new Map(own.map((e) => [e.id, `${owner.name}:${nameOf(e)}`]))
      const idOf = (id: ElementId): ElementId => ids.get(id) ?? id
      const moved = own.map(
        (e): Element => ({
          ...e,
          id: idOf(e.id),
          part: owner.name,
          name: nameOf(e),
          note: e.note || it.label,
          ...(e.throwOf !== undefined && { throwOf: idOf(e.throwOf) }),
          ...(e.coupled && { coupled: { ...e.coupled, primary: idOf(e.coupled.primary) } }),
        }),
      )
      const tags = more.map((t) => (t.startsWith(`${it.name}.`) ? `${owner.name}${t.slice(it.name.length)}` : t))
      const kept = context.part(parts.get(owner.name) ?? owner, moved, tags)
      inner.set(
        it.name,
        kept.map((e) => e.id),
      )
      return kept
    },
  })

  return {
    add(line, within) {
      const owner = within === undefined ? undefined : parts.get(within)
      line.add(owner ? contextWithin(owner) : context)
    },
    finish() {
      for (const check of atTheEnd) check()
      cutCircles(areas, afterAt, tell)
      // An element mounted on a terminal that does not exist would hang in the air: the terminal is made, the problem told.
      for (const e of elements.values()) for (const t of e.ends) terminals.add(t)
      for (const pole of supplies.flatMap((s) => s.poles)) terminals.delete(pole.behind)
      const setting = Object.fromEntries([...controls.values()].map((c) => [c.name, c.normally]))
      const conditions = Object.fromEntries([...actors.values()].map((a) => [a.name, a.states[0]]))
      const atRest = (e: Element): Element => {
        if (e.figure.kind !== 'contact') return e
        const closed = e.laws.some(({ when }) => holds(when, setting, conditions))
        return { ...e, figure: { ...e.figure, rest: closed ? 'closed' : 'open' } }
      }
      return {
        unit,
        supplies,
        controls,
        areas,
        zones,
        parts,
        elements: new Map([...elements, ...wires].map(([id, e]) => [id, atRest(e)])),
        actors,
        ...(priors.length > 0 && { priors }),
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
