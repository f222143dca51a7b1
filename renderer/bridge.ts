import {
  type Bridge,
  type EventData,
  type EventName,
  events,
  type Input,
  type Method,
  type Output,
  type Reply,
  table,
} from '../core/requests/index.ts'

declare global {
  interface Window {
    /** Put there by the desktop's preload; absent in a browser. */
    host?: Bridge
  }
}

/** What the page asks its host through. It is the same in the desktop window and in a browser. */
export interface Client {
  /** Never rejects: a refusal is a reply too. */
  call<M extends Method>(method: M, input: Input<M>): Promise<Reply<Output<M>>>
  /** Returns the function that ends listening. */
  on<E extends EventName>(name: E, listener: (data: EventData<E>) => void): () => void
}

export function createClient(bridge: Bridge): Client {
  return {
    async call<M extends Method>(method: M, input: Input<M>): Promise<Reply<Output<M>>> {
      const reply = await bridge.call(method, input)
      if (!reply.ok) return reply
      const value = table[method].output.safeParse(reply.value)
      if (value.success) return { ok: true, value: value.data as Output<M> }
      return refuse('Halfsplit’s host answered something this page does not know. Load the page again.')
    },
    on<E extends EventName>(name: E, listener: (data: EventData<E>) => void) {
      return bridge.on(name, (data) => {
        const parsed = events[name].safeParse(data)
        if (parsed.success) listener(parsed.data as EventData<E>)
      })
    },
  }
}

const refuse = (message: string): Reply<never> => ({ ok: false, error: { code: 'internal', message } })

const KEY = 'host-token'

/** The token arrives in the address's fragment; it is kept for this tab and taken out of the address bar. */
export function takeToken(location: Location, history: History, storage: Storage): string {
  const token = new URLSearchParams(location.hash.slice(1)).get('token')
  if (token) {
    storage.setItem(KEY, token)
    history.replaceState(null, '', location.pathname)
  }
  return token ?? storage.getItem(KEY) ?? ''
}

/** A bridge to the loopback host that served this page. */
export function httpBridge(token: string): Bridge {
  const headers = { authorization: `Bearer ${token}`, 'content-type': 'application/json' }
  return {
    async call(method, input) {
      try {
        const response = await fetch(`/api/${method}`, { method: 'POST', headers, body: JSON.stringify(input) })
        return (await response.json()) as Reply
      } catch {
        return refuse('Halfsplit’s host does not answer. Start it again, then open the address it prints.')
      }
    },
    on(name, listener) {
      const stop = new AbortController()
      void readEvents(headers, stop.signal, (event, data) => event === name && listener(data)).catch(() => {})
      return () => stop.abort()
    },
  }
}

/** Server-sent events by fetch, since EventSource cannot carry a header. */
async function readEvents(
  headers: Record<string, string>,
  signal: AbortSignal,
  hear: (event: string, data: unknown) => void,
): Promise<void> {
  const response = await fetch('/api/events', { headers, signal })
  if (!response.ok || !response.body) return
  const reader = response.body.pipeThrough(new TextDecoderStream()).getReader()
  let rest = ''
  for (;;) {
    const { done, value } = await reader.read()
    if (done) return
    const blocks = (rest + value).split('\n\n')
    rest = blocks.pop() ?? ''
    for (const block of blocks) {
      const event = /^event: (.+)$/m.exec(block)?.[1]
      const data = /^data: (.+)$/m.exec(block)?.[1]
      if (event && data) hear(event, JSON.parse(data))
    }
  }
}
