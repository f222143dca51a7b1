import { useLayoutEffect, useRef } from 'react'
import type { ElementId } from '../../core/circuit/index.ts'

/** What of a sheet can be pressed. */
export interface Pressing {
  readonly onSelect: (element: ElementId) => void
  /** Pressed twice. */
  readonly onChoose?: (element: ElementId) => void
}

interface InkProps extends Pressing {
  /** From core/drawing: our own text, with every word of the netlist escaped. */
  readonly svg: string
  readonly className: string
  /** Px of the screen to one of the sheet. Default 1. */
  readonly scale?: number
}

/** A sheet of ink. Presses and keys reach it by the `data-element` and `data-wire` that its shapes carry. */
export function Ink({ svg, className, scale = 1, onSelect, onChoose }: InkProps) {
  const box = useRef<HTMLDivElement>(null)
  /** The element that the Tab key comes to. */
  const stop = useRef<ElementId | undefined>(undefined)
  const last = useRef<{ readonly id: ElementId; readonly at: number }>(undefined)

  useLayoutEffect(() => {
    const sheet = box.current
    if (!sheet) return
    const hadFocus = sheet.contains(document.activeElement)
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
  const walk = (sheet: HTMLElement, target: EventTarget, by: 1 | -1) => {
    const all = stops(sheet)
    const next = all[all.indexOf(target as SVGElement) + by]
    if (!next) return
    stop.current = pressed(next)
    stopAt(sheet, stop.current)?.focus()
  }

  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: the shapes inside are the buttons; this hears them all
    <div
      ref={box}
      className={className}
      onClick={(event) => press(event.target, event.timeStamp)}
      onKeyDown={(event) => {
        const { key, target, currentTarget, timeStamp } = event
        if (!pressed(target)) return
        if (key === 'Enter' || key === ' ') press(target, timeStamp)
        else if (key === 'ArrowRight' || key === 'ArrowDown') walk(currentTarget, target, 1)
        else if (key === 'ArrowLeft' || key === 'ArrowUp') walk(currentTarget, target, -1)
        else return
        event.preventDefault()
      }}
    />
  )
}

/** Two presses within it, ms, are a double press. */
const TWICE = 400

const stops = (sheet: HTMLElement) => [...sheet.querySelectorAll<SVGElement>('[tabindex]')]

/** Lets Tab come to one shape alone, and arrows walk from there. */
function stopAt(sheet: HTMLElement, id: ElementId | undefined): SVGElement | undefined {
  const all = stops(sheet)
  const chosen = all.find((shape) => pressed(shape) === id) ?? all[0]
  for (const shape of all) shape.setAttribute('tabindex', shape === chosen ? '0' : '-1')
  return chosen
}

function pressed(target: EventTarget | null): ElementId | undefined {
  if (!(target instanceof Element)) return undefined
  const shape = target.closest('[data-element],[data-wire]')
  // A test point may stand for several wires in a row: the first speaks for it.
  return shape?.getAttribute('data-element') ?? shape?.getAttribute('data-wire')?.split(' ')[0] ?? undefined
}
