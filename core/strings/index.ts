export { shortName } from './story.ts'
export { rowCount, type StringTable, stringTable, tableControls } from './table.ts'
export type { LoadTrace, Trace } from './trace.ts'
export { traceSetting } from './traceSetting.ts'
