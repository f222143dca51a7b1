import type { Quantity, QuantityName } from '../netlist/index.ts'

/** Values that can be in a unit, in SI: wide enough for anything real, and nothing the network could not be solved with. */
const RANGES: Partial<Record<QuantityName, readonly [number, number]>> = {
  celsius: [-273.15, 3000],
  minutes: [0, 1e5],
  share: [1e-3, 1],
}
const ELSE = [1e-9, 1e9] as const

/** Whether a part can have that value: nothing has 0 ohm, −240 V or 300 % of what it is rated for. */
export function canBe({ quantity, si }: Quantity): boolean {
  const [least, most] = RANGES[quantity] ?? ELSE
  return si >= least && si <= most
}

const NAMES: Partial<Record<QuantityName, string>> = {
  celsius: 'a temperature',
  share: 'a share in %',
  metres: 'a length',
  gauge: 'a gauge',
}

/** What the quantity is called in a sentence: `amps`, `a temperature`. */
export const quantityText = (name: QuantityName): string => NAMES[name] ?? name
