import { beforeEach, expect, test } from 'vitest'
import { createMemory } from './memory.ts'
import type { Source } from './state.ts'

const mine: Source = { kind: 'shelf', id: 'mine', revision: 'r' }
const others: readonly Source[] = [
  { kind: 'shelf', id: 'mine.two', revision: 'r' },
  { kind: 'demo', id: 'mine' },
  { kind: 'file', name: 'mine/x' },
]

let clock = 0
let ids = 0
const memory = () =>
  createMemory(
    localStorage,
    () => `id${ids++}`,
    () => clock++,
  )

beforeEach(() => localStorage.clear())

test('a draft is offered to later turns, never to its own', () => {
  const now = memory()
  now.keepDraft(mine, 'typed')
  expect(now.drafts(mine)).toEqual([])
  now.turnOver()
  expect(now.drafts(mine).map(({ text }) => text)).toEqual(['typed'])
  expect(
    memory()
      .drafts(mine)
      .map(({ text }) => text),
  ).toEqual(['typed'])
})

test('a draft that waits for an answer is not overwritten by further typing', () => {
  memory().keepDraft(mine, 'first')
  memory().keepDraft(mine, 'second')
  expect(
    memory()
      .drafts(mine)
      .map(({ text }) => text),
  ).toEqual(['second', 'first'])
})

test('drafts of another circuit are not mixed in', () => {
  for (const other of others) memory().keepDraft(other, 'theirs')
  expect(memory().drafts(mine)).toEqual([])
})

test('a forgotten draft is gone', () => {
  memory().keepDraft(mine, 'typed')
  const now = memory()
  for (const draft of now.drafts(mine)) now.forget(draft)
  expect(memory().drafts(mine)).toEqual([])
})

test('what is kept and cannot be read counts as nothing', () => {
  localStorage.setItem('halfsplit.theme', '{')
  localStorage.setItem('halfsplit.last', '{"kind":"shelf"}')
  localStorage.setItem('halfsplit.draft/shelf/mine/x', '7')
  const now = memory()
  expect([now.theme(), now.last(), now.drafts(mine)]).toEqual([undefined, undefined, []])
})

test('a browser that keeps nothing does not stop the bench', () => {
  const full: Storage = Object.assign(Object.create(Storage.prototype), {
    getItem: () => null,
    removeItem: () => undefined,
    setItem: () => {
      throw new DOMException('full', 'QuotaExceededError')
    },
  })
  const now = createMemory(full, () => 'id', Date.now)
  expect(() => now.keepDraft(mine, 'typed')).not.toThrow()
})

test('a circuit is left as it was set, each by itself', () => {
  const left = { given: { dial: 'on' }, load: 'H1:1-2' }
  memory().keepLeftAt(mine, left)
  expect(memory().leftAt(mine)).toEqual(left)
  expect(others.map((other) => memory().leftAt(other))).toEqual([undefined, undefined, undefined])
  localStorage.setItem('halfsplit.left/shelf/mine', '{"given":{"dial":7},"load":null}')
  expect(memory().leftAt(mine)).toEqual({ given: {}, load: null })
  localStorage.setItem('halfsplit.left/shelf/mine', '[]')
  expect(memory().leftAt(mine)).toBeUndefined()
})

test('the set of symbols is kept, and no third is known', () => {
  expect(memory().symbols()).toBeUndefined()
  memory().keepSymbols('ieee')
  expect(memory().symbols()).toBe('ieee')
  localStorage.setItem('halfsplit.symbols', '"jis"')
  expect(memory().symbols()).toBeUndefined()
})
