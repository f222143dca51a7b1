/** Sets that were asked for, smaller first, each in the order of the candidates. */
export interface Found<T> {
  readonly sets: readonly (readonly T[])[]
  /** Whether they are all there are; each question says what exactly it vouches for. */
  readonly complete: boolean
}
