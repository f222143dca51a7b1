import { afterEach, expect, it, vi } from 'vitest'
import type { Bridge, Reply } from '../core/requests/index.ts'
import { createClient, httpBridge, takeToken } from './bridge.ts'

afterEach(() => sessionStorage.clear())

const bridge = (reply: Reply): Bridge => ({ call: async () => reply, on: () => () => {} })

it('takes the token out of the address bar and keeps it for the tab', () => {
  history.replaceState(null, '', '/#token=abc')
  expect(takeToken(location, history, sessionStorage)).toBe('abc')
  expect(location.hash).toBe('')
  expect(takeToken(location, history, sessionStorage)).toBe('abc')
})

it('hands a refusal on as it is', async () => {
  const refusal: Reply = { ok: false, error: { code: 'conflict', message: 'changed', data: { current: null } } }
  expect(await createClient(bridge(refusal)).call('shelf.list', {})).toEqual(refusal)
})

it('trusts no answer that the table does not describe', async () => {
  const client = createClient(bridge({ ok: true, value: [{ id: '../x' }] }))
  expect(await client.call('shelf.list', {})).toMatchObject({ ok: false, error: { code: 'internal' } })
})

it('passes on well-formed events only', () => {
  const heard = vi.fn()
  const talkative: Bridge = {
    ...bridge({ ok: true, value: null }),
    on: (_name, listener) => {
      listener({})
      listener('shelf')
      listener({ id: 1 })
      return () => {}
    },
  }
  createClient(talkative).on('shelf.changed', heard)
  expect(heard.mock.calls).toEqual([[{}]])
})

it('sends the token in a header, and answers for a host that is gone', async () => {
  const fetch = vi.fn(async (..._request: Parameters<typeof globalThis.fetch>): Promise<Response> => {
    throw new TypeError('refused')
  })
  vi.stubGlobal('fetch', fetch)
  expect(await httpBridge('abc').call('shelf.list', {})).toMatchObject({ ok: false, error: { code: 'internal' } })
  expect(fetch.mock.calls[0]).toEqual([
    '/api/shelf.list',
    { method: 'POST', headers: { authorization: 'Bearer abc', 'content-type': 'application/json' }, body: '{}' },
  ])
})

it('hears events of its name, however the stream is cut', async () => {
  const parts = [': open\n\nevent: shelf.ch', 'anged\ndata: {}\n', '\nevent: other\ndata: {}\n\n']
  const stream = new ReadableStream<Uint8Array>({
    start(controller) {
      for (const part of parts) controller.enqueue(new TextEncoder().encode(part))
      controller.close()
    },
  })
  vi.stubGlobal('fetch', async () => ({ ok: true, body: stream }))
  const heard = vi.fn()
  httpBridge('abc').on('shelf.changed', heard)
  await vi.waitFor(() => expect(heard).toHaveBeenCalled())
  await new Promise((resolve) => setTimeout(resolve, 20))
  expect(heard.mock.calls).toEqual([[{}]])
})
