export { minimalHittingSets } from './hittingSets.ts'
export { minimalCuts, minimalPaths } from './minimalCuts.ts'
