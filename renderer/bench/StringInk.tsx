import { useLayoutEffect, useMemo, useRef, useState } from 'react'
import { stringSvg } from '../../core/drawing/index.ts'
import { Ink } from '../ink/Ink.tsx'
import { useActions, useBench } from '../store/context.ts'
import { stepOf } from '../store/reduce.ts'

/** The beads: lying in rows as wide as the pane, or upright for a narrow window. */
export function StringInk({ upright }: { readonly upright: boolean }) {
  const box = useRef<HTMLDivElement>(null)
  const [width, setWidth] = useState(0)
  const circuit = useBench((b) => b.shown?.circuit)
  const frame = useBench((b) => b.trace?.story[stepOf(b)]?.frame)
  const trace = useBench((b) => b.trace?.loads.find((l) => l.load === b.load))
  const selected = useBench((b) => b.selected)
  const { select, choose } = useActions()

  useLayoutEffect(() => {
    if (!box.current) return
    const observer = new ResizeObserver(([entry]) => {
      if (entry) setWidth(Math.floor(entry.contentRect.width))
    })
    observer.observe(box.current)
    return () => observer.disconnect()
  }, [])

  const svg = useMemo(
    () =>
      circuit && frame && trace && width > 0
        ? stringSvg(circuit, frame, trace, { width, upright, ...(selected && { selected }) })
        : '',
    [circuit, frame, trace, width, upright, selected],
  )
  return (
    <div className="string-sheet" ref={box}>
      <Ink
        svg={svg}
        className="ink"
        onSelect={select}
        onChoose={(id) => {
          if (circuit?.elements.get(id)?.load) choose(id)
        }}
      />
    </div>
  )
}
