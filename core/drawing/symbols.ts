import type { Driver, Figure, Stroke } from '../circuit/model.ts'
import { circle, line, num, path, rect } from './ink.ts'

/**
 * Symbols after the shapes of IEC 60617, drawn by us on an 8 px grid: an element is 64 wide, its line through (0, 0), its
 * leads end at ±32. The hinge of a contact is a dot at −16; where it closes stands a ring if it rests open, a tick if it
 * rests closed. What works it rides on the blade; heat is a square below it, solid when it works once.
 */

/** `wide` is a gap held open, drawn wider than a contact that merely rests open. */
export type BladeState = 'closed' | 'open' | 'wide'

/** How wires stand at the two ends, which the leads continue. */
export type LeadState = 'live' | 'fed' | 'dead' | 'grounded'

const tips = {
  open: { closed: [20, -3], open: [12, -14], wide: [5, -21] },
  closed: { closed: [21, -8], open: [8, -19], wide: [4, -22] },
} as const

/** The symbol of an element, about (0, 0). Mirrored bodies are those drawn right to left, so that a diode keeps its way. */
export function symbol(
  figure: Figure,
  blade: BladeState,
  left: LeadState,
  right: LeadState,
  mirrored: boolean,
): string {
  switch (figure.kind) {
    case 'contact':
      return contact(figure.rest, figure.by, blade, left, right)
    case 'body': {
      const body = figure.strokes.map(drawStroke).join('')
      return (
        lead(-32, -figure.half, left) +
        lead(figure.half, 32, right) +
        (mirrored ? `<g transform="scale(-1 1)">${body}</g>` : body)
      )
    }
    case 'source':
      return lead(-32, -14, left) + lead(14, 32, right) + circle(0, 0, 14, 's paper') + path('M-8 0q4 -8 8 0t8 0', 's')
    case 'wire':
      return lead(-32, 32, left)
  }
}

const strokes: Readonly<Record<Stroke['style'], string>> = {
  line: 's',
  thin: 'thin',
  paper: 's paper',
  fill: 'fill',
  blade: 'blade',
}

function drawStroke(s: Stroke): string {
  return path(s.d, strokes[s.style])
}

function lead(x1: number, x2: number, state: LeadState, y = 0): string {
  return line(x1, y, x2, y, `lead ${state}`)
}

function contact(rest: 'open' | 'closed', by: Driver, blade: BladeState, left: LeadState, right: LeadState): string {
  const [x, y] = tips[rest][blade]
  const mx = (x - 16) / 2
  const my = y / 2
  const fixed =
    rest === 'open' ? lead(19, 32, right) + circle(16, 0, 3, 's paper') : lead(16, 32, right) + path('M16 0V-12', 's')
  return (
    lead(-32, -16, left) + fixed + driver(by, mx, my) + path(`M-16 0L${x} ${y}`, 'blade') + circle(-16, 0, 3.2, 'fill')
  )
}

/** What works a contact, where it meets the blade at (mx, my). */
export function driver(by: Driver, mx: number, my: number): string {
  const top = my - 9
  const m = num(mx)
  const t = num(top)
  const link = path(`M${m} ${num(my)}V${t}`, 'link')
  switch (by) {
    case 'hand':
      return ''
    case 'heat':
    case 'heat-reset':
    case 'heat-once': {
      const once = by === 'heat-once'
      const theta = once ? 'thin onink' : 'thin'
      return (
        path(`M${m} ${num(my)}V6`, 'link') +
        rect(-7, 6, 14, 15, once ? 'fill' : 's paper') +
        `<g class="glyph"><ellipse class="${theta}" cx="0" cy="13.5" rx="3.2" ry="4.8"/>${path('M-3.2 13.5H3.2', theta)}</g>` +
        (by === 'heat-reset' ? path('M0 21V25M-6 25H6', 's') : '')
      )
    }
    case 'dial':
      return link + path(`M${num(mx - 7)} ${t}a7 7 0 0 1 14 0z`, 's paper')
    case 'door':
      return link + circle(mx, top - 4, 4, 's paper')
    case 'pressure':
      return link + path(`M${num(mx - 8)} ${t}q8 -10 16 0z`, 's paper')
    case 'relay':
      return link + rect(mx - 8, top - 7, 16, 8, 's paper')
    case 'push':
      return link + path(`M${num(mx - 9)} ${num(top + 3)}V${num(top - 3)}H${num(mx + 9)}V${num(top + 3)}`, 's')
    case 'speed':
      return (
        link +
        path(`M${num(mx - 8)} ${num(top - 2)}H${num(mx + 8)}`, 's') +
        circle(mx - 8, top - 2, 3, 'fill') +
        circle(mx + 8, top - 2, 3, 'fill')
      )
  }
}

/**
 * A changeover: one blade between a throw on the line and another below it, whose lead runs down to `drop`. Drawn with the
 * hinge at the left; mirror it for a hinge at the right.
 */
export function changeover(
  figure: Figure,
  to: 'first' | 'other' | 'neither',
  drop: number,
  states: { readonly hinge: LeadState; readonly first: LeadState; readonly other: LeadState },
): string {
  const by = figure.kind === 'contact' ? figure.by : 'hand'
  const [x, y] = to === 'first' ? [20, -3] : to === 'other' ? [19, 22] : [22, 10]
  const heat = by === 'heat' || by === 'heat-once' || by === 'heat-reset'
  // Heat sits above the blade here: the other throw is below.
  const works = heat
    ? path(`M${num((x - 16) / 2)} ${num(y / 2)}V-6`, 'link') +
      `<g transform="translate(0 -27)">${driver(by, 0, 33).replace(/<path class="link"[^>]*>/, '')}</g>`
    : driver(by, (x - 16) / 2, Math.min(y / 2, -1))
  return (
    lead(-32, -16, states.hinge) +
    lead(19, 32, states.first) +
    path(`M16 27V${num(drop)}H32`, `lead ${states.other}`) +
    circle(16, 0, 3, 's paper') +
    circle(16, 24, 3, 's paper') +
    works +
    path(`M-16 0L${x} ${y}`, 'blade') +
    circle(-16, 0, 3.2, 'fill')
  )
}

export const splice = (x: number, y: number): string => path(`M${num(x - 7)} ${num(y)}l7 -7l7 7l-7 7z`, 's paper')
export const chassisSymbol = (x: number, y: number): string =>
  path(`M${num(x)} ${num(y)}v10m-14 0h28m-26 8l4 -8m8 8l4 -8m8 8l4 -8`, 's')

const colourCode = /^[A-Z]{2}$/

/** Insulation colour: a small chip, a stripe through its middle; always beside its letters. Unknown letters stay blank. */
export function swatch(x: number, y: number, colour: string, width = 12, height = 8): string {
  const l = x - width / 2
  const t = y - height / 2
  if (colour === 'GNYE') {
    return (
      rect(l, t, width, height, 'c-GN') +
      path(
        `M${num(l)} ${num(t + height)}L${num(x - 1)} ${num(t)}H${num(l + width - 1)}L${num(x + 1)} ${num(t + height)}z`,
        'c-YE',
      ) +
      rect(l, t, width, height, 'swline')
    )
  }
  const [base = '', stripe = ''] = colour.split('/')
  const one = colourCode.test(base) ? `c-${base}` : 'paper0'
  const two = colourCode.test(stripe) ? rect(l, y - 1.5, width, 3, `c-${stripe}`) : ''
  return rect(l, t, width, height, one) + two + rect(l, t, width, height, 'swline')
}
