import type { Driver, Figure, Stroke } from '../circuit/model.ts'
import { circle, line, num, path, rect } from './ink.ts'

/**
 * Symbols after the shapes of IEC 60617 or of IEEE 315, both from memory of the standards, drawn by us on an 8 px grid: an
 * element is 64 wide, its line through (0, 0), its leads end at ±32.
 *
 * IEC: the hinge of a contact is a dot at −16; where it closes stands a ring if it rests open, a tick if it rests closed.
 * What works it rides on the blade; heat is a square below it, solid when it works once.
 * IEEE: a ring at both ends; the blade lies on the far ring if it rests closed, below it if it rests open, so that what
 * works it pushes up. A button is a bar over or under the rings. A relay's contact is two bars, struck through if it
 * rests closed. Heat is a bent strip below the blade.
 *
 * In both what stands away from its rest shows it: a hot strip has an arrow up, anything else is filled or has moved.
 */
export type SymbolSet = 'iec' | 'ieee'

/** `wide` is a gap held open, drawn wider than a contact that merely rests open. */
export type BladeState = 'closed' | 'open' | 'wide'

/** How wires stand at the two ends, which the leads continue. */
export type LeadState = 'live' | 'fed' | 'dead' | 'grounded'

/** How one element stands. */
export interface Stand {
  readonly blade: BladeState
  readonly left: LeadState
  readonly right: LeadState
  /** Drawn right to left, so that a diode keeps its way. */
  readonly mirrored?: boolean
  /** A load at work: drawn heavier. */
  readonly on?: boolean
  readonly set?: SymbolSet
}

const tips = {
  open: { closed: [20, -3], open: [12, -14], wide: [5, -21] },
  closed: { closed: [21, -8], open: [8, -19], wide: [4, -22] },
} as const

/** The symbol of an element, about (0, 0). */
export function symbol(figure: Figure, stand: Stand): string {
  const { left, right } = stand
  switch (figure.kind) {
    case 'contact': {
      if (stand.set !== 'ieee') return contact(figure.rest, figure.by, stand)
      if (figure.by === 'relay') return bars(figure.rest, stand)
      return figure.by === 'push' ? bridge(figure.rest, stand) : rings(figure.rest, figure.by, stand)
    }
    case 'body': {
      const { half, strokes } = (stand.set === 'ieee' && figure.ieee) || figure
      const ink = strokes.map((s) => drawStroke(s, stand.mirrored === true)).join('')
      const body = stand.mirrored ? `<g transform="scale(-1 1)">${ink}</g>` : ink
      return lead(-32, -half, left) + lead(half, 32, right) + (stand.on ? `<g class="on">${body}</g>` : body)
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

/** A letter reads the right way round on a mirrored body too. */
function drawStroke(s: Stroke, mirrored: boolean): string {
  const ink = path(s.d, strokes[s.style])
  return s.letter ? `<g class="letter">${mirrored ? `<g transform="scale(-1 1)">${ink}</g>` : ink}</g>` : ink
}

function lead(x1: number, x2: number, state: LeadState, y = 0): string {
  return line(x1, y, x2, y, `lead ${state}`)
}

/** Away from the rest it was drawn for. */
const hasActed = (rest: 'open' | 'closed', blade: BladeState): boolean => (blade === 'closed') !== (rest === 'closed')

function contact(rest: 'open' | 'closed', by: Driver, { blade, left, right }: Stand): string {
  const [x, y] = tips[rest][blade]
  const fixed =
    rest === 'open' ? lead(19, 32, right) + circle(16, 0, 3, 's paper') : lead(16, 32, right) + path('M16 0V-12', 's')
  return (
    lead(-32, -16, left) +
    fixed +
    driver(by, (x - 16) / 2, y / 2, hasActed(rest, blade)) +
    path(`M-16 0L${x} ${y}`, 'blade') +
    circle(-16, 0, 3.2, 'fill')
  )
}

/** Drivers that are filled while they are away from rest. */
export const fills: ReadonlySet<Driver> = new Set(['door', 'pressure', 'float', 'flow', 'relay'])

/** What works a contact, where it meets the blade at (mx, my). */
export function driver(by: Driver, mx: number, my: number, acted: boolean): string {
  const top = my - 9
  const m = num(mx)
  const t = num(top)
  const link = path(`M${m} ${num(my)}V${t}`, 'link')
  const look = acted ? 'fill' : 's paper'
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
        (by === 'heat-reset' ? path('M0 21V25M-6 25H6', 's') : '') +
        (acted && !once ? hot(13, 20) : '')
      )
    }
    case 'dial':
      return link + path(`M${num(mx - 7)} ${t}a7 7 0 0 1 14 0z`, 's paper')
    case 'door':
      return link + circle(mx, top - (acted ? 2 : 4), 4, look)
    case 'pressure':
      return link + path(`M${num(mx - 8)} ${t}q8 -10 16 0z`, look)
    case 'float':
      return link + path(`M${num(mx - 9)} ${t}q4.5 3 9 0t9 0`, 's') + circle(mx, top - 4.5, 4, look)
    case 'flow':
      return link + path(`M${m} ${t}v-8l9 4z`, look)
    case 'relay':
      return link + rect(mx - 8, top - 7, 16, 8, look)
    case 'push': {
      const cap = acted ? top + 3 : top
      return link + path(`M${num(mx - 9)} ${num(cap + 3)}V${num(cap - 3)}H${num(mx + 9)}V${num(cap + 3)}`, 's')
    }
    case 'speed': {
      const out = acted ? 10 : 6
      return link + path(`M${num(mx - out)} ${num(top - 2)}H${num(mx + out)}`, 's') + weights(mx, top - 2, out)
    }
  }
}

const weights = (x: number, y: number, out: number): string =>
  circle(x - out, y, 3, 'fill') + circle(x + out, y, 3, 'fill')
/** Above the point it opens or closes at. */
export const hot = (x: number, y: number): string => path(`M${num(x)} ${num(y)}v-12m-3.5 3.5l3.5 -3.5l3.5 3.5`, 'thin')

const ring = (x: number, y = 0): string => circle(x, y, 3.5, 's paper')

const worksFromAbove = (by: Driver): boolean => by === 'hand' || by === 'dial'

/** IEEE 315: a blade between two rings. */
function rings(rest: 'open' | 'closed', by: Driver, { blade, left, right }: Stand): string {
  const above = rest === 'closed' || worksFromAbove(by)
  const [x, y] = above
    ? ({ closed: [20, -5], open: [12, -15], wide: [5, -21] } as const)[blade]
    : ({ closed: [20, 5], open: [13, 13], wide: [8, 17] } as const)[blade]
  const from = above ? -2.5 : 2.5
  return (
    lead(-32, -19.5, left) +
    lead(19.5, 32, right) +
    path(`M-16 ${from}L${x} ${y}`, 'blade') +
    worker(by, (x - 16) / 2, (from + y) / 2, hasActed(rest, blade)) +
    ring(-16) +
    ring(16)
  )
}

/** What works a blade between rings, where it meets it. Hands work from above, all else pushes from below. */
function worker(by: Driver, mx: number, my: number, acted: boolean): string {
  const m = num(mx)
  const look = acted ? 'fill' : 's paper'
  if (worksFromAbove(by)) return driver(by, mx, my, acted)
  const link = path(`M${m} ${num(my)}V13`, 'link')
  switch (by) {
    case 'heat':
    case 'heat-reset':
    case 'heat-once':
      return (
        path(`M${m} ${num(my)}V12H${num(mx - 5)}V16H${num(mx + 5)}V20H${m}V22`, 's') +
        (by === 'heat-once' ? rect(mx - 3, 20, 6, 6, 'fill') : '') +
        (by === 'heat-reset' ? path(`M${num(mx - 6)} 23.5H${num(mx + 6)}`, 's') : '') +
        (acted && by !== 'heat-once' ? hot(mx + 12, 22) : '')
      )
    case 'door':
      return path(`M${m} ${num(my + 1)}l-5 9h10z`, look)
    case 'pressure':
      return link + path(`M${num(mx - 8)} 20.5a8 8 0 0 1 16 0z`, look)
    case 'float':
      return link + circle(mx, 18, 4.5, look)
    case 'flow':
      return link + path(`M${m} 13v9l9 -4.5z`, look)
    case 'speed': {
      const out = acted ? 10 : 6
      return link + path(`M${num(mx - out)} 18H${num(mx + out)}M${m} 13V18`, 's') + weights(mx, 18, out)
    }
    default:
      return ''
  }
}

/** IEEE 315: a button's bar over two rings, or under them where it rests closed. */
function bridge(rest: 'open' | 'closed', { blade, left, right }: Stand): string {
  const side = rest === 'open' ? -1 : 1
  const y = side * { closed: 5, open: 11, wide: 16 }[blade]
  const head = Math.min(y, 0) - (hasActed(rest, blade) ? 6 : 9)
  return (
    lead(-32, -19.5, left) +
    lead(19.5, 32, right) +
    ring(-16) +
    ring(16) +
    path(`M-20 ${y}H20`, 'blade') +
    path(`M0 ${y}V${head}M-6 ${head}H6`, 's')
  )
}

/** IEEE 315, as ladders have it: two bars, struck through where they rest closed. The blade joins them when closed. */
function bars(rest: 'open' | 'closed', { blade, left, right }: Stand): string {
  // Held open they stand farther apart.
  const x = blade === 'wide' ? 11 : 7
  const strike = { closed: 'M-11 12L11 -12', open: 'M-11 12L-3 -12', wide: 'M-15 12L-12 -16' }[blade]
  return (
    lead(-32, -x, left) +
    lead(x, 32, right) +
    path(`M${-x} -13V13M${x} -13V13`, 's') +
    (rest === 'closed' ? path(strike, 'blade') : blade === 'closed' ? path('M-7 0H7', 'blade') : '')
  )
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
  set: SymbolSet = 'iec',
): string {
  const by = figure.kind === 'contact' ? figure.by : 'hand'
  const rest = figure.kind === 'contact' ? figure.rest : 'open'
  const acted = (to === 'first') !== (rest === 'closed')
  const [x, y] = to === 'first' ? [20, -3] : to === 'other' ? [19, 22] : [22, 10]
  const heat = by === 'heat' || by === 'heat-once' || by === 'heat-reset'
  // Heat sits above the blade here: the other throw is below.
  const works = heat
    ? path(`M${num((x - 16) / 2)} ${num(y / 2)}V-6`, 'link') +
      `<g transform="translate(0 -27)">${driver(by, 0, 33, acted).replace(/<path class="link"[^>]*>/, '')}</g>`
    : driver(by, (x - 16) / 2, Math.min(y / 2, -1), acted)
  return (
    lead(-32, -16, states.hinge) +
    lead(19, 32, states.first) +
    path(`M16 27V${num(drop)}H32`, `lead ${states.other}`) +
    circle(16, 0, 3, 's paper') +
    circle(16, 24, 3, 's paper') +
    works +
    path(`M-16 0L${x} ${y}`, 'blade') +
    (set === 'ieee' ? ring(-16) : circle(-16, 0, 3.2, 'fill'))
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
