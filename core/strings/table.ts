import type { Circuit, Control, ElementId, Setting } from '../circuit/model.ts'
import { operate } from '../operate/index.ts'
import { loadsOf } from './frozen.ts'
import { firstOn, inOrder } from './heldOpen.ts'
import { needsOf } from './needs.ts'

/** One combination of maintained positions, spring-back controls pressed and released. */
export interface TableRow {
  readonly setting: Setting
  readonly on: readonly ElementId[]
  /** For each load that is on, its contacts and links that must be closed, in order. */
  readonly strings: Readonly<Record<ElementId, readonly ElementId[]>>
}
export interface StringTable {
  readonly loads: readonly ElementId[]
  readonly rows: readonly TableRow[]
}

/** The maintained controls that a table turns. */
export const tableControls = (circuit: Circuit, names?: readonly string[]): readonly Control[] =>
  [...circuit.controls.values()].filter((c) => !c.springsBack && (names === undefined || names.includes(c.name)))

/** How many rows a table of these controls has. */
export const rowCount = (controls: readonly Control[]): number => controls.reduce((n, c) => n * c.positions.length, 1)

/** Every row, the last control turning fastest; `names` limits the controls, the others stand where they normally do. */
export function stringTable(circuit: Circuit, names?: readonly string[]): StringTable {
  const controls = tableControls(circuit, names)
  let settings: readonly Setting[] = [{}]
  for (const c of controls) settings = settings.flatMap((s) => c.positions.map((p) => ({ ...s, [c.name]: p })))
  let loads: readonly ElementId[] = []
  const rows = settings.map((given): TableRow => {
    const operation = operate(circuit, given)
    const { wiring } = operation
    const all = loadsOf(wiring)
    const id = (i: number): ElementId => wiring.elements[i]?.id ?? ''
    loads = all.map(id)
    const strings: Record<ElementId, readonly ElementId[]> = {}
    for (const load of all) {
      const frozen = firstOn(operation, load)
      if (frozen) strings[id(load)] = inOrder(needsOf(frozen, load).mustBeClosed, frozen, load).map(id)
    }
    return { setting: operation.setting, on: Object.keys(strings), strings }
  })
  return { loads, rows }
}
