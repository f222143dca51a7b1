import type { Circuit, Element, ElementId, Needs } from '../circuit/model.ts'
import { loadsIn } from '../circuit/needs.ts'
import { temperatureText } from '../circuit/temperature.ts'
import { type Operation, type Step, type Wiring, works } from '../operate/index.ts'
import { frameOf } from './frame.ts'
import { stateText } from './reason.ts'
import type { Frame, StoryStep } from './trace.ts'

/** What happened from rest to the last phase, in words a person would use at the machine, each with its frame. */
export function storyOf(operation: Operation): readonly StoryStep[] {
  const { wiring, steps } = operation
  const { circuit } = wiring
  const told: { text: string; frame: Frame }[] = []
  let before: { readonly step: Step; readonly frame: Frame } | undefined
  for (const step of steps) {
    const frame = frameOf(wiring, step)
    const texts = [
      ...eventText(circuit, step, before ? contactsMoved(circuit, before.frame, frame) : []),
      ...fedText(wiring, before?.step, step),
      ...loadsText(circuit, before?.frame.on ?? new Set(), frame.on),
      ...advancesText(circuit, before?.frame, frame),
    ]
    for (const text of texts) told.push({ text, frame })
    before = { step, frame }
  }
  return told.map((t, i) => ({ step: i + 1, ...t }))
}

function eventText(circuit: Circuit, step: Step, contacts: readonly string[]): readonly string[] {
  const { event } = step
  const and = contacts.length > 0 ? `: ${contacts.join(', ')}` : ''
  switch (event?.kind) {
    case undefined:
      return []
    case 'set':
      return [`${event.control} ${event.position}`]
    case 'moves': {
      const actors = event.actors.filter((name) => !isSaidElsewhere(circuit, name))
      const later = event.seconds === undefined ? '' : `${secondsText(event.seconds)} later: `
      const states = actors.map((name) => `${name} ${stateText(step.conditions[name] ?? '')}`).join(', ')
      const moved = states === '' ? contacts.join(', ') : `${states}${and}`
      return moved === '' ? [] : [`${later}${moved}`]
    }
    case 'heat': {
      const point = event.rising ? event.point.up : event.point.down
      const sense = circuit.actors.get(event.actor)?.sense
      if (sense?.by === 'heat' && circuit.zones.get(sense.zone)?.inside) {
        return [`${event.actor} ${stateText(step.conditions[event.actor] ?? '')}${and}`]
      }
      return [
        `${point ? temperatureText(point) : ''}${and || `: ${event.actor} ${stateText(step.conditions[event.actor] ?? '')}`}`,
      ]
    }
    case 'waits':
      return [`${event.actor} waits at ${stateText(event.state)} for ${needsText(event.for)}`]
    case 'chatters':
      return [`${event.actors.join(', ')} will not settle`]
  }
}

/** What merely follows, a drum with its motor; and an input of a board, which is told as the load that it is. */
const isSaidElsewhere = (circuit: Circuit, actor: string): boolean =>
  circuit.actors.get(actor)?.part === '' || circuit.elements.get(actor)?.role === 'load'

/** `CB:PS on`, `B lit and PS closed`, with `or` between alternatives. */
const needsText = (needs: Needs): string =>
  needs
    .map((alternative) =>
      alternative
        .map((need) =>
          'is' in need
            ? `${need.is.of} ${need.is.not ? 'not ' : ''}${need.is.in.map(stateText).join(' or ')}`
            : need.load,
        )
        .join(' and '),
    )
    .join(' or ')

const secondsText = (seconds: number): string =>
  seconds < 120 ? `${Number(seconds.toPrecision(3))} s` : `${Number((seconds / 60).toPrecision(3))} min`

/** `OT opens`, `M:heat closes`: contacts that are not a person's to move. */
function contactsMoved(circuit: Circuit, before: Frame, after: Frame): readonly string[] {
  const moved: string[] = []
  for (const e of circuit.elements.values()) {
    if (e.role !== 'contact' && e.role !== 'link') continue
    const [was, is] = [before.conducts.has(e.id), after.conducts.has(e.id)]
    if (was !== is) moved.push(`${shortName(circuit, e)} ${is ? 'closes' : 'opens'}`)
  }
  return moved
}

/** The part's name where it has one element, else the element's. */
export const shortName = (circuit: Circuit, e: Element): string =>
  circuit.parts.get(e.part)?.elements.length === 1 ? e.part : e.id

const namesOf = (circuit: Circuit, ids: readonly ElementId[]): string =>
  ids
    .map((id) => {
      const element = circuit.elements.get(id)
      return element ? shortName(circuit, element) : id
    })
    .join(', ')

/** Windings that are fed while their motor still stands. */
function fedText(wiring: Wiring, before: Step | undefined, after: Step): readonly string[] {
  const standing = (step: Step) =>
    [...wiring.circuit.actors.values()].flatMap((actor) =>
      actor.sense.by === 'needs' && actor.sense.hums && step.conditions[actor.name] === actor.states[0]
        ? loadsIn(actor.sense.stay).filter((id) => works(wiring, step.solved, wiring.index.get(id) ?? -1))
        : [],
    )
  const already = new Set(before ? standing(before) : [])
  const fed = standing(after).filter((id) => !already.has(id))
  return fed.length > 0 ? [`${namesOf(wiring.circuit, fed)} fed`] : []
}

/** Controls that a motor begins to turn on: to which position, and in how long where the sheet says so. */
function advancesText(circuit: Circuit, before: Frame | undefined, after: Frame): readonly string[] {
  return [...after.on].flatMap((id) => {
    const element = circuit.elements.get(id)
    const control = circuit.controls.get(element?.load?.advances ?? '')
    if (!element || !control) return []
    const stands = after.setting[control.name]
    if (before?.on.has(id) && before.setting[control.name] === stands) return []
    const next = control.positions[(control.positions.indexOf(stands ?? '') + 1) % control.positions.length]
    const { bar } = control
    const step = (Number(next) - Number(stands) + 360) % 360
    const time = bar && Number.isFinite(step) ? ` in ${secondsText((step / bar.degrees) * bar.seconds)}` : ''
    return [`${shortName(circuit, element)} turns ${control.name} on toward ${next}${time}`]
  })
}

function loadsText(circuit: Circuit, before: ReadonlySet<ElementId>, after: ReadonlySet<ElementId>): readonly string[] {
  const on = [...after].filter((id) => !before.has(id))
  const off = [...before].filter((id) => !after.has(id))
  return [
    ...(on.length > 0 ? [`${namesOf(circuit, on)} on`] : []),
    ...(off.length > 0 ? [`${namesOf(circuit, off)} off`] : []),
  ]
}
