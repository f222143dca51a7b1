import path from 'node:path'
import { app, BrowserWindow, ipcMain, Menu, protocol, session } from 'electron'
import { serveAsset } from './assets.ts'
import { SHELF_FOLDER, serveCircuits } from './circuits.ts'
import { registerIpc } from './ipc.ts'
import { HOST, lockDownApp, lockDownSession, SCHEME, START_URL, windowOptions } from './security.ts'

/** Everything before the first await must stay before it: Electron refuses these calls once it is ready. */
export async function startApp(paths: {
  readonly rendererDir: string
  readonly demosDir: string
  readonly preload: string
}): Promise<void> {
  if (!app.requestSingleInstanceLock()) {
    app.quit()
    return
  }
  // standard: relative URLs and an origin; secure: a secure context. No bypassCSP; no corsEnabled,
  // which would let other origins read the scheme.
  protocol.registerSchemesAsPrivileged([
    { scheme: SCHEME, privileges: { standard: true, secure: true, supportFetchAPI: true } },
  ])
  lockDownApp(app)

  let window: BrowserWindow | undefined
  const open = () => {
    window = new BrowserWindow(windowOptions(paths.preload))
    window.once('ready-to-show', () => window?.show())
    window.on('closed', () => {
      window = undefined
    })
    void window.loadURL(START_URL)
  }
  app.on('second-instance', () => {
    if (!window) return open()
    if (window.isMinimized()) window.restore()
    window.focus()
  })
  app.on('window-all-closed', () => {
    if (process.platform !== 'darwin') app.quit()
  })
  app.on('activate', () => {
    if (!window) open()
  })

  await app.whenReady()
  lockDownSession(session.defaultSession)
  // On macOS the menu is what copy and paste hang on.
  if (app.isPackaged && process.platform !== 'darwin') Menu.setApplicationMenu(null)
  protocol.handle(SCHEME, async (request) => {
    const url = new URL(request.url)
    if (request.method !== 'GET' || url.host !== HOST) return new Response('Not found', { status: 404 })
    const asset = await serveAsset(paths.rendererDir, url.pathname)
    return new Response(asset.body, { status: asset.status, headers: asset.headers })
  })
  const shelfDir = app.commandLine.getSwitchValue('shelf') || path.join(app.getPath('documents'), SHELF_FOLDER)
  const handlers = serveCircuits(shelfDir, paths.demosDir, (name, data) =>
    window?.webContents.send(`event:${name}`, data),
  )
  registerIpc(ipcMain, handlers, (error) => console.error(error))
  open()
}
