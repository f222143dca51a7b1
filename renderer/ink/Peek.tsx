import { useLayoutEffect, useRef, useState } from 'react'
import { createPortal } from 'react-dom'
import type { ElementId } from '../../core/circuit/index.ts'
import { elementName, placeOf } from '../store/circuit.ts'
import { useBench } from '../store/context.ts'
import { stepOf } from '../store/reduce.ts'
import { labelWords, stateWords } from '../store/words.ts'

const GAP = 8

interface Rect {
  readonly left: number
  readonly top: number
  readonly right: number
  readonly bottom: number
}

/** Where a card of this size stands beside `at`, in a window of this size: below it, else above, else beside. Never over it. */
export function beside(at: Rect, card: { width: number; height: number }, room: { width: number; height: number }) {
  const along = (from: number, long: number, all: number) => Math.max(GAP, Math.min(from, all - long - GAP))
  const left = along((at.left + at.right - card.width) / 2, card.width, room.width)
  const below = at.bottom + GAP
  if (below >= 0 && below + card.height <= room.height) return { left, top: below }
  if (at.top - GAP <= room.height && at.top - GAP - card.height >= 0) return { left, top: at.top - GAP - card.height }
  const top = along((at.top + at.bottom - card.height) / 2, card.height, room.height)
  const right = at.right + GAP
  if (right >= 0 && right + card.width <= room.width) return { left: right, top }
  if (at.left - GAP <= room.width && at.left - GAP - card.width >= 0) return { left: at.left - GAP - card.width, top }
  return undefined
}

/** What a pointer rests on or the focus is on, in words, beside it. */
export function Peek({ id, at }: { readonly id: ElementId; readonly at: Rect }) {
  const card = useRef<HTMLDivElement>(null)
  const [place, setPlace] = useState<{ left: number; top: number }>()
  const circuit = useBench((b) => b.shown?.circuit)
  const frame = useBench((b) => b.trace?.story[stepOf(b)]?.frame)
  const trace = useBench((b) => b.trace?.loads.find((l) => l.load === id))
  const element = circuit?.elements.get(id)

  useLayoutEffect(() => {
    if (!card.current) return
    const { width, height } = card.current.getBoundingClientRect()
    setPlace(beside(at, { width, height }, { width: innerWidth, height: innerHeight }))
  }, [at])

  if (!circuit || !element) return null
  const where = placeOf(circuit, element)
  return createPortal(
    // Its words are those of the shape itself, which a screen reader has said.
    <div ref={card} className="peek" aria-hidden="true" data-placed={place !== undefined} style={place}>
      <p>
        <b>{elementName(circuit, id)}</b> {labelWords(circuit, element)}
      </p>
      <p>{stateWords(element, frame, trace)}</p>
      {where && <p className="small">{where}</p>}
    </div>,
    document.body,
  )
}
