import { type Check, found } from './asked.ts'
import { isThermal } from './heat.ts'

/** Thermal devices that nothing ever warms, all told at once. Of a whole unit only: a string typed alone has no zones. */
export const inNoZone: Check = ({ circuit, whole, places }) => {
  if (!whole) return []
  const devices = [...circuit.actors.values()].filter((a) => isThermal(a) && a.sense.by === 'nothing')
  const [first] = devices
  if (!first) return []
  const part = circuit.parts.get(first.part)
  const at = (part && places.line(part.kind, part.name)) ?? part?.at
  return [
    found(
      'in-no-zone',
      at,
      devices.map((d) => d.name),
    ),
  ]
}
