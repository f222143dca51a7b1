import type { Actor } from '../circuit/model.ts'
import { loadsIn } from '../circuit/needs.ts'
import { type Asked, type Check, found } from './asked.ts'
import { movesOf } from './heat.ts'

/** A device that closes on rise, in the string of what warms it: nothing ever closes it. `opens` and `closes` are swapped. */
export const swappedTemperatures: Check = (asked) => {
  const told = new Set<string>()
  return swappedIn(asked).flatMap(({ device, load }) => {
    if (told.has(device.name)) return []
    told.add(device.name)
    const { element, name, places, circuit } = asked
    const at = places.clause(device.name, 'opens') ?? circuit.parts.get(device.part)?.at
    return [found('swapped-temperatures', at, device.name, name(element(load)))]
  })
}

interface Swapped {
  readonly device: Actor
  readonly load: number
}
const known = new WeakMap<Asked, readonly Swapped[]>()

/** Loads that never come on, and would if a device in their zone were hot. */
export function swappedIn(asked: Asked): readonly Swapped[] {
  const before = known.get(asked)
  if (before) return before
  const swapped = search(asked)
  known.set(asked, swapped)
  return swapped
}

function search({ circuit, rows, loads, element, onIn, forced }: Asked): readonly Swapped[] {
  return [...circuit.actors.values()].flatMap((device): readonly Swapped[] => {
    const { sense } = device
    if (sense.by !== 'heat') return []
    const { opens, closes } = movesOf(circuit, device)
    if (opens || !closes) return []
    const warming = new Set(loadsIn(circuit.zones.get(sense.zone)?.warmsWith ?? []))
    const cold = loads.filter(
      (i) => warming.has(element(i).id) && !rows.some(({ steps }) => steps.some((step) => onIn(step).has(i))),
    )
    if (cold.length === 0) return []
    const hot = forced({ [device.name]: device.states[1] })
    return cold
      .filter((i) => hot.some(({ phases }) => phases.some((phase) => onIn(phase).has(i))))
      .map((load) => ({ device, load }))
  })
}
