import { expect, test } from 'vitest'
import { catalogue } from '../circuit/catalogue.ts'
import { readCircuit } from '../circuit/index.ts'
import type { Element, Figure } from '../circuit/model.ts'
import { at, rect, text } from './ink.ts'
import { drawingCss, ownTokens } from './style.ts'
import { type BladeState, changeover, type SymbolSet, symbol } from './symbols.ts'

/** What the examples of the kinds speak of. */
const around = `
supply split-phase 240 V 60 Hz by cord
control knob off, low, high
control temp off, 150C, 200C
control water empty, full
control pilot out, lit
control start released, held springs back
control door shut, open
control laundry wet, dry
control dial off, timed, cool-down
control call none, heat
heater IX 100 ohm
valve V1 120 V
  coil 1-2 1 kohm
drive drum turned by M
airflow duct moved by M
`
/** Lines under an example that bring its elements. */
const under: Readonly<Record<string, string>> = {
  'cycle-switch': '  chart dial off timed cool-down\n    A-B "motor" o x x',
  selector: '  chart dial off timed cool-down\n    A-B "motor" o x x',
  motor:
    '  winding main 4-5 2.4 ohm\n  winding start 3-5 3.1 ohm\n  contact run 1-2 closed at speed\n  contact aux 4-3 closed at rest\n  overload 5-6\n  capacitor 7-8 30 uF',
  relay: '  coil 1-2 24 V 100 ohm\n  contact 3-4 closed when in\n  contact 5-6 closed when out',
  contactor: '  coil 1-2 24 V 100 ohm\n  contact 3-4 closed when in',
  transformer: '  primary 1-2 120 V 30 ohm\n  secondary R-C 24 V 2 ohm',
  overload: '  through 1-2\n  contact 3-4 closed when closed',
  'manual-reset': '  pole 1-2\n  pole 3-4',
  'door-lock': '  contact 3-4 closed when locked',
}

interface Shown {
  readonly names: string[]
  readonly element: Element
}

/** Every figure that a kind brings, once, with the kinds it stands for. */
function everyFigure(): Shown[] {
  const shown = new Map<string, Shown>()
  for (const kind of catalogue) {
    const { circuit } = readCircuit(`${around}\n${kind.example}\n${under[kind.word] ?? ''}`)
    const named = /^\S+ (\w+)/.exec(kind.example)?.[1] ?? ''
    const part = [...circuit.parts.values()].find((p) => p.kind === kind.word && p.name === named)
    for (const id of part?.elements ?? []) {
      const element = circuit.elements.get(id)
      // A thermopile is drawn as the rails of a supply.
      if (!element || element.figure.kind === 'source') continue
      const key = JSON.stringify([element.figure, element.throwOf === undefined && isBlade(element, circuit.elements)])
      const found = shown.get(key)
      if (!found) shown.set(key, { names: [kind.word], element })
      else if (!found.names.includes(kind.word)) found.names.push(kind.word)
    }
  }
  return [...shown.values()]
}

function isBlade(element: Element, all: ReadonlyMap<string, Element>): boolean {
  return [...all.values()].some((e) => e.throwOf === element.id)
}

const figures = everyFigure()

test('every kind of part brings a figure', () => {
  const shown = new Set(figures.flatMap((f) => f.names))
  const bare = [
    'unit',
    'supply',
    'area',
    'control',
    'colours',
    'assembly',
    'terminal-block',
    'splice',
    'drive',
    'burner',
  ]
  const none = [...bare, 'airflow', 'zone', 'run', 'wire', 'strap', 'priors', 'thermopile']
  expect(catalogue.map((k) => k.word).filter((w) => !shown.has(w) && !none.includes(w))).toEqual([])
})

const blades: readonly BladeState[] = ['closed', 'open', 'wide']

function states(figure: Figure, set: SymbolSet): [string, string][] {
  const stand = { left: 'fed', right: 'fed', set } as const
  if (figure.kind === 'contact') return blades.map((blade) => [blade, symbol(figure, { ...stand, blade })])
  return [
    ['at rest', symbol(figure, { ...stand, blade: 'closed' })],
    ['at work', symbol(figure, { ...stand, blade: 'closed', left: 'live', right: 'live', on: true })],
    ['turned', symbol(figure, { ...stand, blade: 'closed', mirrored: true })],
  ]
}

/** All figures in all states on one sheet. */
function sheet(set: SymbolSet): string {
  const across = 3
  const width = 420
  const high = 96
  const cells = figures.map(({ names, element: { figure } }, i) => {
    const what = figure.kind === 'contact' ? `${figure.by}, rests ${figure.rest}` : ''
    const drawn = states(figure, set).map(
      ([words, ink], k) => at(70 + k * 120, 34, ink) + text(70 + k * 120, 72, words, 'tag'),
    )
    const y = 20 + Math.floor(i / across) * high
    return at(
      (i % across) * width,
      y,
      `${drawn.join('')}${text(10, 0, `${names.join(', ')} ${what}`, 'note', 'start')}`,
    )
  })
  const blade = { kind: 'contact', rest: 'open', by: 'door' } as const
  const ways = (['heat', 'dial', 'float', 'door'] as const).flatMap((by) =>
    (['first', 'other', 'neither'] as const).map((to) =>
      changeover({ ...blade, by }, to, 44, { hinge: 'fed', first: 'fed', other: 'fed' }, set),
    ),
  )
  const top = 20 + Math.ceil(figures.length / across) * high
  const throws = ways.map((ink, i) => at(60 + i * 100, top + 50, ink))
  const size = { width: across * width, height: top + 120 }
  return `<svg xmlns="http://www.w3.org/2000/svg" class="sheet" role="img" aria-label="Symbols of every kind in every state, ${set}" width="${size.width}" height="${size.height}" viewBox="0 0 ${size.width} ${size.height}"><style>${ownTokens('light')}${drawingCss}</style>${rect(0, 0, size.width, size.height, 'sheetfill')}
${[...cells, ...throws].join('\n')}
</svg>
`
}

test.each(['iec', 'ieee'] as const)('the symbols of %s', async (set) => {
  await expect(sheet(set)).toMatchFileSnapshot(`golden/symbols, ${set}.svg`)
})

test('each state of each figure looks different, in both sets', () => {
  for (const set of ['iec', 'ieee'] as const)
    for (const { names, element } of figures) {
      const [a, b, c] = states(element.figure, set).map(([, ink]) => ink)
      if (element.figure.kind === 'contact') expect(new Set([a, b, c]).size, names.join()).toBe(3)
      else if (element.load) expect(a, names.join()).not.toBe(b)
    }
})

test('no two figures of different drivers or rests look the same, in both sets', () => {
  for (const set of ['iec', 'ieee'] as const) {
    const contacts = figures.filter((f) => f.element.figure.kind === 'contact' && !f.element.throwOf)
    const seen = new Map<string, string>()
    for (const { element } of contacts) {
      // IEEE 315 gives a switch worked by hand no rest.
      if (set === 'ieee' && element.figure.kind === 'contact' && element.figure.by === 'dial') continue
      const ink = JSON.stringify(states(element.figure, set))
      const key = JSON.stringify(element.figure)
      expect(seen.get(ink) ?? key).toBe(key)
      seen.set(ink, key)
    }
  }
})

test('a body never reaches beyond the collar, by the numbers of its strokes', () => {
  for (const { element, names } of figures) {
    const { figure } = element
    if (figure.kind !== 'body') continue
    for (const body of [figure, ...(figure.ieee ? [figure.ieee] : [])]) {
      expect(body.half, names.join()).toBeLessThanOrEqual(28)
      for (const s of body.strokes)
        for (const [, y] of absolute(s.d)) expect(Math.abs(y), `${names.join()}: ${s.d}`).toBeLessThanOrEqual(20)
    }
  }
})

/** Points a path goes through. */
function absolute(d: string): [number, number][] {
  const points: [number, number][] = []
  let x = 0
  let y = 0
  for (const [, c = '', rest = ''] of d.matchAll(/([a-zA-Z])([^a-zA-Z]*)/g)) {
    const n = (rest.match(/-?[\d.]+/g) ?? []).map(Number)
    const step = { m: 2, l: 2, h: 1, v: 1, q: 4, t: 2, a: 7, c: 6, z: 0 }[c.toLowerCase()]
    if (step === undefined) throw new Error(`a path with ${c}`)
    for (let i = 0; step > 0 && i < n.length; i += step) {
      const own = c === c.toLowerCase()
      const [dx = 0, dy = 0] = [n[i + step - 2], n[i + step - 1]]
      if (/h/i.test(c)) x = (own ? x : 0) + (n[i] ?? 0)
      else if (/v/i.test(c)) y = (own ? y : 0) + (n[i] ?? 0)
      else {
        x = (own ? x : 0) + dx
        y = (own ? y : 0) + dy
      }
      points.push([x, y])
    }
  }
  return points
}
