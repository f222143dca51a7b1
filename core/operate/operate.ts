import type { Actor, Circuit, Conditions, ElementId, Setting } from '../circuit/model.ts'
import { celsius } from '../circuit/temperature.ts'
import { abs } from '../network/index.ts'
import { activeIn, type Solved, solveActive, type Wiring, wiringOf, works } from './wiring.ts'

/** What current above its rating opens a fuse, a breaker, an overload; common practice, no source. */
const OPENS_ABOVE = 1.35
/** More moves than a circuit of this size can need: beyond it, it never settles. */
const MOVES_PER_ACTOR = 4

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
  | { readonly kind: 'moves'; readonly actors: readonly string[] }
  | { readonly kind: 'heat'; readonly actor: string; readonly rising: boolean }
  | { readonly kind: 'chatters'; readonly actors: readonly string[] }

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
 * `given` names the controls that are set; the others stand where they normally do. A spring-back control that is given
 * a position stays there.
 */
export function operate(circuit: Circuit, given: Setting = {}, options: OperateOptions = {}): Operation {
  const wiring = wiringOf(circuit)
  const actors = [...circuit.actors.values()]
  const { forced = {}, opened } = options
  const steps: Step[] = []
  let setting = settingOf(circuit, given)
  let conditions: Conditions = { ...Object.fromEntries(actors.map((a) => [a.name, a.states[0]])), ...forced }

  const record = (event?: Event): Step => {
    const solved = solveActive(wiring, activeIn(wiring, setting, conditions, opened))
    const step = { ...(event && { event }), setting, conditions, solved }
    steps.push(step)
    return step
  }
  const settle = (from: Step): Settled => {
    let step = from
    const seen = new Map<string, number>()
    const path: string[][] = []
    for (;;) {
      const key = keyOf(step.conditions)
      const before = seen.get(key)
      if (before !== undefined || path.length > MOVES_PER_ACTOR * actors.length + 8) {
        const chatters = [...new Set(path.slice(before ?? 0).flat())]
        record({ kind: 'chatters', actors: chatters })
        return { setting, conditions, solved: step.solved, chatters }
      }
      seen.set(key, path.length)
      let moves = movesOf(wiring, actors, forced, step, 'at once')
      if (moves.size === 0) moves = movesOf(wiring, actors, forced, step, 'in time')
      if (moves.size === 0) return { setting, conditions, solved: step.solved, chatters: [] }
      path.push([...moves.keys()])
      conditions = { ...conditions, ...Object.fromEntries(moves) }
      step = record({ kind: 'moves', actors: [...moves.keys()] })
    }
  }

  let settled = settle(record())
  for (const { control, position } of options.sequence ?? pressesOf(circuit, given)) {
    if (setting[control] === position) continue
    setting = { ...setting, [control]: position }
    settled = settle(record({ kind: 'set', control, position }))
  }

  const phases: Settled[] = []
  const met = new Set<string>()
  while (!met.has(keyOf(settled.conditions))) {
    met.add(keyOf(settled.conditions))
    phases.push(settled)
    const next = settled.chatters.length > 0 ? undefined : heatStep(wiring, actors, forced, settled)
    if (!next) break
    conditions = { ...conditions, [next.actor.name]: next.actor.states[next.rising ? 1 : 0] }
    settled = settle(record({ kind: 'heat', actor: next.actor.name, rising: next.rising }))
  }
  return { wiring, setting, steps, phases }
}

/** Presses and releases of the spring-back controls that are not given a position. */
function pressesOf(circuit: Circuit, given: Setting): readonly { control: string; position: string }[] {
  return [...circuit.controls.values()]
    .filter((c) => c.springsBack && given[c.name] === undefined)
    .flatMap((c) => {
      const pressed = c.positions.filter((p) => p !== c.normally)
      return pressed.length > 0 ? [...pressed, c.normally].map((position) => ({ control: c.name, position })) : []
    })
}

const keyOf = (conditions: Conditions): string => Object.values(conditions).join(' ')

/** The actors that this solved state moves: by coils, speed and what follows them at once; by current in time. */
function movesOf(
  wiring: Wiring,
  actors: readonly Actor[],
  forced: Conditions,
  { conditions, solved }: Step,
  when: 'at once' | 'in time',
): ReadonlyMap<string, string> {
  const working = (id: ElementId) => works(wiring, solved, wiring.index.get(id) ?? -1)
  const moves = new Map<string, string>()
  for (const { name, states, sense } of actors) {
    if (Object.hasOwn(forced, name)) continue
    const [rest, away] = states
    const resting = conditions[name] === rest
    let goes: boolean | undefined
    switch (sense.by) {
      case 'turning':
        if (when === 'at once') {
          const run = sense.run.some(working)
          goes = resting ? run && (sense.start.length === 0 || sense.start.some(working)) : run
        }
        break
      case 'current':
        if (when === 'in time' && resting) {
          goes = sense.elements.some(
            (id) => abs(solved.ampsThrough(wiring.index.get(id) ?? -1)) > OPENS_ABOVE * sense.amps,
          )
        }
        break
      case 'follows':
      case 'heat':
      case 'nothing':
        break
    }
    if (goes !== undefined && goes !== !resting) moves.set(name, goes ? away : rest)
  }
  // What follows moves in the same step as what it follows: a drum turns as its motor does.
  for (const { name, states, sense } of actors) {
    if (sense.by !== 'follows' || Object.hasOwn(forced, name)) continue
    const leads = wiring.circuit.actors.get(sense.of)
    if (!leads) continue
    const [rest, away] = states
    const state = (moves.get(leads.name) ?? conditions[leads.name]) === leads.states[0] ? rest : away
    if (state !== conditions[name]) moves.set(name, state)
  }
  return moves
}

/**
 * The next thing heat does in a settled state. While anything warms, the lowest reachable point ahead; only when nothing
 * warms do points pass downward, highest first. What one-shot devices have no point to come back at stay as they are.
 */
function heatStep(
  wiring: Wiring,
  actors: readonly Actor[],
  forced: Conditions,
  { conditions, solved }: Settled,
): { readonly actor: Actor; readonly rising: boolean } | undefined {
  const { zones, actors: byName } = wiring.circuit
  const warming = new Set<string>()
  const limit = new Map<string, number>()
  for (const zone of zones.values()) {
    if (zone.warmsWith.some((id) => works(wiring, solved, wiring.index.get(id) ?? -1))) warming.add(zone.name)
    const flow = zone.airflow === undefined ? undefined : byName.get(zone.airflow)
    const moving = !flow || conditions[flow.name] === flow.states[1]
    const settles = moving ? zone.normal : zone.blocked
    limit.set(zone.name, settles ? celsius(settles) : Number.POSITIVE_INFINITY)
  }
  let best: { readonly actor: Actor; readonly rising: boolean; readonly point: number } | undefined
  for (const actor of actors) {
    const { sense, states, name } = actor
    if (sense.by !== 'heat' || Object.hasOwn(forced, name)) continue
    const rising = warming.size > 0
    const resting = conditions[name] === states[0]
    const at = rising ? sense.up : sense.down
    if (resting !== rising || !at) continue
    const point = celsius(at)
    if (rising && !(warming.has(sense.zone) && point <= (limit.get(sense.zone) ?? 0))) continue
    if (!best || (rising ? point < best.point : point > best.point)) best = { actor, rising, point }
  }
  return best
}
