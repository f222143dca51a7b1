import type { ElementId } from '../../core/circuit/index.ts'
import type { Plan } from '../../core/drawing/index.ts'
import type { Box } from './usePanZoom.ts'

/** What of the sheet these elements and wires take up, px; undefined where none of them is drawn. */
export function boxOf(plan: Plan, ids: readonly ElementId[]): Box | undefined {
  const wanted = new Set(ids)
  const boxes: Box[] = [
    ...plan.elements.filter((element) => wanted.has(element.id)).map((element) => element.box),
    ...plan.nets.flatMap((net) =>
      net.segments
        .filter((segment) => segment.wires.some((wire) => wanted.has(wire)))
        .map(({ x1, y1, x2, y2 }) => ({
          x: Math.min(x1, x2),
          y: Math.min(y1, y2),
          width: Math.abs(x2 - x1),
          height: Math.abs(y2 - y1),
        })),
    ),
    ...plan.loose
      .filter(({ wire }) => wanted.has(wire))
      .map(({ x1, x2, y }) => ({ x: Math.min(x1, x2), y, width: Math.abs(x2 - x1), height: 0 })),
  ]
  if (boxes.length === 0) return undefined
  const x = Math.min(...boxes.map((box) => box.x))
  const y = Math.min(...boxes.map((box) => box.y))
  return {
    x,
    y,
    width: Math.max(...boxes.map((box) => box.x + box.width)) - x,
    height: Math.max(...boxes.map((box) => box.y + box.height)) - y,
  }
}
