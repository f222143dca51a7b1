import { type Check, found } from './asked.ts'

/**
 * A load that is on in every row, though controls are there to turn things off: its wires begin in the wrong place. Told
 * of a whole unit only. A transformer and a board stand under power by design.
 */
export const alwaysOn: Check = ({ circuit, whole, loads, element, name, rows, onIn }) => {
  const controls = [...circuit.controls.values()].filter((c) => !c.springsBack && c.positions.length > 1)
  if (!whole || controls.length === 0) return []
  const primaries = new Set([...circuit.elements.values()].flatMap((e) => e.coupled?.primary ?? []))
  return loads
    .map(element)
    .filter((e) => !primaries.has(e.id) && circuit.parts.get(e.part)?.kind !== 'board')
    .filter((e) => {
      const i = loads.find((load) => element(load) === e) ?? -1
      return rows.every(({ phases }) => phases.some((phase) => onIn(phase).has(i)))
    })
    .map((e) => found('always-on', e.at, name(e)))
}
