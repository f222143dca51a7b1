import type { Actor, Circuit, Needs, Setting, Zone } from '../circuit/model.ts'
import { needsHold } from '../circuit/needs.ts'
import type { Problem } from '../netlist/tree.ts'
import { operate, type Settled, type Wiring } from '../operate/index.ts'
import { needIn } from '../operate/operate.ts'
import { type Check, found, settingText } from './asked.ts'
import { devicesIn, isOneShot, movesOf } from './heat.ts'

/**
 * A load that goes on heating a zone when every device that should stop it has opened: their string, and the strings of
 * what must work first, lie elsewhere. Asked of the machine itself: hold the devices open, and operate it.
 */
export const unprotected: Check = ({ circuit, rows, name }) =>
  [...circuit.zones.values()].flatMap((zone): readonly Problem[] => {
    const devices = protectionOf(circuit, zone)
    // What moves inside a part by its own heat protects nothing.
    if (devices.length === 0 || zone.inside) return []
    const opened = Object.fromEntries(devices.map((d) => [d.name, d.states[1]]))
    return zone.warmsWith.flatMap((alternative) => {
      const warms = (wiring: Wiring) => (phase: Settled) => needsHold([alternative], needIn(wiring, phase))
      for (const { wiring, phases, setting } of rows) {
        if (!phases.some(warms(wiring))) continue
        const without = operate(circuit, maintained(circuit, setting), { forced: opened })
        if (!without.phases.some(warms(without.wiring))) continue
        const load = nameOf(circuit, alternative, name)
        const names = devices.map((d) => d.name)
        return load ? [found('unprotected', load.at, load.name, zone.name, names, settingText(setting))] : []
      }
      return []
    })
  })

/** What opens for good in a zone; where nothing does, whatever opens on rise. */
function protectionOf(circuit: Circuit, zone: Zone): readonly Actor[] {
  const opening = devicesIn(circuit, zone.name).filter((a) => movesOf(circuit, a).opens)
  const oneShot = opening.filter(isOneShot)
  return oneShot.length > 0 ? oneShot : opening
}

const maintained = (circuit: Circuit, setting: Setting): Setting =>
  Object.fromEntries(Object.entries(setting).filter(([control]) => !circuit.controls.get(control)?.springsBack))

function nameOf(circuit: Circuit, needs: Needs[number], name: Parameters<Check>[0]['name']) {
  for (const need of needs) {
    if ('load' in need) {
      const e = circuit.elements.get(need.load)
      if (e) return { at: e.at, name: name(e) }
    } else {
      const at = circuit.parts.get(circuit.actors.get(need.is.of)?.part ?? '')?.at
      if (at) return { at, name: need.is.of }
    }
  }
  return undefined
}
