import { contextBridge, ipcRenderer } from 'electron'
import { type Bridge, EVENTS, METHODS } from '../core/requests/methods.ts'

// A sandboxed preload can require only 'electron' and a few built-ins, so this is bundled to one CommonJS file. It hands
// over two functions, never ipcRenderer or an event object.
const bridge: Bridge = {
  call: (method, input) =>
    METHODS.includes(method)
      ? ipcRenderer.invoke(`api:${method}`, input)
      : Promise.resolve({ ok: false, error: { code: 'unknown-method', message: 'There is no such request.' } }),
  on: (name, listener) => {
    if (!EVENTS.includes(name)) return () => {}
    const wrapped = (_event: unknown, data: unknown) => listener(data)
    ipcRenderer.on(`event:${name}`, wrapped)
    return () => ipcRenderer.off(`event:${name}`, wrapped)
  },
}

contextBridge.exposeInMainWorld('host', bridge)
