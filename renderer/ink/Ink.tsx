import { useEffect, useLayoutEffect, useRef, useState } from 'react'
import type { ElementId } from '../../core/circuit/index.ts'
import type { Way } from '../../core/drawing/travel.ts'
import { Peek } from './Peek.tsx'

/** What of a sheet can be pressed. */
export interface Pressing {
  readonly onSelect: (element: ElementId) => void
  /** Pressed twice. */
  readonly onChoose?: (element: ElementId) => void
  /** Where an arrow leads from an element or a wire; `wires`: to the next wire. Absent: to the next one drawn. */
  readonly travel?: (from: ElementId, way: Way, wires: boolean) => ElementId | undefined
}

interface InkProps extends Pressing {
  /** From core/drawing: our own text, with every word of the netlist escaped. */
  readonly svg: string
  readonly className: string
  /** Px of the screen to one of the sheet. Default 1. */
  readonly scale?: number
}

/** A sheet of ink. Presses and keys reach it by the `data-element` and `data-wire` that its shapes carry. */
export function Ink({ svg, className, scale = 1, onSelect, onChoose, travel }: InkProps) {
  const box = useRef<HTMLDivElement>(null)
  /** The element that the Tab key comes to. */
  const stop = useRef<ElementId | undefined>(undefined)
  const [peeked, setPeeked] = useState<{ readonly id: ElementId; readonly at: DOMRect }>()
  const waiting = useRef<ReturnType<typeof setTimeout>>(undefined)
  useEffect(() => () => clearTimeout(waiting.current), [])
  const last = useRef<{ readonly id: ElementId; readonly at: number }>(undefined)

  useLayoutEffect(() => {
    const sheet = box.current
    if (!sheet) return
    const hadFocus = sheet.contains(document.activeElement)
    setPeeked(undefined)
    sheet.innerHTML = svg
    // Another frame is another sheet: the finger that stood on an element stays on it.
    const shape = stopAt(sheet, stop.current)
    if (hadFocus) shape?.focus({ preventScroll: true })
  }, [svg])

  // biome-ignore lint/correctness/useExhaustiveDependencies: a new sheet has the size it was drawn at
  useLayoutEffect(() => {
    const sheet = box.current?.querySelector('svg')
    if (!sheet) return
    const { width, height } = sheet.viewBox.baseVal
    sheet.setAttribute('width', String(Math.floor(width * scale)))
    sheet.setAttribute('height', String(Math.floor(height * scale)))
  }, [svg, scale])

  const press = (target: EventTarget, at: number) => {
    const id = pressed(target)
    if (!id) return
    // Selecting draws the sheet anew, so that the browser sees two single clicks on two shapes.
    const twice = last.current?.id === id && at - last.current.at < TWICE
    last.current = { id, at }
    stop.current = id
    if (twice && onChoose) onChoose(id)
    else onSelect(id)
  }
  const walk = (sheet: HTMLElement, target: EventTarget, way: Way, wires: boolean) => {
    const all = stops(sheet)
    const from = pressed(target)
    const by = way === 'right' || way === 'down' ? 1 : -1
    const next = travel
      ? from && travel(from, way, wires)
      : pressed(all[all.indexOf(target as SVGElement) + by] ?? null)
    if (!next) return
    stop.current = next
    stopAt(sheet, next)?.focus({ preventScroll: travel !== undefined })
  }
  const peek = (target: EventTarget, after: number) => {
    clearTimeout(waiting.current)
    const shape = shapeOf(target)
    const id = pressed(target)
    if (!shape || !id) return setPeeked(undefined)
    waiting.current = setTimeout(() => {
      // Measured when it shows: the sheet may have moved to bring it into view.
      if (shape.isConnected) setPeeked({ id, at: shape.getBoundingClientRect() })
    }, after)
  }
  const leave = () => {
    clearTimeout(waiting.current)
    setPeeked(undefined)
  }

  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: the shapes inside are the buttons; this hears them all
    <div
      className="ink-stage"
      onClick={(event) => {
        leave()
        press(event.target, event.timeStamp)
      }}
      onPointerOver={(event) => event.pointerType === 'mouse' && event.buttons === 0 && peek(event.target, HOVER)}
      onPointerLeave={leave}
      onPointerDown={leave}
      onWheel={leave}
      onFocus={(event) => event.target.matches(':focus-visible') && peek(event.target, SETTLED)}
      onBlur={leave}
      onKeyDown={(event) => {
        const { key, target, currentTarget, timeStamp, shiftKey } = event
        if (!pressed(target)) return
        const way = arrows.get(key)
        if (key === 'Enter' || key === ' ') press(target, timeStamp)
        else if (way) walk(currentTarget, target, way, shiftKey)
        else {
          if (key === 'Escape') leave()
          return
        }
        event.preventDefault()
      }}
    >
      <div ref={box} className={className} />
      {peeked && <Peek id={peeked.id} at={peeked.at} />}
    </div>
  )
}

/** Two presses within it, ms, are a double press. */
const TWICE = 400
/** A pointer that rests this long asks for the card, ms. */
const HOVER = 350
/** A focused shape has been brought into view by then, ms. */
const SETTLED = 60

const arrows: ReadonlyMap<string, Way> = new Map([
  ['ArrowLeft', 'left'],
  ['ArrowRight', 'right'],
  ['ArrowUp', 'up'],
  ['ArrowDown', 'down'],
])

const stops = (sheet: HTMLElement) => [...sheet.querySelectorAll<SVGElement>('[tabindex]')]

/** Lets Tab come to one shape alone, and arrows walk from there. */
function stopAt(sheet: HTMLElement, id: ElementId | undefined): SVGElement | undefined {
  const all = stops(sheet)
  const chosen =
    all.find((shape) => pressed(shape) === id) ?? all.find((shape) => shape.hasAttribute('data-element')) ?? all[0]
  for (const shape of all) shape.setAttribute('tabindex', shape === chosen ? '0' : '-1')
  return chosen
}

function shapeOf(target: EventTarget | null): Element | null {
  return target instanceof Element ? target.closest('[data-element],[data-wire]') : null
}

function pressed(target: EventTarget | null): ElementId | undefined {
  const shape = shapeOf(target)
  // A test point may stand for several wires in a row: the first speaks for it.
  return shape?.getAttribute('data-element') ?? shape?.getAttribute('data-wire')?.split(' ')[0] ?? undefined
}
