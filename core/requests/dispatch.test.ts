import fc from 'fast-check'
import { expect, it, vi } from 'vitest'
import { memoryFiles } from '../../tests/memory-files.ts'
import { dispatch } from './dispatch.ts'
import { METHODS } from './methods.ts'
import { createShelf } from './shelf.ts'

const handlers = () => createShelf(memoryFiles(), memoryFiles(), () => {})

it('answers anything at all with a reply and never throws', async () => {
  const onInternal = vi.fn()
  await fc.assert(
    fc.asyncProperty(
      fc.oneof(fc.constantFrom<unknown>(...METHODS, '__proto__', 'toString'), fc.anything()),
      fc.anything(),
      async (method, input) => {
        const reply = await dispatch(handlers(), method, input, onInternal)
        expect(typeof reply.ok).toBe('boolean')
      },
    ),
    { seed: 1 },
  )
  expect(onInternal).not.toHaveBeenCalled()
})

it('knows only the requests of the table', async () => {
  for (const method of ['shelf.remove', 'toString', '__proto__', undefined]) {
    expect(await dispatch(handlers(), method, {}, () => {})).toMatchObject({
      ok: false,
      error: { code: 'unknown-method' },
    })
  }
})

it('keeps the details of a bug to the host', async () => {
  const onInternal = vi.fn()
  const broken = { ...handlers(), 'shelf.list': () => Promise.reject(new Error('secret')) }
  const reply = await dispatch(broken, 'shelf.list', {}, onInternal)
  expect(reply).toMatchObject({ ok: false, error: { code: 'internal' } })
  expect(JSON.stringify(reply)).not.toContain('secret')
  expect(onInternal).toHaveBeenCalledOnce()
})

it('lets no answer out that the table does not describe', async () => {
  const onInternal = vi.fn()
  const wrong = { id: 'x', origin: 'shelf' as const, title: '', modified: 'yesterday', folder: '' }
  const broken = { ...handlers(), 'shelf.list': async () => ({ ok: true as const, value: [wrong] }) }
  expect(await dispatch(broken, 'shelf.list', {}, onInternal)).toMatchObject({ ok: false, error: { code: 'internal' } })
  expect(onInternal).toHaveBeenCalledOnce()
})
