import type { Complex } from './network.ts'

export const zero: Complex = { re: 0, im: 0 }

export function add(x: Complex, y: Complex): Complex {
  return { re: x.re + y.re, im: x.im + y.im }
}

export function sub(x: Complex, y: Complex): Complex {
  return { re: x.re - y.re, im: x.im - y.im }
}

export function mul(x: Complex, y: Complex): Complex {
  return { re: x.re * y.re - x.im * y.im, im: x.re * y.im + x.im * y.re }
}

/** x / y. The textbook formula: ohms and volts stay far from where squares over- or underflow. */
export function div(x: Complex, y: Complex): Complex {
  const square = y.re * y.re + y.im * y.im
  return { re: (x.re * y.re + x.im * y.im) / square, im: (x.im * y.re - x.re * y.im) / square }
}

/** Magnitude: what a meter shows of a voltage or a current. */
export function abs(x: Complex): number {
  return Math.hypot(x.re, x.im)
}
