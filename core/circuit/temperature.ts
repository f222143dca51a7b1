import type { Temperature } from './model.ts'

/** Degrees Celsius, exact for both units. */
export const celsius = ({ value, unit }: Temperature): number => (unit === 'C' ? value : ((value - 32) * 5) / 9)

/** `68 °C`, in the unit it was typed in. */
export const temperatureText = (t: Temperature): string => `${t.value} °${t.unit}`
