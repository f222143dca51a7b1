import { useDeferredValue, useEffect, useMemo, useRef } from 'react'
import { renderSvg } from '../../core/drawing/index.ts'
import { neighbour } from '../../core/drawing/travel.ts'
import { ExportMenu } from '../export/ExportMenu.tsx'
import { boxOf } from '../ink/boxOf.ts'
import { Ink } from '../ink/Ink.tsx'
import { usePanZoom } from '../ink/usePanZoom.ts'
import { useActions, useBench } from '../store/context.ts'
import { stepOf } from '../store/reduce.ts'
import { ElementCard } from './ElementCard.tsx'
import { useHandles } from './handles.ts'
import { Icon } from './Icon.tsx'

const NEARER = 1.25
/** Height of the card over the foot of the sheet, px. */
const CARD = 48
const NOTHING = { width: 1, height: 1 }

/** The whole circuit, in the step of the story that is on show. `carded`: with the selected element in words. */
export function DrawingPane({ carded = false }: { readonly carded?: boolean }) {
  const pane = useRef<HTMLDivElement>(null)
  const plan = useBench((b) => b.plan?.plan)
  const fresh = useBench((b) => b.plan?.print === b.shown?.print)
  const frame = useBench((b) => b.trace?.story[stepOf(b)]?.frame)
  const trace = useBench((b) => b.trace?.loads.find((l) => l.load === b.load))
  const selected = useBench((b) => b.selected)
  const symbols = useBench((b) => b.symbols)
  const { select, choose, switchSymbols } = useActions()

  // A large sheet takes a moment to draw: string, card and dial answer first.
  const view = useDeferredValue(
    useMemo<Parameters<typeof renderSvg>[1]>(
      () => ({
        ...(frame && { frame }),
        ...(trace && { trace }),
        ...(selected && { selected }),
        symbols,
        legend: true,
      }),
      [frame, trace, selected, symbols],
    ),
  )
  const svg = useMemo(() => (plan ? renderSvg(plan, view) : ''), [plan, view])
  const sheet = useMemo(() => sizeOf(svg), [svg])
  const matter = useMemo(() => (plan && trace ? boxOf(plan, trace.path.flat()) : undefined), [plan, trace])
  const { view: seen, zoom, fit, reveal } = usePanZoom(pane, sheet, matter ?? { x: 0, y: 0, ...sheet })

  // biome-ignore lint/correctness/useExhaustiveDependencies: a new selection comes into view, an old one may leave it
  useEffect(() => {
    const box = plan && selected !== null ? boxOf(plan, [selected]) : undefined
    if (box) reveal(box, carded ? CARD : 0)
  }, [selected])

  const { drawing } = useHandles()
  useEffect(() => {
    drawing.current = { fit, closer: () => zoom(NEARER), farther: () => zoom(1 / NEARER) }
    return () => {
      drawing.current = null
    }
  }, [drawing, zoom, fit])

  return (
    <section className="drawing-pane" aria-label="Drawing">
      <div className="drawing-sheet" ref={pane}>
        {plan ? (
          <div
            className="drawing-moved"
            style={{ transform: `scale(${seen.scale}) translate(${-seen.x}px, ${-seen.y}px)` }}
            data-fresh={fresh}
          >
            <Ink
              svg={svg}
              className="ink"
              onSelect={select}
              onChoose={choose}
              travel={(from, way, wires) => {
                if (!plan) return undefined
                const next = neighbour(plan, from, way, wires ? 'wires' : 'elements')
                const box = next && boxOf(plan, [next])
                if (box) reveal(box, carded && selected !== null ? CARD : 0)
                return next
              }}
            />
          </div>
        ) : (
          <Nothing />
        )}
      </div>
      {carded && <ElementCard />}
      <div className="zoom">
        <button type="button" aria-label="Fit to the pane" title="Fit, 0" onClick={fit}>
          <Icon name="fit" />
        </button>
        <button type="button" aria-label="Closer" title="Closer, +" onClick={() => zoom(NEARER)}>
          <Icon name="plus" />
        </button>
        <button type="button" aria-label="Farther" title="Farther, −" onClick={() => zoom(1 / NEARER)}>
          <Icon name="minus" />
        </button>
        <button
          type="button"
          className="word"
          aria-label={`${symbols === 'iec' ? 'IEC' : 'IEEE'} symbols, change`}
          title={
            symbols === 'iec'
              ? 'Symbols after IEC 60617. Change to IEEE 315'
              : 'Symbols after IEEE 315. Change to IEC 60617'
          }
          onClick={switchSymbols}
        >
          {symbols === 'iec' ? 'IEC' : 'IEEE'}
        </button>
        <ExportMenu />
      </div>
    </section>
  )
}

/** What to type when there is nothing to draw. */
function Nothing() {
  const empty = useBench((b) => b.shown !== null && b.shown.circuit.elements.size === 0)
  if (!empty) return null
  return (
    <p className="nothing">
      Nothing to draw yet. Type the parts, then the wires between them, such as
      <code>heater H1 2000 W at 240 V</code>
      <code>run RD supply.L1 &gt; H1 &gt; supply.L2</code>
    </p>
  )
}

/** The size a sheet says it has, px. */
function sizeOf(svg: string) {
  const found = /width="([\d.]+)" height="([\d.]+)"/.exec(svg)
  return found ? { width: Number(found[1]), height: Number(found[2]) } : NOTHING
}
