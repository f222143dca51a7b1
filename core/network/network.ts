/** A complex number, in volts, amperes or ohms. */
export interface Complex {
  readonly re: number
  readonly im: number
}

/** An impedance between two nodes, which are numbered from 0. Ohms; never zero. */
export interface Branch {
  readonly a: number
  readonly b: number
  readonly z: Complex
}

/** A node held at a voltage by an ideal source. */
export interface Held {
  readonly node: number
  readonly v: Complex
}

/** Steady state of a network. */
export interface Solution {
  /**
   * Node voltages, volts. A node of an island that no held node reaches reads 0 + 0j; where current is injected into
   * such an island, its lowest-numbered node does, and takes up whatever the injected currents do not sum to zero by.
   */
  readonly re: Float64Array
  readonly im: Float64Array
  /** Island of each node: 0 reaches a held node, 1… are floating. */
  readonly island: Int32Array
  /** Current through branch `i` of the network, from its `a` to its `b`, amperes; 0 where it was taken out. */
  current(i: number): Complex
}

/** A current driven into a node from outside, amperes. */
export interface Injected {
  readonly node: number
  readonly i: Complex
}

export interface Change {
  /** Indices of branches taken out. */
  readonly without?: readonly number[]
  /** Branches put in besides; `current` does not count them. */
  readonly plus?: readonly Branch[]
  /** Currents driven into nodes besides; into a held node it changes nothing. */
  readonly inject?: readonly Injected[]
}

export interface Network {
  /** Solve with a change, or as it is. Exact: factors again, on the order found once. */
  solve(change?: Change): Solution
}
