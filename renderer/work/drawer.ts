import { readCircuit } from '../../core/circuit/index.ts'
import { drawCircuit, type LayOut, type Plan } from '../../core/drawing/index.ts'

/** Names its circuit by its text. */
export interface DrawerJob {
  readonly text: string
}
export type DrawerAnswer = Plan

/** Lays circuits out. */
export const createDrawer =
  (elk: LayOut): ((job: DrawerJob) => Promise<DrawerAnswer>) =>
  ({ text }) =>
    drawCircuit(readCircuit(text).circuit, elk)
