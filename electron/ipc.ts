import type { IpcMain } from 'electron'
import { dispatch, type Handlers, METHODS } from '../core/requests/index.ts'
import { isTrustedFrame } from './security.ts'

/** Answers requests over Electron's channels, one a method, each checking who sends. */
export function registerIpc(ipcMain: Pick<IpcMain, 'handle'>, handlers: Handlers, log: (error: unknown) => void): void {
  for (const method of METHODS) {
    ipcMain.handle(`api:${method}`, (event, input: unknown) => {
      if (!isTrustedFrame(event.senderFrame)) {
        return { ok: false, error: { code: 'forbidden', message: 'Refused: this page may not ask.' } }
      }
      return dispatch(handlers, method, input, log)
    })
  }
}
