import fc from 'fast-check'
import { expect, test } from 'vitest'
import { beside } from './Peek.tsx'

const room = { width: 1000, height: 700 }
const rect = (left: number, top: number, width: number, height: number) => ({
  left,
  top,
  right: left + width,
  bottom: top + height,
})

test('below where there is room, else above', () => {
  expect(beside(rect(400, 100, 60, 60), { width: 200, height: 80 }, room)).toEqual({ left: 330, top: 168 })
  expect(beside(rect(400, 600, 60, 60), { width: 200, height: 80 }, room)).toEqual({ left: 330, top: 512 })
})

test('a card never covers what it speaks of, and never leaves the window', () => {
  const at = fc.record({
    left: fc.integer({ min: -100, max: 990 }),
    top: fc.integer({ min: -100, max: 690 }),
    width: fc.integer({ min: 1, max: 900 }),
    height: fc.integer({ min: 1, max: 700 }),
  })
  fc.assert(
    fc.property(at, fc.integer({ min: 40, max: 340 }), fc.integer({ min: 30, max: 120 }), (a, width, height) => {
      const shape = rect(a.left, a.top, a.width, a.height)
      const place = beside(shape, { width, height }, room)
      if (!place) return
      const apart =
        place.left >= shape.right ||
        place.left + width <= shape.left ||
        place.top >= shape.bottom ||
        place.top + height <= shape.top
      expect(apart).toBe(true)
      expect(place.left).toBeGreaterThanOrEqual(0)
      expect(place.top).toBeGreaterThanOrEqual(0)
      expect(place.left + width).toBeLessThanOrEqual(room.width)
      expect(place.top + height).toBeLessThanOrEqual(room.height)
    }),
    { seed: 1 },
  )
})
