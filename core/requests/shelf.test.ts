import fc from 'fast-check'
import { describe, expect, it, vi } from 'vitest'
import { memoryFiles } from '../../tests/memory-files.ts'
import { dispatch } from './dispatch.ts'
import { DiskFailure } from './files.ts'
import type { Reply } from './methods.ts'
import { createShelf, unitTitle } from './shelf.ts'
import type { Entry, Output } from './table.ts'

const DRYER = 'unit "Bench dryer"  model "demo only"\n'
const bug = (error: unknown): never => {
  throw error
}

function open() {
  const shelf = memoryFiles('My circuits')
  const demos = memoryFiles('Demo circuits')
  const emit = vi.fn()
  const handlers = createShelf(shelf, demos, emit)
  const ask = (method: string, input: unknown) => dispatch(handlers, method, input, bug)
  return { shelf, demos, emit, handlers, ask }
}

const accepted = <T>(reply: Reply): T => {
  if (!reply.ok) throw new Error(reply.error.message)
  return reply.value as T
}

describe('shelf.list', () => {
  it('puts what was saved last first, and the demos after it by title', async () => {
    const { demos, ask } = open()
    demos.files.set('b', 'unit "Zulu"\n').set('a', 'unit "Yankee"\n').set('c', 'unit "Alpha"\n')
    for (const id of ['first', 'second', 'third']) await ask('shelf.save', { id, text: '', revision: null })
    const entries = accepted<Entry[]>(await ask('shelf.list', {}))
    expect(entries.map((entry) => [entry.origin, entry.id, entry.title, entry.folder])).toEqual([
      ['shelf', 'third', 'third', 'My circuits'],
      ['shelf', 'second', 'second', 'My circuits'],
      ['shelf', 'first', 'first', 'My circuits'],
      ['demo', 'c', 'Alpha', 'Demo circuits'],
      ['demo', 'a', 'Yankee', 'Demo circuits'],
      ['demo', 'b', 'Zulu', 'Demo circuits'],
    ])
  })

  it.each([
    ['unit "Bench dryer, electric"  model "x"\n', 'Bench dryer, electric'],
    ['# a comment\n\n  unit   "Indented"\n', 'Indented'],
    ['\uFEFFunit "After a byte order mark"\r\n', 'After a byte order mark'],
    ['unit "First"\nunit "Second"\n', 'First'],
    ['# unit "Commented out"\n', undefined],
    ['unit ""\n', undefined],
    ['unit "  "\n', undefined],
    ['unit "never closed\n"\n', undefined],
    ['units "Other word"\n', undefined],
  ])('takes from %j the title %j', (text, title) => {
    expect(unitTitle(text)).toBe(title)
  })
})

describe('shelf.open', () => {
  it('tells a demo from a circuit of the shelf with the same name', async () => {
    const { shelf, demos, ask } = open()
    shelf.files.set('dryer', 'mine')
    demos.files.set('dryer', 'theirs')
    expect(accepted(await ask('shelf.open', { id: 'dryer', origin: 'shelf' }))).toMatchObject({ text: 'mine' })
    expect(accepted(await ask('shelf.open', { id: 'dryer', origin: 'demo' }))).toMatchObject({
      text: 'theirs',
      name: 'dryer.circuit',
    })
  })

  it.each([
    ['missing', 'not-found'],
    ['not-text', 'not-text'],
    ['too-large', 'too-large'],
  ] as const)('says what is wrong with a file that is %s', async (kind, code) => {
    const { demos } = open()
    const handlers = createShelf({ ...memoryFiles(), read: async () => ({ kind }) }, demos, () => {})
    const reply = await dispatch(handlers, 'shelf.open', { id: 'dryer', origin: 'shelf' }, bug)
    expect(reply).toMatchObject({ ok: false, error: { code, message: expect.stringContaining('“dryer.circuit”') } })
  })
})

describe('shelf.save', () => {
  it('saves what was opened, and tells so once', async () => {
    const { emit, ask } = open()
    const { revision } = accepted<Output<'shelf.save'>>(
      await ask('shelf.save', { id: 'dryer', text: DRYER, revision: null }),
    )
    expect(emit.mock.calls).toEqual([['shelf.changed', {}]])
    expect(accepted(await ask('shelf.open', { id: 'dryer', origin: 'shelf' }))).toEqual({
      id: 'dryer',
      origin: 'shelf',
      name: 'dryer.circuit',
      text: DRYER,
      revision,
    })
    expect(await ask('shelf.save', { id: 'dryer', text: 'more', revision })).toMatchObject({ ok: true })
  })

  it('overwrites nothing that changed since, and hands over what stands there', async () => {
    const { shelf, emit, ask } = open()
    const { revision } = accepted<Output<'shelf.save'>>(
      await ask('shelf.save', { id: 'dryer', text: DRYER, revision: null }),
    )
    shelf.files.set('dryer', 'by another program')
    expect(await ask('shelf.save', { id: 'dryer', text: 'mine', revision })).toMatchObject({
      ok: false,
      error: { code: 'conflict', data: { current: { text: 'by another program' } } },
    })
    expect(shelf.files.get('dryer')).toBe('by another program')
    expect(emit).toHaveBeenCalledTimes(1)
  })

  it('does not bring back what was removed since', async () => {
    const { shelf, ask } = open()
    const { revision } = accepted<Output<'shelf.save'>>(
      await ask('shelf.save', { id: 'dryer', text: DRYER, revision: null }),
    )
    shelf.files.delete('dryer')
    expect(await ask('shelf.save', { id: 'dryer', text: 'mine', revision })).toMatchObject({
      ok: false,
      error: { code: 'conflict', message: expect.stringContaining('removed'), data: { current: null } },
    })
    expect(shelf.files.size).toBe(0)
  })

  it('does not take a new circuit for one that stands there in other letters', async () => {
    const { shelf, ask } = open()
    shelf.files.set('Dryer', DRYER)
    expect(await ask('shelf.save', { id: 'dryer', text: '', revision: null })).toMatchObject({
      ok: false,
      error: { code: 'conflict', data: { current: { text: DRYER } } },
    })
  })

  it('lets one of two saves at once win', async () => {
    const { ask } = open()
    const replies = await Promise.all(['a', 'b'].map((text) => ask('shelf.save', { id: 'x', text, revision: null })))
    expect(replies.map((reply) => (reply.ok ? 'saved' : reply.error.code))).toEqual(['saved', 'conflict'])
  })

  it('goes on after a save that failed', async () => {
    const shelf = memoryFiles()
    let full = true
    const write = async (stem: string, text: string) => {
      if (full) throw new DiskFailure('“x.circuit” could not be saved: the disk is full.')
      return shelf.write(stem, text)
    }
    const handlers = createShelf({ ...shelf, write }, memoryFiles(), () => {})
    const save = () => dispatch(handlers, 'shelf.save', { id: 'x', text: '', revision: null }, bug)
    expect(await save()).toEqual({
      ok: false,
      error: { code: 'disk', message: '“x.circuit” could not be saved: the disk is full.' },
    })
    full = false
    expect(await save()).toMatchObject({ ok: true })
  })

  it('keeps any text to the letter', async () => {
    await fc.assert(
      fc.asyncProperty(fc.string({ unit: 'binary' }), async (text) => {
        const { ask } = open()
        await ask('shelf.save', { id: 'x', text, revision: null })
        expect(await ask('shelf.open', { id: 'x', origin: 'shelf' })).toMatchObject({ ok: true, value: { text } })
      }),
      { seed: 1 },
    )
  })

  it.each([
    ['a text over 2 MB', { id: 'x', text: 'é'.repeat(1_000_001), revision: null }],
    ['half a character', { id: 'x', text: '\uD800', revision: null }],
    ['a path', { id: '../x', text: '', revision: null }],
    ['no revision', { id: 'x', text: '' }],
    ['a field too many', { id: 'x', text: '', revision: null, force: true }],
  ])('refuses %s', async (_what, input) => {
    const { shelf, ask } = open()
    expect(await ask('shelf.save', input)).toMatchObject({ ok: false, error: { code: 'bad-request' } })
    expect(shelf.files.size).toBe(0)
  })

  it('takes a text of 2 MB', async () => {
    const { ask } = open()
    const input = { id: 'x', text: 'é'.repeat(1_000_000), revision: null }
    expect(await ask('shelf.save', input)).toMatchObject({ ok: true })
  })
})

describe('shelf.saveAs', () => {
  it('makes a file name from the title', async () => {
    const { shelf, ask } = open()
    expect(await ask('shelf.saveAs', { name: 'Bench dryer, electric', text: DRYER })).toMatchObject({
      ok: true,
      value: { id: 'bench-dryer-electric' },
    })
    expect(shelf.files.get('bench-dryer-electric')).toBe(DRYER)
  })

  it('overwrites nothing, and names one that is free', async () => {
    const { shelf, ask } = open()
    shelf.files.set('Bench-Dryer', DRYER).set('bench-dryer-2', '')
    expect(await ask('shelf.saveAs', { name: 'Bench dryer', text: 'mine' })).toMatchObject({
      ok: false,
      error: { code: 'exists', message: expect.stringContaining('“bench-dryer-3”'), data: { free: 'bench-dryer-3' } },
    })
    expect(await ask('shelf.saveAs', { name: 'bench-dryer-3', text: 'mine' })).toMatchObject({ ok: true })
    expect(shelf.files.get('Bench-Dryer')).toBe(DRYER)
  })

  it('asks for a letter or a digit', async () => {
    const { ask } = open()
    expect(await ask('shelf.saveAs', { name: ' … ', text: '' })).toMatchObject({
      ok: false,
      error: { code: 'bad-name' },
    })
  })
})
