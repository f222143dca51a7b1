export { dispatch } from './dispatch.ts'
export { EXTENSION, isStem } from './fileName.ts'
export { DiskFailure, type FileRead, type ShelfFolder } from './files.ts'
export type { Bridge, EventName, Method, Reply } from './methods.ts'
export { METHODS } from './methods.ts'
export { createShelf } from './shelf.ts'
export {
  type Entry,
  type EventData,
  events,
  type Handlers,
  type Input,
  MAX_TEXT_BYTES,
  type Output,
  table,
} from './table.ts'
