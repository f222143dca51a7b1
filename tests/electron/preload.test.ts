import { readFileSync } from 'node:fs'
import vm from 'node:vm'
import { describe, expect, it } from 'vitest'

/** The built bundle itself is run (npm test builds first), under the rule of a sandboxed preload: only these modules can be required. */
const ALLOWED = ['electron', 'events', 'timers', 'url', 'node:events', 'node:timers', 'node:url']

function load() {
  const exposed: Record<string, Record<string, (...a: unknown[]) => unknown>> = {}
  const invoked: unknown[][] = []
  const listeners = new Map<string, (...a: unknown[]) => void>()
  const electron = {
    contextBridge: { exposeInMainWorld: (key: string, api: never) => (exposed[key] = api) },
    ipcRenderer: {
      invoke: async (...a: unknown[]) => {
        invoked.push(a)
        return { ok: true, value: null }
      },
      on: (channel: string, fn: () => void) => listeners.set(channel, fn),
      off: (channel: string) => listeners.delete(channel),
    },
  }
  const require = (name: string) => {
    if (!ALLOWED.includes(name)) throw new Error(`a sandboxed preload cannot require ${name}`)
    return name === 'electron' ? electron : {}
  }
  vm.runInNewContext(readFileSync('dist/electron/preload.cjs', 'utf8'), {
    require,
    module: { exports: {} },
    exports: {},
    console,
  })
  return { exposed, invoked, listeners }
}

describe('preload bundle', () => {
  it('exposes two functions under one name and nothing of Electron', () => {
    const { exposed } = load()
    expect(Object.keys(exposed)).toEqual(['host'])
    expect(Object.entries(exposed.host ?? {}).map(([k, v]) => [k, typeof v])).toEqual([
      ['call', 'function'],
      ['on', 'function'],
    ])
  })
  it('reaches listed channels only', async () => {
    const { exposed, invoked } = load()
    await exposed.host?.call?.('shelf.list', {})
    await exposed.host?.call?.('shell.exec', {})
    expect(invoked).toEqual([['api:shelf.list', {}]])
  })
  it('hands listeners the data without the event, and unsubscribes', () => {
    const { exposed, listeners } = load()
    const got: unknown[][] = []
    const off = exposed.host?.on?.('shelf.changed', (...a: unknown[]) => got.push(a)) as () => void
    listeners.get('event:shelf.changed')?.({ sender: 'secret' }, {})
    expect(got).toEqual([[{}]])
    off()
    expect(listeners.size).toBe(0)
    exposed.host?.on?.('other', () => {})
    expect(listeners.size).toBe(0)
  })
})
