import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { beforeEach, describe, expect, it, vi } from 'vitest'
import { METHODS } from '../../core/requests/index.ts'

type Fn = (...args: never[]) => unknown
const fake = vi.hoisted(() => {
  const state = {
    order: [] as string[],
    sent: [] as unknown[][],
    lock: true,
    ready: false,
    windows: [] as { options: Record<string, unknown>; urls: string[]; on: Map<string, Fn> }[],
    appOn: new Map<string, Fn>(),
    sessionOn: new Map<string, Fn>(),
    handlers: new Map<string, Fn>(),
    schemes: [] as unknown[],
    protocol: undefined as undefined | ((r: Request) => Promise<Response>),
    permissionRequest: undefined as undefined | Fn,
    permissionCheck: undefined as undefined | Fn,
    devicePermission: undefined as undefined | Fn,
    documents: '',
    switches: {} as Record<string, string>,
  }
  return state
})
vi.mock('electron', () => ({
  app: {
    requestSingleInstanceLock: () => fake.lock,
    quit: () => fake.order.push('quit'),
    enableSandbox: () => fake.order.push('enableSandbox'),
    on: (name: string, fn: Fn) => fake.appOn.set(name, fn),
    whenReady: async () => {
      fake.order.push('ready')
      fake.ready = true
    },
    getPath: (name: string) => (name === 'documents' ? fake.documents : ''),
    commandLine: { getSwitchValue: (name: string) => fake.switches[name] ?? '' },
    isPackaged: true,
  },
  BrowserWindow: class {
    webContents = { send: (...message: unknown[]) => fake.sent.push(message) }
    record
    constructor(options: Record<string, unknown>) {
      fake.order.push('window')
      this.record = { options, urls: [] as string[], on: new Map<string, Fn>() }
      fake.windows.push(this.record)
    }
    once(name: string, fn: Fn) {
      this.record.on.set(name, fn)
    }
    on(name: string, fn: Fn) {
      this.record.on.set(name, fn)
    }
    async loadURL(url: string) {
      this.record.urls.push(url)
    }
    isMinimized() {
      return true
    }
    restore() {
      fake.order.push('restore')
    }
    focus() {
      fake.order.push('focus')
    }
  },
  ipcMain: { handle: (channel: string, fn: Fn) => fake.handlers.set(channel, fn) },
  Menu: { setApplicationMenu: () => {} },
  protocol: {
    registerSchemesAsPrivileged: (list: unknown[]) => {
      if (fake.ready) throw new Error('must be called before ready')
      fake.order.push('schemes')
      fake.schemes.push(...list)
    },
    handle: (_scheme: string, fn: (r: Request) => Promise<Response>) => (fake.protocol = fn),
  },
  session: {
    defaultSession: {
      setPermissionRequestHandler: (fn: Fn) => (fake.permissionRequest = fn),
      setPermissionCheckHandler: (fn: Fn) => (fake.permissionCheck = fn),
      setDevicePermissionHandler: (fn: Fn) => (fake.devicePermission = fn),
      on: (name: string, fn: Fn) => fake.sessionOn.set(name, fn),
    },
  },
}))

const top = (url: string) => ({ senderFrame: { url, parent: null } })
const use = <T extends Fn>(fn: T | undefined): ((...args: unknown[]) => unknown) => {
  if (!fn) throw new Error('not registered')
  return fn as never
}
let rendererDir: string

beforeEach(async () => {
  vi.resetModules()
  Object.assign(fake, {
    order: [],
    sent: [],
    switches: {},
    lock: true,
    ready: false,
    windows: [],
    schemes: [],
    protocol: undefined,
  })
  for (const map of [fake.appOn, fake.sessionOn, fake.handlers]) map.clear()
  rendererDir = mkdtempSync(path.join(tmpdir(), 'page-'))
  fake.documents = mkdtempSync(path.join(tmpdir(), 'documents-'))
  writeFileSync(path.join(rendererDir, 'index.html'), '<p>page</p>')
})
const ask = (method: string, input: unknown) => use(fake.handlers.get(`api:${method}`))(top('app://bundle/'), input)

async function start() {
  const { startApp } = await import('../../electron/app.ts')
  await startApp({ rendererDir, demosDir: path.join(rendererDir, 'demos'), preload: '/preload.cjs' })
}

describe('main process', () => {
  it('does what must precede ready before it, then opens one locked-down window', async () => {
    await start()
    expect(fake.order).toEqual(['schemes', 'enableSandbox', 'ready', 'window'])
    expect(fake.windows[0]?.urls).toEqual(['app://bundle/'])
    expect(fake.windows[0]?.options.webPreferences).toMatchObject({
      preload: '/preload.cjs',
      contextIsolation: true,
      sandbox: true,
      nodeIntegration: false,
      webSecurity: true,
      webviewTag: false,
      allowRunningInsecureContent: false,
      experimentalFeatures: false,
    })
    expect(fake.windows[0]?.options.webPreferences).not.toHaveProperty('enableBlinkFeatures')
  })
  it('registers the scheme with no privilege beyond the three it needs', async () => {
    await start()
    expect(fake.schemes).toEqual([
      { scheme: 'app', privileges: { standard: true, secure: true, supportFetchAPI: true } },
    ])
  })
  it('quits as a second instance and touches nothing else', async () => {
    fake.lock = false
    await start()
    expect(fake.order).toEqual(['quit'])
  })
  it('focuses its window when a second instance starts', async () => {
    await start()
    use(fake.appOn.get('second-instance'))()
    expect(fake.order.slice(-2)).toEqual(['restore', 'focus'])
  })
  it('denies every permission, device and download', async () => {
    await start()
    const answer = vi.fn()
    use(fake.permissionRequest)({}, 'media', answer)
    expect(answer).toHaveBeenCalledWith(false)
    expect(use(fake.permissionCheck)({}, 'clipboard-read')).toBe(false)
    expect(use(fake.permissionCheck)({}, 'clipboard-sanitized-write')).toBe(true)
    expect(use(fake.devicePermission)()).toBe(false)
    const downloads = (url: string) => {
      const event = { preventDefault: vi.fn() }
      use(fake.sessionOn.get('will-download'))(event, { getURL: () => url })
      return event.preventDefault.mock.calls.length === 0
    }
    expect(downloads('https://example.org/a.zip')).toBe(false)
    expect(downloads('blob:https://example.org/1')).toBe(false)
    expect(downloads('blob:app://bundle/1')).toBe(true)
  })
  it('denies windows, foreign navigation and webviews in every web contents', async () => {
    await start()
    const on = new Map<string, Fn>()
    let openHandler: Fn | undefined
    use(fake.appOn.get('web-contents-created'))(
      {},
      { on: (n: string, f: Fn) => on.set(n, f), setWindowOpenHandler: (f: Fn) => (openHandler = f) },
    )
    expect(use(openHandler)({ url: 'https://example.com' })).toEqual({ action: 'deny' })
    const stopped = (name: string, url: string) => {
      const event = { url, preventDefault: vi.fn() }
      use(on.get(name))(event)
      return event.preventDefault.mock.calls.length === 1
    }
    for (const name of ['will-navigate', 'will-frame-navigate', 'will-redirect']) {
      expect(stopped(name, 'app://bundle/')).toBe(false)
      for (const url of [
        'https://example.com',
        'app://bundle.evil/',
        'app://evil/',
        'file:///etc/passwd',
        'javascript:1',
        'data:,x',
        '',
      ]) {
        expect(stopped(name, url)).toBe(true)
      }
    }
    expect(stopped('will-attach-webview', '')).toBe(true)
  })
  it('answers IPC only from the top frame of its own page', async () => {
    await start()
    expect([...fake.handlers.keys()]).toEqual(METHODS.map((m) => `api:${m}`))
    for (const handler of fake.handlers.values()) {
      for (const event of [
        top('https://example.com/'),
        top('app://bundle.evil/'),
        { senderFrame: null },
        { senderFrame: { url: 'app://bundle/', parent: {} } },
      ]) {
        expect(await use(handler)(event, {})).toMatchObject({ ok: false, error: { code: 'forbidden' } })
      }
    }
    expect(await ask('shelf.list', {})).toEqual({ ok: true, value: [] })
    expect(await ask('shelf.open', { id: '../x', origin: 'shelf' })).toMatchObject({ error: { code: 'bad-request' } })
  })
  it('keeps the shelf among the user’s documents, and tells its window of a save', async () => {
    await start()
    expect(await ask('shelf.save', { id: 'dryer', text: 'x', revision: null })).toMatchObject({ ok: true })
    expect(readFileSync(path.join(fake.documents, 'Halfsplit circuits', 'dryer.circuit'), 'utf8')).toBe('x')
    expect(fake.sent).toEqual([['event:shelf.changed', {}]])
  })
  it('keeps the shelf where --shelf says', async () => {
    fake.switches.shelf = path.join(fake.documents, 'elsewhere')
    await start()
    await ask('shelf.save', { id: 'dryer', text: 'x', revision: null })
    expect(readFileSync(path.join(fake.switches.shelf, 'dryer.circuit'), 'utf8')).toBe('x')
  })
  it('serves the page with its policy, and nothing else', async () => {
    await start()
    const get = (url: string, init?: RequestInit) => fake.protocol?.(new Request(url, init))
    const page = await get('app://bundle/')
    expect(page?.status).toBe(200)
    expect(page?.headers.get('content-security-policy')).toContain("default-src 'none'")
    for (const url of ['app://evil/', 'app://bundle/..%2f..%2fetc/passwd', 'app://bundle/nothing.js'])
      expect((await get(url))?.status).toBe(404)
    expect((await get('app://bundle/', { method: 'POST' }))?.status).toBe(404)
  })
})
