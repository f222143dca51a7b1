import fc from 'fast-check'
import { expect, test } from 'vitest'
import { type Box, fitted, readable, revealing, type Size, type ViewBox, zoomed } from './usePanZoom.ts'

const run = { seed: 20261124 }
const length = (most: number) => fc.integer({ min: 40, max: most })
const size = (most: number): fc.Arbitrary<Size> => fc.record({ width: length(most), height: length(most) })
const view: fc.Arbitrary<ViewBox> = fc.record({
  x: fc.integer({ min: -500, max: 500 }),
  y: fc.integer({ min: -500, max: 500 }),
  scale: fc.double({ min: 0.2, max: 4, noNaN: true }),
})
/** Where a point of the sheet stands in the pane, px. */
const seen = ({ x, y, scale }: ViewBox, px: number, py: number) => [(px - x) * scale, (py - y) * scale] as const

test('a fitted sheet stands in the middle of its pane, and inside it', () => {
  fc.assert(
    fc.property(
      size(1200),
      fc.record({ width: fc.integer({ min: 400, max: 1600 }), height: length(1200) }),
      (sheet, pane) => {
        const fit = fitted(sheet, pane)
        const [left, top] = seen(fit, 0, 0)
        const [right, bottom] = seen(fit, sheet.width, sheet.height)
        expect(left + right).toBeCloseTo(pane.width, 6)
        expect(top + bottom).toBeCloseTo(pane.height, 6)
        if (fit.scale > 0.2) {
          expect(left).toBeGreaterThanOrEqual(0)
          expect(top).toBeGreaterThanOrEqual(0)
        }
      },
    ),
    run,
  )
})

test('zooming holds the point under the finger', () => {
  fc.assert(
    fc.property(
      view,
      fc.double({ min: 0.5, max: 2, noNaN: true }),
      length(900),
      length(900),
      (before, factor, px, py) => {
        const after = zoomed(before, factor, px, py)
        const [x, y] = seen(after, before.x + px / before.scale, before.y + py / before.scale)
        expect(x).toBeCloseTo(px, 6)
        expect(y).toBeCloseTo(py, 6)
      },
    ),
    run,
  )
})

test('what is revealed is in view where it fits, and a view that shows it does not move', () => {
  const inner = fc.record({ x: length(900), y: length(900), width: length(120), height: length(120) })
  fc.assert(
    fc.property(
      view,
      fc.record({ width: fc.integer({ min: 700, max: 1500 }), height: fc.integer({ min: 700, max: 900 }) }),
      inner,
      (before, pane, box: Box) => {
        const after = revealing(before, pane, box)
        const fits =
          (box.width + 1) * before.scale + 32 <= pane.width && (box.height + 1) * before.scale + 32 <= pane.height
        fc.pre(fits)
        const [left, top] = seen(after, box.x, box.y)
        const [right, bottom] = seen(after, box.x + box.width, box.y + box.height)
        expect(left).toBeGreaterThanOrEqual(15.999)
        expect(top).toBeGreaterThanOrEqual(15.999)
        expect(right).toBeLessThanOrEqual(pane.width - 15.999)
        expect(bottom).toBeLessThanOrEqual(pane.height - 15.999)
        const settled = revealing(after, pane, box)
        expect(settled.x).toBeCloseTo(after.x, 6)
        expect(settled.y).toBeCloseTo(after.y, 6)
      },
    ),
    run,
  )
})

test('a sheet too large to read at once begins with what matters, large enough to read', () => {
  const sheet = { width: 2400, height: 1600 }
  const matter = { x: 1000, y: 1200, width: 600, height: 120 }
  const first = readable(sheet, { width: 1000, height: 400 }, matter)
  expect(first.scale).toBeGreaterThanOrEqual(0.72)
  const [left, top] = seen(first, matter.x, matter.y)
  const [right, bottom] = seen(first, matter.x + matter.width, matter.y + matter.height)
  expect([left > 0, top > 0, right < 1000, bottom < 400]).toEqual([true, true, true, true])
})

test('a small sheet is shown whole', () => {
  const sheet = { width: 600, height: 300 }
  expect(readable(sheet, { width: 1000, height: 400 }, { x: 0, y: 0, width: 60, height: 30 })).toEqual(
    fitted(sheet, { width: 1000, height: 400 }),
  )
})
