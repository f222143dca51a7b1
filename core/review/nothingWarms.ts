import { type Check, found } from './asked.ts'
import { devicesIn } from './heat.ts'

/** A zone with thermal devices, and no heater that warms it. */
export const nothingWarms: Check = ({ circuit, places }) =>
  [...circuit.zones.values()].flatMap((zone) => {
    const devices = devicesIn(circuit, zone.name).map((a) => a.name)
    return zone.warmsWith.length > 0 || devices.length === 0
      ? []
      : [found('nothing-warms', places.line('zone', zone.name), zone.name, devices)]
  })
