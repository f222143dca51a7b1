import type { Driver, Figure, Stroke } from './model.ts'

/**
 * Bodies that more than one kind shares, drawn by us on the 8 px grid: shapes after IEC 60617, and where users of IEEE 315
 * know another, that beside it. Both from memory of the standards.
 */

const line = (d: string): Stroke => ({ d, style: 'line' })
const thin = (d: string): Stroke => ({ d, style: 'thin' })
const paper = (d: string): Stroke => ({ d, style: 'paper' })
const blade = (d: string): Stroke => ({ d, style: 'blade' })
const letter = (d: string): Stroke => ({ d, style: 'line', letter: true })
const circle = (r: number, x = 0): string => `M${x - r} 0a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0z`
const box = (w: number, h: number): string => `M${-w / 2} ${-h / 2}h${w}v${h}h${-w}z`

/**
 * A contact that `by` works. Whether it rests closed follows from its laws, and is put in once every line has been read:
 * they may speak of what a later line brings.
 */
export const contactFigure = (by: Driver): Figure => ({ kind: 'contact', rest: 'open', by })
export const bodyFigure = (half: number, ...strokes: readonly Stroke[]): Figure => ({ kind: 'body', half, strokes })

/** `figure`, with a body of its own in the set after IEEE 315. */
export const alsoIeee = (figure: Figure, half: number, ...strokes: readonly Stroke[]): Figure =>
  figure.kind === 'body' ? { ...figure, ieee: { half, strokes } } : figure

const zigzag = 'M-20 0l3.3 -8l6.7 16l6.7 -16l6.7 16l6.7 -16l6.6 16l3.3 -8'
const wave = 'M-15 0a7.5 8 0 0 1 15 0a7.5 8 0 0 0 15 0'

export const fuseFigure = alsoIeee(
  bodyFigure(18, paper(box(36, 16)), line('M-18 0H18')),
  20,
  paper(circle(2.5, -17.5)),
  paper(circle(2.5, 17.5)),
  line(wave),
)
export const resistorFigure = alsoIeee(bodyFigure(20, paper(box(40, 16))), 20, line(zigzag))
export const heaterFigure = alsoIeee(
  bodyFigure(20, paper(box(40, 18)), line('M-12 -9V9M-4 -9V9M4 -9V9M12 -9V9')),
  24,
  line('M-24 0l3 -11l6 22l6 -22l6 22l6 -22l6 22l6 -22l6 22l3 -11'),
)
/** A hot-surface igniter. */
export const igniterFigure = alsoIeee(
  bodyFigure(20, line('M-20 0L-14 -9L-6 9L2 -9L10 9L16 -9L20 0')),
  22,
  paper(box(44, 24)),
  line('M-22 0h4l3 -7l6 14l6 -14l6 14l6 -14l6 14l3 -7h4'),
)
export const sensorFigure = alsoIeee(
  bodyFigure(20, paper(box(40, 16)), thin('M-24 14H-16L18 -16')),
  20,
  line(zigzag),
  thin('M-24 16H-16L16 -16'),
)
const arcs = 'M-24 0a6 7 0 0 1 12 0a6 7 0 0 1 12 0a6 7 0 0 1 12 0a6 7 0 0 1 12 0'
export const windingFigure = bodyFigure(24, line(arcs))
/** A winding on its core: another stands on the far side of it. */
export const coreWindingFigure = bodyFigure(24, line(arcs), thin('M-24 6H24M-24 10H24'))
export const capacitorFigure = alsoIeee(
  bodyFigure(4, blade('M-4 -14V14'), blade('M4 -14V14')),
  4,
  blade('M-4 -14V14'),
  blade('M9 -14Q-1 0 9 14'),
)
export const rectifierFigure = alsoIeee(
  bodyFigure(10, paper('M-8 -10V10L10 0z'), line('M-10 0H-8M10 -10V10')),
  10,
  { d: 'M-8 -10V10L10 0z', style: 'fill' },
  line('M-10 0H-8M10 -10V10'),
)
export const pinFigure = alsoIeee(
  bodyFigure(14, { d: 'M-14 -4h18v8h-18z', style: 'fill' }, line('M12 -10A11 11 0 0 0 12 10M1 0H14')),
  12,
  line('M-12 0H2M-6 -8L2 0L-6 8M4 -8L12 0L4 8'),
)
export const boardFigure = bodyFigure(24, paper(box(48, 28)), line('M-24 -7H-16M-24 7H-16M24 -7H16M24 7H16'))
export const coilFigure = alsoIeee(
  bodyFigure(10, paper(box(20, 36))),
  16,
  paper(circle(16)),
  letter('M-2.5 -4a4.5 6 0 1 0 0 8'),
  letter('M2.5 6V-6h4a3 3.2 0 0 1 0 6.4h-4M5.5 0.4L9.5 6'),
)
/** A solenoid that moves a valve. */
export const valveFigure = alsoIeee(
  bodyFigure(10, paper('M-10 -18h20v36h-20z'), thin('M-10 10L10 18M-10 18L10 10')),
  16,
  paper(circle(16)),
  letter('M-2 -4.5C-4 -7 -9.5 -6 -9 -3C-8.5 -0.5 -2 -0.5 -2 3C-2 6.5 -7 7 -9.5 4'),
  letter('M1.5 -6L5.5 6L9.5 -6'),
)
export const overloadFigure = alsoIeee(
  bodyFigure(16, paper(box(32, 20)), line('M-16 0H-6V-6H6V0H16')),
  16,
  line('M-16 0C-16 -14 -3 -14 -3 -3M16 0C16 14 3 14 3 3'),
)
export const lampFigure = alsoIeee(
  bodyFigure(14, paper(circle(14)), line('M-9.9 -9.9L9.9 9.9M-9.9 9.9L9.9 -9.9')),
  13,
  paper(circle(13)),
  letter('M-3.5 -7V6.5H4.5'),
  line('M-9.5 -9.5L-13 -13M9.5 -9.5L13 -13M-9.5 9.5L-13 13M9.5 9.5L13 13'),
)
export const timerMotorFigure = alsoIeee(
  bodyFigure(17, paper(circle(17)), letter('M-7 9V-3L0 4L7 -3V9'), {
    d: 'M-4 -9H4M0 -9V-5',
    style: 'thin',
    letter: true,
  }),
  17,
  paper(circle(17)),
  letter('M-11 -6H-3M-7 -6V6M0 6V-6L5 2L10 -6V6'),
)
