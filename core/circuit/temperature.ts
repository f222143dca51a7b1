import type { Temperature } from './model.ts'

/** Degrees Celsius, exact for both units. */
export const celsius = ({ value, unit }: Temperature): number => (unit === 'C' ? value : ((value - 32) * 5) / 9)

/** `68 °C`, in the unit it was typed in. */
export const temperatureText = (t: Temperature): string => `${t.value} °${t.unit}`

/** The temperature that a position of a control is: `150C`, `300F`, `150 °C`. */
export function temperatureWord(text: string): Temperature | undefined {
  const found = /^(\d+(?:\.\d+)?)\s*°?([CF])$/.exec(text)
  return found ? { value: Number(found[1]), unit: found[2] === 'F' ? 'F' : 'C' } : undefined
}
