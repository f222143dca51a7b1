import type { Circuit, Element, ElementId } from '../circuit/model.ts'
import { clausesIn, loadsIn } from '../circuit/needs.ts'
import { breakText, textWidth } from './text-width.ts'

/** Half the width of every symbol: where leads end. */
export const half = 32
/** From the symbol's line up to what may stand above it: two lines of lettering, and the collar below them. */
export const above = 66
/** From the line down: colour letters, the square of a heat contact, the pennant of a suspect. */
export const below = 46
/** Between two lines of lettering. */
export const lineHeight = 16
/** Baseline of the last line above a symbol. */
export const noteRise = 33
/** Rows stand at least this far apart; the throws of a changeover exactly so. */
export const pitch = above + below + 8
/** Where lettering beside a lead begins: clear of a collar. */
export const beside = 38

export const nameSize = 15
export const noteSize = 13
export const tagSize = 12
/** Notes wider than this go on two lines. */
const noteRoom = 140
/** A reason may be cut with an ellipsis, but not below this. */
const reasonRoom = 170

/** What a terminal is called beside its lead: the tag on the part. */
export function tagOf(terminal: string): string {
  const dot = terminal.indexOf('.')
  return dot < 0 ? terminal : terminal.slice(dot + 1)
}

export interface Words {
  readonly name: string
  readonly lines: readonly string[]
  /** Room that a reason or a flag may need, px. */
  readonly reason: number
}

/** What stands above an element, and how wide a reason in its place may get in any setting. */
export function wordsOf(circuit: Circuit, element: Element): Words {
  const part = circuit.parts.get(element.part)
  const only = part !== undefined && part.elements.length === 1
  // A changeover that is all of its part carries the part's label once, at the throw the blade is drawn with.
  const alone = part?.elements.every((id) => id === element.id || circuit.elements.get(id)?.throwOf === element.id)
  const note = (only || (alone && element.note === '')) && part && part.label !== '' ? part.label : element.note
  return {
    name: only ? part.name : element.id,
    lines: note === '' ? [] : breakText(note, noteRoom, noteSize),
    reason: Math.min(reasonRoom, reasonWidth(circuit, element)),
  }
}

/** The widest words that can say why the element is open, or which load it waits for. */
function reasonWidth(circuit: Circuit, element: Element): number {
  if (element.figure.kind !== 'contact') return 0
  let widest = 0
  for (const { when } of element.laws) {
    for (const { of } of when.flat()) {
      const control = circuit.controls.get(of)
      const actor = circuit.actors.get(of)
      const said = control
        ? control.positions.map((p) =>
            element.figure.kind === 'contact' && element.figure.by === 'dial' ? `chart: o at ${p}` : `${of} ${p}`,
          )
        : (actor?.states ?? []).map((s) => `${actor?.part || of} ${s.replaceAll('-', ' ')}`)
      for (const words of said) widest = Math.max(widest, textWidth(words, noteSize, 600))
    }
  }
  return widest
}

/** Loads that have to work before the element leaves its rest: whatever turns or pulls the actors in its conditions. */
export function waitsFor(circuit: Circuit, element: Element): { load: ElementId; name: string }[] {
  const found = new Map<ElementId, string>()
  const seen = new Set<string>()
  const follow = (name: string) => {
    const actor = circuit.actors.get(name)
    if (!actor || seen.has(name)) return
    seen.add(name)
    if (actor.sense.by !== 'needs') return
    for (const load of loadsIn(actor.sense.stay)) found.set(load, circuit.elements.get(load)?.part || actor.name)
    for (const { of } of clausesIn(actor.sense.stay)) follow(of)
  }
  for (const { when } of element.laws) for (const { of } of when.flat()) follow(of)
  return [...found].map(([load, name]) => ({ load, name }))
}
