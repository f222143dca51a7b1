import type { Actor, Circuit, Temperature } from '../circuit/model.ts'
import { celsius, temperatureText } from '../circuit/temperature.ts'
import { type Check, found } from './asked.ts'
import { devicesIn, isOneShot, pointsOf } from './heat.ts'

/** Below this a number of degrees says nothing: it may well be either. Trade judgement, no source. */
const LEAST = 200
/** So many times as hot as all else in a zone is no place that is meant to be in it. Trade judgement, no source. */
const BEYOND = 1.8

/**
 * A temperature typed in °C and taken from a sheet in °F: far above all else in its zone, or above what opens for good
 * there, so that it could never do its work; and sensible in °F.
 */
export const celsiusOrFahrenheit: Check = ({ circuit, places }) =>
  [...circuit.actors.values()].flatMap((device) => {
    if (device.sense.by !== 'heat') return []
    const [point] = pointsOf(device).filter(({ up }) => up.unit === 'C' && up.value >= LEAST)
    if (!point) return []
    const { value } = point.up
    const others = inZone(circuit, device)
    const inFahrenheit = celsius({ value, unit: 'F' })
    const hottest = others.reduce<Temperature | undefined>(
      (most, t) => (most === undefined || celsius(t) > celsius(most) ? t : most),
      undefined,
    )
    const limit = isOneShot(device) ? undefined : lowestOneShot(circuit, device)
    const beyond = hottest !== undefined && value > BEYOND * celsius(hottest) ? hottest : undefined
    const useless = limit !== undefined && value > celsius(limit) && inFahrenheit < celsius(limit) ? limit : undefined
    const beside = useless ?? beyond
    if (!beside) return []
    const part = circuit.parts.get(device.part)
    const at = clauseWith(places, device, value) ?? part?.at
    return [found('celsius-or-fahrenheit', at, device.name, value, temperatureText(beside))]
  })

/** The temperatures of all else in the zone of a device: of the other devices, and where the zone itself settles. */
function inZone(circuit: Circuit, device: Actor): readonly Temperature[] {
  if (device.sense.by !== 'heat') return []
  const zone = circuit.zones.get(device.sense.zone)
  const others = devicesIn(circuit, device.sense.zone).filter((a) => a !== device)
  return [zone?.normal, zone?.blocked, ...others.flatMap((a) => pointsOf(a).map((p) => p.up))].filter(
    (t) => t !== undefined,
  )
}

function lowestOneShot(circuit: Circuit, device: Actor): Temperature | undefined {
  if (device.sense.by !== 'heat') return undefined
  const temperatures = devicesIn(circuit, device.sense.zone)
    .filter((a) => a !== device && isOneShot(a))
    .flatMap((a) => pointsOf(a).map((p) => p.up))
  return temperatures.toSorted((a, b) => celsius(a) - celsius(b))[0]
}

function clauseWith(places: Parameters<Check>[0]['places'], device: Actor, value: number) {
  const line = places.statements.find(({ line: { tokens } }) => tokens[1]?.text === device.name)?.line
  const at = line?.tokens.findIndex((t) => t.kind === 'word' && Number.parseFloat(t.text) === value) ?? -1
  const word = line?.tokens[at - 1]
  return word ? places.clause(device.name, word.text) : undefined
}
