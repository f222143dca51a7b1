import type { Actor, Circuit, Conditions, ElementId, HeatPoint, Need, Needs, Setting } from '../circuit/model.ts'
import { clausesIn, needsHold } from '../circuit/needs.ts'
import { celsius } from '../circuit/temperature.ts'
import { holds } from '../circuit/test.ts'
import { abs } from '../network/index.ts'
import { activeIn, type Solved, shareOf, solveActive, type Wiring, wiringOf } from './wiring.ts'

/** What current above its rating opens a fuse, a breaker, an overload; common practice, no source. */
const OPENS_ABOVE = 1.35
/** More moves than a circuit of this size can need: beyond it, it never settles. */
const MOVES_PER_STATE = 8

/** A state that nothing moves any more, or, with `chatters`, one that it comes back to again and again. */
export interface Settled {
  readonly setting: Setting
  readonly conditions: Conditions
  readonly solved: Solved
  /** Actors that keep moving; empty where the state is settled. */
  readonly chatters: readonly string[]
}

/** What happened at one step. */
export type Event =
  | { readonly kind: 'set'; readonly control: string; readonly position: string }
  /** `seconds` passed before, where it was not at once. */
  | { readonly kind: 'moves'; readonly actors: readonly string[]; readonly seconds?: number }
  | { readonly kind: 'heat'; readonly actor: string; readonly rising: boolean; readonly point: HeatPoint }
  | { readonly kind: 'chatters'; readonly actors: readonly string[] }
  /** A sequence is stuck in a step: it waits there for what does not come. */
  | { readonly kind: 'waits'; readonly actor: string; readonly state: string; readonly for: Needs }

/** A step of the story: what happened, and the circuit right after it. The first has no event: all at rest. */
export interface Step {
  readonly event?: Event
  readonly setting: Setting
  readonly conditions: Conditions
  readonly solved: Solved
}

/** A setting worked out from rest. */
export interface Operation {
  readonly wiring: Wiring
  readonly setting: Setting
  readonly steps: readonly Step[]
  /** Settled states after the last control moved: cold first, one per heat step, until one repeats. */
  readonly phases: readonly Settled[]
  /** States after the last control moved that stand for a while and then pass by themselves: an igniter before the gas. */
  readonly passing: readonly Settled[]
}

export interface OperateOptions {
  /** Actors held in a state whatever they sense. */
  readonly forced?: Conditions
  /** Elements that stay open whatever their laws say. */
  readonly opened?: ReadonlySet<ElementId>
  /**
   * Controls moved after the maintained ones are set. Absent: each spring-back control that `given` does not name is
   * pressed to each of its other positions and released, in the order of the text.
   */
  readonly sequence?: readonly { readonly control: string; readonly position: string }[]
}

/** Every control where it stands unless set, with `given` over it. */
export function settingOf(circuit: Circuit, given: Setting = {}): Setting {
  return Object.fromEntries([...circuit.controls.values()].map((c) => [c.name, given[c.name] ?? c.normally]))
}

/**
 * Operate the circuit: from rest to the settled states of a setting, step by step.
 *
 * Three kinds of change take their turns. What is at once (coils, speed, what follows them) goes first, all together,
 * until nothing more moves. Then time passes to the next delay that runs out. When no delay runs, what the settled
 * current opens; and heat comes last, one point at a time, each the beginning of a new phase.
 *
 * `given` names the controls that are set; the others stand where they normally do. A spring-back control that is given
 * a position stays there.
 */
export function operate(circuit: Circuit, given: Setting = {}, options: OperateOptions = {}): Operation {
  const wiring = wiringOf(circuit)
  const { forced = {}, opened } = options
  const actors = [...circuit.actors.values()].filter((a) => !Object.hasOwn(forced, a.name))
  const mostMoves = MOVES_PER_STATE * (2 + actors.reduce((n, a) => n + a.states.length, 0))
  const steps: Step[] = []
  let setting = settingOf(circuit, given)
  let conditions: Conditions = {
    ...Object.fromEntries([...circuit.actors.values()].map((a) => [a.name, a.states[0]])),
    ...forced,
  }
  /** Seconds that each wish to move has been held for, by actor and the state it wishes for. */
  let waited: ReadonlyMap<string, number> = new Map()

  const record = (event?: Event): Step => {
    const solved = solveActive(wiring, activeIn(wiring, setting, conditions, opened))
    const step = { ...(event && { event }), setting, conditions, solved }
    steps.push(step)
    return step
  }
  /** Steps that sequences are known to be stuck in, by actor. */
  const stuck = new Map<string, string>()
  const tellStuck = (): void => {
    for (const { name, sense } of actors) {
      const state = conditions[name] ?? ''
      const awaited = sense.by === 'sequence' ? (sense.ways[state] ?? []).filter((way) => way.awaited) : []
      if (awaited.length === 0) stuck.delete(name)
      else if (stuck.get(name) !== state) {
        stuck.set(name, state)
        record({ kind: 'waits', actor: name, state, for: awaited.flatMap((way) => way.when) })
      }
    }
  }
  let passing: Settled[] = []
  const settle = (from: Step): Settled => {
    let step = from
    const seen = new Map<string, number>()
    const path: (readonly string[])[] = []
    for (;;) {
      const key = `${keyOf(step.conditions)} ${[...waited].join(' ')}`
      const before = seen.get(key)
      if (before !== undefined || path.length > mostMoves) {
        const chatters = [...new Set(path.slice(before ?? 0).flat())]
        record({ kind: 'chatters', actors: chatters })
        return { setting, conditions, solved: step.solved, chatters }
      }
      seen.set(key, path.length)
      const next = movesOf(wiring, actors, step, waited)
      if (next.moves.size === 0) {
        tellStuck()
        return { setting, conditions, solved: step.solved, chatters: [] }
      }
      if (next.seconds > 0) passing.push({ setting, conditions, solved: step.solved, chatters: [] })
      const names = [...next.moves.keys()]
      path.push(names)
      conditions = { ...conditions, ...Object.fromEntries(next.moves) }
      waited = next.waited
      step = record({ kind: 'moves', actors: names, ...(next.seconds > 0 && { seconds: next.seconds }) })
    }
  }

  let settled = settle(record())
  for (const { control, position } of options.sequence ?? pressesOf(circuit, given)) {
    if (setting[control] === position) continue
    setting = { ...setting, [control]: position }
    passing = []
    settled = settle(record({ kind: 'set', control, position }))
  }

  const phases: Settled[] = []
  const met = new Set<string>()
  while (!met.has(keyOf(settled.conditions))) {
    met.add(keyOf(settled.conditions))
    phases.push(settled)
    const next = settled.chatters.length > 0 ? undefined : heatStep(wiring, actors, settled)
    if (!next) break
    const { actor, rising, point } = next
    conditions = { ...conditions, [actor.name]: actor.states[rising ? 1 : 0] }
    settled = settle(record({ kind: 'heat', actor: actor.name, rising, point }))
  }
  return { wiring, setting, steps, phases, passing }
}

/** Presses and releases of the spring-back controls that are not given a position, and positions let go that do not stay. */
function pressesOf(circuit: Circuit, given: Setting): readonly { control: string; position: string }[] {
  return [...circuit.controls.values()].flatMap((c) => {
    const springsTo = c.momentary?.[given[c.name] ?? c.normally]
    if (springsTo !== undefined) return [{ control: c.name, position: springsTo }]
    if (!c.springsBack || given[c.name] !== undefined) return []
    const pressed = c.positions.filter((p) => p !== c.normally)
    return pressed.length > 0 ? [...pressed, c.normally].map((position) => ({ control: c.name, position })) : []
  })
}

const keyOf = (conditions: Conditions): string => Object.values(conditions).join(' ')

interface Moves {
  /** New states by actor. */
  readonly moves: ReadonlyMap<string, string>
  /** Seconds that passed first. */
  readonly seconds: number
  readonly waited: ReadonlyMap<string, number>
}

type State = Pick<Step, 'setting' | 'conditions' | 'solved'>

/** How a need stands in a solved state. */
export const needIn =
  (wiring: Wiring, { setting, conditions, solved }: State) =>
  (need: Need): boolean =>
    'is' in need
      ? holds([[need.is]], setting, conditions)
      : shareOf(wiring, solved, wiring.index.get(need.load) ?? -1) >= need.share

/** A state that an actor wishes for, and the seconds it must have wished for it. */
interface Wish {
  readonly actor: Actor
  readonly to: string
  readonly after: number
}

/** What each actor wishes in this state, currents and heat apart. */
function wishesOf(wiring: Wiring, actors: readonly Actor[], state: State): readonly Wish[] {
  const isSo = needIn(wiring, state)
  return actors.flatMap((actor): readonly Wish[] => {
    const { sense, states } = actor
    const now = state.conditions[actor.name] ?? states[0]
    if (sense.by === 'needs') {
      if (now === states[0]) {
        return needsHold(sense.to, isSo) ? [{ actor, to: states[1], after: sense.toSeconds ?? 0 }] : []
      }
      return needsHold(sense.stay, isSo) ? [] : [{ actor, to: states[0], after: sense.backSeconds ?? 0 }]
    }
    if (sense.by === 'sequence') {
      return (sense.ways[now] ?? [])
        .filter((way) => needsHold(way.when, isSo))
        .map((way) => ({ actor, to: way.to, after: way.after }))
    }
    return []
  })
}

function movesOf(wiring: Wiring, actors: readonly Actor[], state: State, waited: ReadonlyMap<string, number>): Moves {
  const wishes = wishesOf(wiring, actors, state)
  const keyOfWish = (w: Wish) => `${w.actor.name}>${w.to}`
  const left = (w: Wish) => w.after - (waited.get(keyOfWish(w)) ?? 0)
  const taken = (due: readonly Wish[]): Map<string, string> => {
    const moves = new Map<string, string>()
    for (const w of due) if (!moves.has(w.actor.name)) moves.set(w.actor.name, w.to)
    return moves
  }
  /** Time goes on for the wishes that go on; a wish that is gone starts anew. */
  const after = (seconds: number, moves: ReadonlyMap<string, string>) =>
    new Map(
      wishes
        .filter((w) => w.after > 0 && !moves.has(w.actor.name))
        .map((w) => [keyOfWish(w), (waited.get(keyOfWish(w)) ?? 0) + seconds] as const),
    )
  const atOnce = taken(wishes.filter((w) => left(w) <= 0))
  if (atOnce.size > 0) {
    follow(wiring, actors, state, atOnce)
    return { moves: atOnce, seconds: 0, waited: after(0, atOnce) }
  }
  if (wishes.length > 0) {
    const seconds = Math.min(...wishes.map(left))
    const moves = taken(wishes.filter((w) => left(w) <= seconds))
    follow(wiring, actors, state, moves)
    return { moves, seconds, waited: after(seconds, moves) }
  }
  const opened = openedByCurrent(wiring, actors, state)
  follow(wiring, actors, state, opened)
  return { moves: opened, seconds: 0, waited: new Map() }
}

/** What asks only how others stand moves in the same step: a drum turns as its motor does. */
function follow(wiring: Wiring, actors: readonly Actor[], state: State, moves: Map<string, string>): void {
  if (moves.size === 0) return
  for (const actor of actors) {
    const { sense, states, name } = actor
    if (sense.by !== 'needs' || moves.has(name) || sense.toSeconds || sense.backSeconds) continue
    const asked = clausesIn([...sense.to, ...sense.stay])
    if (asked.length === 0 || !asked.some((c) => moves.has(c.of))) continue
    if ([...sense.to, ...sense.stay].flat().some((need) => 'load' in need)) continue
    const conditions = { ...state.conditions, ...Object.fromEntries(moves) }
    const resting = conditions[name] === states[0]
    const isSo = needIn(wiring, { ...state, conditions })
    if (resting ? needsHold(sense.to, isSo) : !needsHold(sense.stay, isSo))
      moves.set(name, resting ? states[1] : states[0])
  }
}

/** The fuse, overload or breaker that this settled state opens first: the one whose rating is exceeded most. */
function openedByCurrent(wiring: Wiring, actors: readonly Actor[], { conditions, solved }: State): Map<string, string> {
  const exceeded = actors.flatMap(({ name, states, sense }) => {
    if (sense.by !== 'current' || conditions[name] !== states[0]) return []
    const amps = sense.elements.map((id) => abs(solved.ampsThrough(wiring.index.get(id) ?? -1)))
    const times = Math.max(...amps) / sense.amps
    return times > OPENS_ABOVE ? [{ name, to: states[1], times }] : []
  })
  // Poles of one rating open together, whatever rounding says.
  const most = Math.max(...exceeded.map((e) => e.times)) * (1 - 1e-9)
  return new Map(exceeded.flatMap((e) => (e.times >= most ? [[e.name, e.to] as const] : [])))
}

/** The point at which heat moves an actor in a state. */
export function pointOf(wiring: Wiring, actor: Actor, state: State): HeatPoint | undefined {
  if (actor.sense.by !== 'heat') return undefined
  const isSo = needIn(wiring, state)
  return actor.sense.points.find((p) => needsHold(p.when, isSo))
}

/**
 * The next thing heat does in a settled state. While anything warms, the lowest reachable point ahead; only when nothing
 * warms do points pass downward, highest first. What one-shot devices have no point to come back at stay as they are.
 */
function heatStep(
  wiring: Wiring,
  actors: readonly Actor[],
  settled: Settled,
): { readonly actor: Actor; readonly rising: boolean; readonly point: HeatPoint } | undefined {
  const { zones, actors: byName } = wiring.circuit
  const isSo = needIn(wiring, settled)
  const warming = new Set<string>()
  const limit = new Map<string, number>()
  for (const zone of zones.values()) {
    if (needsHold(zone.warmsWith, isSo)) warming.add(zone.name)
    const flow = zone.airflow === undefined ? undefined : byName.get(zone.airflow)
    const moving = !flow || settled.conditions[flow.name] === flow.states[1]
    const settles = moving ? zone.normal : zone.blocked
    limit.set(zone.name, settles ? celsius(settles) : Number.POSITIVE_INFINITY)
  }
  const rising = warming.size > 0
  let best: { readonly actor: Actor; readonly point: HeatPoint; readonly at: number } | undefined
  for (const actor of actors) {
    const { sense, states, name } = actor
    if (sense.by !== 'heat' || (settled.conditions[name] === states[0]) !== rising) continue
    const point = pointOf(wiring, actor, settled)
    const temperature = rising ? point?.up : point?.down
    if (!point || !temperature) continue
    const at = celsius(temperature)
    if (rising && !(warming.has(sense.zone) && at <= (limit.get(sense.zone) ?? 0))) continue
    if (!best || (rising ? at < best.at : at > best.at)) best = { actor, point, at }
  }
  return best && { actor: best.actor, rising, point: best.point }
}
