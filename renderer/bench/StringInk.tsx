import { useLayoutEffect, useMemo, useRef, useState } from 'react'
import { drawString, type StringPlan } from '../../core/drawing/index.ts'
import { Ink } from '../ink/Ink.tsx'
import { useActions, useBench } from '../store/context.ts'
import { stepOf } from '../store/reduce.ts'

/** Sizes tried to keep a lying string in one row. */
const SMALLER = [0.92, 0.84, 0.77, 0.72]

const inOneRow = ({ points }: StringPlan): boolean => points.every(({ y }) => y === points[0]?.y)

/** The beads: lying in rows as wide as the pane, or upright for a narrow window. */
export function StringInk({ upright }: { readonly upright: boolean }) {
  const box = useRef<HTMLDivElement>(null)
  const [width, setWidth] = useState(0)
  const circuit = useBench((b) => b.shown?.circuit)
  const frame = useBench((b) => b.trace?.story[stepOf(b)]?.frame)
  const trace = useBench((b) => b.trace?.loads.find((l) => l.load === b.load))
  const selected = useBench((b) => b.selected)
  const symbols = useBench((b) => b.symbols)
  const { select, choose } = useActions()

  useLayoutEffect(() => {
    if (!box.current) return
    const observer = new ResizeObserver(([entry]) => {
      if (entry) setWidth(Math.floor(entry.contentRect.width))
    })
    observer.observe(box.current)
    return () => observer.disconnect()
  }, [])

  const drawn = useMemo(() => {
    if (!circuit || !frame || !trace || width === 0) return undefined
    const draw = (scale: number) => {
      const options = { width: Math.floor(width / scale), upright, below: 8, symbols, ...(selected && { selected }) }
      return { ...drawString(circuit, frame, trace, options), scale }
    }
    const full = draw(1)
    if (upright || inOneRow(full.plan)) return full
    // A little smaller in one row reads better than full size in two.
    return SMALLER.map(draw).find(({ plan }) => inOneRow(plan)) ?? full
  }, [circuit, frame, trace, width, upright, selected, symbols])
  return (
    <div className="string-sheet" ref={box}>
      <Ink svg={drawn?.svg ?? ''} scale={drawn?.scale ?? 1} className="ink" onSelect={select} onChoose={choose} />
    </div>
  )
}
