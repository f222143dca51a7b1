/** Throw naming the broken promise unless `holds`: for our own mistakes, never for the user's. */
export function invariant(holds: unknown, promise: string): asserts holds {
  if (!holds) throw new Error(`Broken promise: ${promise}`)
}
