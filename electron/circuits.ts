import { createShelf, type EventData, type EventName, type Handlers } from '../core/requests/index.ts'
import { createFileStore } from './file-store.ts'

/** What the shelf's folder is called where the user has not chosen another. */
export const SHELF_FOLDER = 'Halfsplit circuits'

/** The handlers that every host serves: the shelf in `shelfDir`, the demos in `demosDir`. */
export function serveCircuits(
  shelfDir: string,
  demosDir: string,
  emit: <E extends EventName>(name: E, data: EventData<E>) => void,
): Handlers {
  return createShelf(createFileStore(shelfDir, shelfDir), createFileStore(demosDir, 'Demo circuits'), emit)
}
