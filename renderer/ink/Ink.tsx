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

  useLayoutEffect(() => {
    const element = box.current
    if (!element) return
    const focused = element.contains(document.activeElement) ? pressed(document.activeElement) : undefined
    element.innerHTML = svg
    // Another frame is another sheet: the finger that stood on an element stays on it.
    if (focused) find(element, focused)?.focus()
  }, [svg])

  // biome-ignore lint/correctness/useExhaustiveDependencies: a new sheet has the size it was drawn at
  useLayoutEffect(() => {
    const sheet = box.current?.querySelector('svg')
    if (!sheet) return
    const { width, height } = sheet.viewBox.baseVal
    sheet.setAttribute('width', String(Math.floor(width * scale)))
    sheet.setAttribute('height', String(Math.floor(height * scale)))
  }, [svg, scale])

  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: the shapes inside are the buttons; this hears them all
    <div
      ref={box}
      className={className}
      onClick={(event) => {
        const id = pressed(event.target)
        if (id) onSelect(id)
      }}
      onDoubleClick={(event) => {
        const id = pressed(event.target)
        if (id) onChoose?.(id)
      }}
      onKeyDown={(event) => {
        const id = pressed(event.target)
        if (!id) return
        if (event.key === 'Enter' || event.key === ' ') {
          event.preventDefault()
          onSelect(id)
        } else if (event.key === 'ArrowRight' || event.key === 'ArrowDown') {
          event.preventDefault()
          neighbour(event.currentTarget, event.target, 1)?.focus()
        } else if (event.key === 'ArrowLeft' || event.key === 'ArrowUp') {
          event.preventDefault()
          neighbour(event.currentTarget, event.target, -1)?.focus()
        }
      }}
    />
  )
}

function pressed(target: EventTarget | null): ElementId | undefined {
  if (!(target instanceof Element)) return undefined
  const shape = target.closest('[data-element],[data-wire]')
  // A test point may stand for several wires in a row: the first speaks for it.
  return shape?.getAttribute('data-element') ?? shape?.getAttribute('data-wire')?.split(' ')[0] ?? undefined
}

function find(box: HTMLElement, id: ElementId): SVGElement | undefined {
  return [...box.querySelectorAll<SVGElement>('[tabindex]')].find((shape) => pressed(shape) === id)
}

function neighbour(box: HTMLElement, target: EventTarget, by: 1 | -1): SVGElement | undefined {
  const all = [...box.querySelectorAll<SVGElement>('[tabindex]')]
  const at = all.indexOf(target as SVGElement)
  return all[at + by]
}
