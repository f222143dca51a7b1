import type { Driver, Figure, Stroke } from './model.ts'

/** Bodies that more than one kind shares. Shapes after IEC 60617, drawn on the 8 px grid. */

const line = (d: string): Stroke => ({ d, style: 'line' })
const paper = (d: string): Stroke => ({ d, style: 'paper' })
const circle = (r: number): string => `M${-r} 0a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0z`
const box = (w: number, h: number): string => `M${-w / 2} ${-h / 2}h${w}v${h}h${-w}z`

/**
 * A contact that `by` works. Whether it rests closed follows from its laws, and is put in once every line has been read:
 * they may speak of what a later line brings.
 */
export const contactFigure = (by: Driver): Figure => ({ kind: 'contact', rest: 'open', by })
export const bodyFigure = (half: number, ...strokes: readonly Stroke[]): Figure => ({ kind: 'body', half, strokes })

export const fuseFigure = bodyFigure(18, paper(box(36, 16)), line('M-18 0H18'))
export const resistorFigure = bodyFigure(20, paper(box(40, 16)))
export const heaterFigure = bodyFigure(20, paper(box(40, 18)), line('M-12 -9V9M-4 -9V9M4 -9V9M12 -9V9'))
export const windingFigure = bodyFigure(24, line('M-24 0a6 7 0 0 1 12 0a6 7 0 0 1 12 0a6 7 0 0 1 12 0a6 7 0 0 1 12 0'))
export const capacitorFigure = bodyFigure(4, { d: 'M-4 -14V14', style: 'blade' }, { d: 'M4 -14V14', style: 'blade' })
export const rectifierFigure = bodyFigure(10, paper('M-8 -10V10L10 0z'), line('M-10 0H-8M10 -10V10'))
export const pinFigure = bodyFigure(
  14,
  { d: 'M-14 -4h18v8h-18z', style: 'fill' },
  line('M12 -10A11 11 0 0 0 12 10M1 0H14'),
)
export const boardFigure = bodyFigure(24, paper(box(48, 28)), line('M-24 -7H-16M-24 7H-16'))
export const coilFigure = bodyFigure(10, paper(box(20, 36)))
export const overloadFigure = bodyFigure(16, paper(box(32, 20)), line('M-16 0H-6V-6H6V0H16'))
export const lampFigure = bodyFigure(14, paper(circle(14)), line('M-9.9 -9.9L9.9 9.9M-9.9 9.9L9.9 -9.9'))
export const timerMotorFigure = bodyFigure(17, paper(circle(17)), line('M-7 9V-3L0 4L7 -3V9'), {
  d: 'M-4 -9H4M0 -9V-5',
  style: 'thin',
})
