import { polesOf } from '../circuit/model.ts'
import type { Problem } from '../netlist/tree.ts'
import { abs } from '../network/index.ts'
import type { Settled, Wiring } from '../operate/index.ts'
import { type Check, found, settingText } from './asked.ts'
import { metalFrom } from './metal.ts'

/** Half as much again as it is made for, or less than two thirds: no supply is that far off. */
const TOO_MANY = 1.5
const TOO_FEW = 0.65

/**
 * A load made for other volts than it gets: for 120 and across two legs, or for 240 and never across more than one. The
 * least is asked only of loads that stand between poles with nothing else in the way: in a row with others it is by design.
 */
export const volts: Check = ({ rows, loads, element, name }) =>
  loads.flatMap((i): readonly Problem[] => {
    const e = element(i)
    const rated = e.load?.volts ?? 0
    let most = 0
    let where: { readonly wiring: Wiring; readonly phase: Settled } | undefined
    for (const { wiring, phases } of rows) {
      for (const phase of phases) {
        const across = abs(phase.solved.voltsAcross(i))
        if (abs(phase.solved.ampsThrough(i)) === 0 || across <= most) continue
        most = across
        where = { wiring, phase }
      }
    }
    if (rated === 0 || !where) return []
    if (most > TOO_MANY * rated) {
      return [found('too-many-volts', e.at, name(e), rated, most, settingText(where.phase.setting))]
    }
    if (most < TOO_FEW * rated && acrossPoles(where.wiring, where.phase, i)) {
      return [found('too-few-volts', e.at, name(e), rated, most)]
    }
    return []
  })

/** Whether metal leads from both ends of an element to poles that differ. */
function acrossPoles(wiring: Wiring, { solved }: Settled, i: number): boolean {
  const ways = metalFrom(wiring, solved)
  const [a, b] = wiring.elements[i]?.ends ?? ['', '']
  const at = (end: string) => polesOf(wiring.circuit).find((pole) => ways(end, pole.terminal))
  const [one, other] = [at(a), at(b)]
  return one !== undefined && other !== undefined && (one.re !== other.re || one.im !== other.im)
}
