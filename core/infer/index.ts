export type { Found } from './found.ts'
export { minimalHittingSets } from './hittingSets.ts'
export { type CutOptions, minimalCuts, minimalPaths } from './minimalCuts.ts'
