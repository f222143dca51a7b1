/** Shares of its rated current at which a coil pulls in, and to which it holds. Common practice, no source. */
export const PULLS_IN = 0.8
export const HOLDS = 0.3
