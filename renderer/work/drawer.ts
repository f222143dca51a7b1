import { readCircuit } from '../../core/circuit/index.ts'
import { drawCircuit, type LayOut, type Plan } from '../../core/drawing/index.ts'

/** Names its circuit by its text. */
export interface DrawerJob {
  readonly text: string
  /** The drawing before an edit, that the new one should look like. */
  readonly previous?: Plan
}
export type DrawerAnswer = Plan

/** Lays circuits out. */
export const createDrawer =
  (elk: LayOut): ((job: DrawerJob) => Promise<DrawerAnswer>) =>
  ({ text, previous }) =>
    drawCircuit(readCircuit(text).circuit, elk, previous && { previous })
