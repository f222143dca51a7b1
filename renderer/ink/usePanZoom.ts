import { type RefObject, useCallback, useEffect, useRef, useState } from 'react'

/** What of a sheet is in view: its top left corner, in px of the sheet, and px of the screen to one of the sheet. */
export interface ViewBox {
  readonly x: number
  readonly y: number
  readonly scale: number
}

export interface Box extends Size {
  readonly x: number
  readonly y: number
}

export interface Size {
  readonly width: number
  readonly height: number
}

const LEAST = 0.2
const MOST = 4
/** Fitting never enlarges beyond this: small circuits stay calm. */
const FIT_MOST = 1.25
const MARGIN = 16
/** Below it the 13 px notes of a sheet can no longer be read. */
const READABLE = 0.72

/** The view in which all of `sheet` stands in the middle of `pane`. */
export function fitted(sheet: Size, pane: Size): ViewBox {
  const wide = (pane.width - 2 * MARGIN) / Math.max(sheet.width, 1)
  const high = (pane.height - 2 * MARGIN) / Math.max(sheet.height, 1)
  const scale = Math.min(Math.max(Math.min(wide, high), LEAST), FIT_MOST)
  return {
    scale,
    x: (sheet.width - pane.width / scale) / 2,
    y: (sheet.height - pane.height / scale) / 2,
  }
}

/** The first view of a sheet: all of it where its lettering can be read so, else as much as can be, around `matter`. */
export function readable(sheet: Size, pane: Size, matter: Box): ViewBox {
  const whole = fitted(sheet, pane)
  if (whole.scale >= READABLE) return whole
  const scale = Math.max(Math.min(fitted(matter, pane).scale, 1), READABLE)
  const along = (from: number, long: number, all: number, room: number) => {
    const seen = room / scale
    const margin = MARGIN / scale
    if (all + 2 * margin <= seen) return (all - seen) / 2
    const start = long + 2 * margin <= seen ? from + long / 2 - seen / 2 : from - margin
    return Math.min(Math.max(start, -margin), all + margin - seen)
  }
  return {
    scale,
    x: along(matter.x, matter.width, sheet.width, pane.width),
    y: along(matter.y, matter.height, sheet.height, pane.height),
  }
}

/** `view` moved as little as brings `box` into `pane`; the same view where it is there already. */
export function revealing(view: ViewBox, pane: Size, box: Box): ViewBox {
  const along = (at: number, from: number, long: number, room: number) => {
    const seen = room / view.scale
    const margin = MARGIN / view.scale
    if (from - margin < at) return from - margin
    return from + long + margin > at + seen ? from + long + margin - seen : at
  }
  const x = along(view.x, box.x, box.width, pane.width)
  const y = along(view.y, box.y, box.height, pane.height)
  return x === view.x && y === view.y ? view : { ...view, x, y }
}

/** Nearer by `factor`, with the point of the sheet that is under (`px`, `py`) of the pane held there. */
export function zoomed(view: ViewBox, factor: number, px: number, py: number): ViewBox {
  const scale = Math.min(Math.max(view.scale * factor, LEAST), MOST)
  return {
    scale,
    x: view.x + px / view.scale - px / scale,
    y: view.y + py / view.scale - py / scale,
  }
}

/** Wheel, pinch, drag and keys move a view over a sheet. Until a person moves it, it shows what matters, readably. */
export function usePanZoom(pane: RefObject<HTMLElement | null>, sheet: Size, matter: Box) {
  const [size, setSize] = useState<Size>({ width: 0, height: 0 })
  const [moved, setMoved] = useState<ViewBox | 'whole' | null>(null)
  const view = moved === 'whole' ? fitted(sheet, size) : (moved ?? readable(sheet, size, matter))
  const latest = useRef(view)
  latest.current = view

  const change = useCallback((next: (view: ViewBox) => ViewBox) => setMoved(next(latest.current)), [])
  const zoom = useCallback(
    (factor: number) => change((v) => zoomed(v, factor, size.width / 2, size.height / 2)),
    [change, size],
  )
  const fit = useCallback(() => setMoved('whole'), [])
  const reveal = useCallback(
    (box: Box, covered: number) => {
      if (size.width === 0) return // folded away
      const next = revealing(latest.current, { ...size, height: size.height - covered }, box)
      if (next !== latest.current) setMoved(next)
    },
    [size],
  )

  useEffect(() => {
    const box = pane.current
    if (!box) return
    const observer = new ResizeObserver(([entry]) => {
      if (entry) setSize({ width: entry.contentRect.width, height: entry.contentRect.height })
    })
    observer.observe(box)
    return () => observer.disconnect()
  }, [pane])

  useEffect(() => {
    const box = pane.current
    if (!box) return
    const fingers = new Map<number, { x: number; y: number }>()
    let dragged = 0

    const place = (event: MouseEvent) => {
      const { left, top } = box.getBoundingClientRect()
      return { x: event.clientX - left, y: event.clientY - top }
    }
    const wheel = (event: WheelEvent) => {
      event.preventDefault()
      const { x, y } = place(event)
      const lines = event.deltaMode === WheelEvent.DOM_DELTA_LINE ? 16 : 1
      // A pinch on a trackpad arrives as a wheel with Ctrl, in finer steps.
      const speed = event.ctrlKey ? 0.01 : 0.0015
      change((v) => zoomed(v, Math.exp(-event.deltaY * lines * speed), x, y))
    }
    const down = (event: PointerEvent) => {
      if (event.button !== 0) return
      fingers.set(event.pointerId, place(event))
      dragged = 0
    }
    const move = (event: PointerEvent) => {
      const before = fingers.get(event.pointerId)
      if (!before) return
      const now = place(event)
      const other = [...fingers].find(([id]) => id !== event.pointerId)?.[1]
      fingers.set(event.pointerId, now)
      dragged += Math.hypot(now.x - before.x, now.y - before.y)
      if (dragged < 4) return
      if (!box.hasPointerCapture(event.pointerId)) box.setPointerCapture(event.pointerId)
      if (other) {
        const factor = Math.hypot(now.x - other.x, now.y - other.y) / Math.hypot(before.x - other.x, before.y - other.y)
        change((v) => zoomed(v, factor, (now.x + other.x) / 2, (now.y + other.y) / 2))
      } else {
        change((v) => ({ ...v, x: v.x - (now.x - before.x) / v.scale, y: v.y - (now.y - before.y) / v.scale }))
      }
    }
    const up = (event: PointerEvent) => fingers.delete(event.pointerId)
    // A drag that ends on an element does not press it.
    const click = (event: MouseEvent) => {
      if (dragged >= 4) event.stopPropagation()
      dragged = 0
    }
    box.addEventListener('wheel', wheel, { passive: false })
    box.addEventListener('pointerdown', down)
    box.addEventListener('pointermove', move)
    box.addEventListener('pointerup', up)
    box.addEventListener('pointercancel', up)
    box.addEventListener('click', click, { capture: true })
    return () => {
      box.removeEventListener('wheel', wheel)
      box.removeEventListener('pointerdown', down)
      box.removeEventListener('pointermove', move)
      box.removeEventListener('pointerup', up)
      box.removeEventListener('pointercancel', up)
      box.removeEventListener('click', click, { capture: true })
    }
  }, [pane, change])

  return { view, zoom, fit, reveal }
}
