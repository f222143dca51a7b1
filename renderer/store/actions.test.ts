import { beforeEach, expect, test } from 'vitest'
import { createStore } from 'zustand/vanilla'
import { invariant } from '../../core/netlist/index.ts'
import type { Bridge, Reply } from '../../core/requests/index.ts'
import { createClient } from '../bridge.ts'
import { createActions } from './actions.ts'
import { createMemory } from './memory.ts'
import { type Bench, emptyBench } from './state.ts'

let ids = 0
const revision = (n: number) => n.toString(16).padStart(64, '0')

/** A host with one circuit on its shelf and one demo, and a bench before it. */
function bench() {
  const files = new Map([['mine', { text: 'unit "Mine"\n', revision: revision(1) }]])
  let last = 1
  const write = (id: string, text: string): Reply => {
    files.set(id, { text, revision: revision(++last) })
    return { ok: true, value: { id, revision: revision(last) } }
  }
  const bridge: Bridge = {
    async call(method, input) {
      const { id = '', text = '', name = '', revision: from, origin } = input as Record<string, string>
      const file = origin === 'demo' ? { text: 'unit "Demo"\n', revision: revision(0) } : files.get(id)
      switch (method) {
        case 'shelf.list':
          return { ok: true, value: [] }
        case 'shelf.open':
          if (!file) return { ok: false, error: { code: 'not-found', message: `There is no “${id}” any more.` } }
          return { ok: true, value: { id, origin, name: `${id}.circuit`, ...file } }
        case 'shelf.save':
          if (file && file.revision === from) return write(id, text)
          return { ok: false, error: { code: 'conflict', message: 'changed', data: { current: file ?? null } } }
        case 'shelf.saveAs':
          if (!files.has(name)) return write(name, text)
          return { ok: false, error: { code: 'exists', message: 'taken', data: { free: `${name}-2` } } }
      }
    },
    on: () => () => undefined,
  }
  const store = createStore<Bench>(() => emptyBench('light'))
  const memory = createMemory(
    localStorage,
    () => `id${ids++}`,
    () => ids,
  )
  return { files, write, store, memory, actions: createActions(store, createClient(bridge), memory) }
}

beforeEach(() => localStorage.clear())

const settle = () => new Promise((done) => setTimeout(done))

async function withMine() {
  const at = bench()
  at.actions.open('shelf', 'mine')
  await settle()
  return at
}

test('a first visit opens the demo; a later one what was open last', async () => {
  const first = bench()
  await first.actions.begin()
  expect(first.store.getState()).toMatchObject({ source: { kind: 'demo' }, text: 'unit "Demo"\n' })
  first.actions.open('shelf', 'mine')
  await settle()
  const second = bench()
  await second.actions.begin()
  expect(second.store.getState().source).toMatchObject({ kind: 'shelf', id: 'mine' })
})

test('a circuit that is gone is said, and the demo opens instead', async () => {
  const { actions, store, memory } = bench()
  memory.keepLast({ kind: 'shelf', id: 'gone', revision: '' })
  await actions.begin()
  expect(store.getState()).toMatchObject({
    source: { kind: 'demo' },
    note: { kind: 'trouble', text: 'There is no “gone” any more.' },
  })
})

test('saving writes over the same file and clears the mark', async () => {
  const { actions, store, files } = await withMine()
  actions.type('unit "Mine"\n# more\n')
  await actions.save()
  expect(files.get('mine')?.text).toBe('unit "Mine"\n# more\n')
  expect(store.getState().savedText).toBe(store.getState().text)
  actions.type('unit "Mine"\n# again\n')
  await actions.save()
  expect(files.get('mine')?.text).toBe('unit "Mine"\n# again\n')
})

test('a demo asks for a name', async () => {
  const { actions, store, files } = bench()
  await actions.begin()
  await actions.save()
  expect(store.getState().dialog).toMatchObject({ kind: 'save-as' })
  await actions.saveAs('copy')
  expect(files.get('copy')?.text).toBe('unit "Demo"\n')
  expect(store.getState()).toMatchObject({ source: { kind: 'shelf', id: 'copy' }, dialog: null })
})

test('a name that is taken is said with one that is free, and nothing is written', async () => {
  const { actions, store, files } = bench()
  await actions.begin()
  await actions.saveAs('mine')
  expect(store.getState().dialog).toEqual({ kind: 'save-as', name: 'mine', taken: 'taken', free: 'mine-2' })
  expect(files.get('mine')?.text).toBe('unit "Mine"\n')
})

test.each(['keep mine', 'take theirs', 'save mine elsewhere'] as const)('a conflict loses no text: %s', async (way) => {
  const { actions, store, files, write } = await withMine()
  actions.type('unit "Mine, more"\n')
  write('mine', 'unit "Theirs"\n')
  await actions.save()
  const { dialog } = store.getState()
  invariant(dialog?.kind === 'conflict', 'the conflict is said')
  expect(dialog.theirs?.text).toBe('unit "Theirs"\n')
  expect(files.get('mine')?.text).toBe('unit "Theirs"\n')
  if (way === 'keep mine') {
    await actions.keepMine()
    expect(files.get('mine')?.text).toBe('unit "Mine, more"\n')
  } else if (way === 'take theirs') {
    actions.takeTheirs()
    expect(store.getState()).toMatchObject({
      text: 'unit "Theirs"\n',
      savedText: 'unit "Theirs"\n',
      handed: { undoable: true },
    })
    await actions.save()
    expect(files.get('mine')?.text).toBe('unit "Theirs"\n')
  } else {
    await actions.saveAs('mine-2')
    expect(files.get('mine')?.text).toBe('unit "Theirs"\n')
    expect(files.get('mine-2')?.text).toBe('unit "Mine, more"\n')
  }
})

test('text typed while a save was under way is still marked as not saved', async () => {
  const { actions, store, memory } = await withMine()
  actions.type('one')
  const saving = actions.save()
  actions.type('one two')
  await saving
  expect(store.getState()).toMatchObject({ text: 'one two', savedText: 'one' })
  memory.turnOver()
  expect(memory.drafts(store.getState().source).map(({ text }) => text)).toEqual(['one two'])
})

test('unsaved text is asked about before another is opened, kept, and offered back', async () => {
  const { actions, store } = await withMine()
  actions.type('unit "Mine"\n# half\n')
  actions.open('demo', 'dryer')
  const { dialog } = store.getState()
  invariant(dialog?.kind === 'leave', 'it is asked')
  dialog.then()
  await settle()
  actions.open('shelf', 'mine')
  await settle()
  expect(store.getState()).toMatchObject({ text: 'unit "Mine"\n', recovered: { text: 'unit "Mine"\n# half\n' } })
  actions.takeRecovered()
  expect(store.getState()).toMatchObject({ text: 'unit "Mine"\n# half\n', recovered: null, handed: { undoable: true } })
})

test('recovered text that is thrown away is not offered again', async () => {
  const { actions, store, memory } = await withMine()
  actions.type('half')
  memory.turnOver()
  const next = await withMine()
  next.actions.dropRecovered()
  expect(next.store.getState().recovered).toBe(null)
  expect(memory.drafts(store.getState().source)).toEqual([])
})
