import type { Circuit } from '../../core/circuit/index.ts'

/** Text that is equal for equal circuits: all of the circuit but its places in the netlist. */
export function printOf(circuit: Circuit): string {
  return JSON.stringify(circuit, (key, value) => {
    if (key === 'at') return undefined
    if (value instanceof Map) return [...value]
    return value instanceof Set ? [...value] : value
  })
}
