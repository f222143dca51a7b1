import type { Circuit, Element } from '../../core/circuit/index.ts'
import type { Frame, LoadTrace } from '../../core/strings/trace.ts'

/** `22.5 A`, `240 V`: three digits, as a meter would show. */
export const measured = (value: number, unit: string): string => `${Number(value.toPrecision(3))} ${unit}`

/** `on, 240 V, 14.6 A`, `on but weak, …`, `off`. */
export function onWords({ on, weak, volts, amps }: LoadTrace): string {
  return on ? `on${weak ? ' but weak' : ''}, ${measured(volts, 'V')}, ${measured(amps, 'A')}` : 'off'
}

/** How an element stands in a frame: `closed`, `open: chart: o at off`, `on, 240 V, 14.6 A`. */
export function stateWords(element: Element, frame: Frame | undefined, load: LoadTrace | undefined): string {
  if (!frame) return ''
  const why = frame.why.get(element.id)
  const open = why ? `open: ${why}` : 'open'
  if (element.load) {
    if (!frame.on.has(element.id)) return frame.conducts.has(element.id) ? 'off' : `off, ${open}`
    return load?.on ? onWords(load) : 'on'
  }
  if (element.role === 'wire') return feedWords[frame.feed.get(element.id) ?? 'dead']
  return frame.conducts.has(element.id) ? 'closed' : open
}

const feedWords = {
  live: 'carries current',
  fed: 'fed, no current',
  dead: 'dead',
  grounded: 'joined to neutral or ground',
} as const

/** `Thermal cutoff`, `RD wire`. */
export function labelWords(circuit: Circuit, element: Element): string {
  if (element.role === 'wire') return [element.wire?.colour, 'wire'].filter(Boolean).join(' ')
  const part = circuit.parts.get(element.part)
  return part?.label || part?.kind || ''
}
