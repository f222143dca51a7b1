import type { Circuit, ElementId, TerminalId } from '../circuit/model.ts'
import type { Feed, Frame, LoadTrace } from '../strings/trace.ts'
import { type Bead, beadInWords, type Stop, stopsOf } from './beads.ts'
import { at, button, circle, esc, line, num, path, rect, text } from './ink.ts'
import {
  anyOf,
  cleared,
  collar,
  dimension,
  flag,
  flagWidth,
  found,
  nextWash,
  pennant,
  pennantWidth,
  probe,
  type Reading,
  seat,
  type Verdict,
  verdictWords,
} from './marks.ts'
import type { Point } from './plan.ts'
import { drawingCss, ownTokens, type Theme } from './style.ts'
import { type SymbolSet, swatch, symbol } from './symbols.ts'
import { fitText, textWidth } from './text-width.ts'

export interface StringOptions {
  /** Room across, px. A lying string that is longer goes on in further rows. */
  readonly width: number
  /** One bead below the other, for a narrow window. */
  readonly upright?: boolean
  /** Room kept free below each row of beads, px, for readings and marks of the one who draws them. Default 24. */
  readonly below?: number
  /** An element or a wire. */
  readonly selected?: ElementId
  /** What readings say of elements and wires; a lying string needs `below` 48 for them. */
  readonly verdicts?: ReadonlyMap<ElementId, Verdict>
  /** Readings between two terminals on the string, each on a line of its own below a lying one. */
  readonly readings?: readonly (Reading & { readonly between: readonly [TerminalId, TerminalId] })[]
  /** Where the probes of the next test go: the parked one, the moving one. */
  readonly next?: readonly [TerminalId, TerminalId]
  readonly standalone?: boolean
  readonly theme?: Theme
  /** Whose shapes symbols have; `iec` unless said. */
  readonly symbols?: SymbolSet
}

/** Where a string's beads and test points stand, for whatever is drawn over it. */
export interface StringPlan {
  readonly size: { readonly width: number; readonly height: number }
  readonly upright: boolean
  readonly beads: readonly (Point & { readonly id: ElementId })[]
  readonly points: readonly (Point & {
    readonly wires: readonly ElementId[]
    readonly terminals: readonly TerminalId[]
  })[]
}

export interface StringDrawing {
  readonly svg: string
  readonly plan: StringPlan
}

/** The string of a load as SVG: one straight line of beads from pole to pole, a test point between each two. */
export function stringSvg(circuit: Circuit, frame: Frame, trace: LoadTrace, options: StringOptions): string {
  return drawString(circuit, frame, trace, options).svg
}

/** `stringSvg`, with the places of beads and points. */
export function drawString(circuit: Circuit, frame: Frame, trace: LoadTrace, options: StringOptions): StringDrawing {
  const stops = stopsOf(circuit, frame, trace)
  const drawn = options.upright ? standing(stops, trace, options) : lying(stops, trace, options)
  const { width, height } = drawn.size
  const style = options.standalone
    ? `<style>${ownTokens(options.theme ?? 'light')}${drawingCss}</style>${rect(0, 0, width, height, 'sheetfill')}`
    : ''
  const name = circuit.parts.get(circuit.elements.get(trace.load)?.part ?? '')?.name ?? trace.load
  const label = `String of ${name}${trace.poles.length === 2 ? `, from ${trace.poles[0]} to ${trace.poles[1]}` : ''}${trace.on ? '' : ', off'}`
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" class="sheet string" width="${num(width)}" height="${num(height)}" viewBox="0 0 ${num(width)} ${num(height)}" role="${options.standalone ? 'img' : 'group'}" aria-label="${esc(label)}">${style}
${drawn.ink}
</svg>
`
  return {
    svg,
    plan: { size: drawn.size, upright: options.upright === true, beads: drawn.beads, points: drawn.points },
  }
}

interface Drawn {
  readonly ink: string
  readonly size: { readonly width: number; readonly height: number }
  readonly beads: StringPlan['beads']
  readonly points: StringPlan['points']
}

const beadWidth = 112
const beadHeight = 68
const symbolScale = 1.4
/** From a row's top to its line: area bracket, name, note. */
const rise = 124
const endRoom = 92

interface Slot {
  readonly stop: Stop
  readonly left: number
  readonly right: number
  /** Beads of a place stand this far below each other. */
  readonly deep: number
}

const deepStep = 132

function slotOf(stop: Stop): Slot {
  if (stop.kind === 'point') {
    const half = Math.max(24, textWidth(stop.colour ?? '', 12, 600) / 2 + 6)
    return { stop, left: half, right: half, deep: 0 }
  }
  const several = stop.rows.length > 1
  let half = beadWidth / 2 + (several ? 32 : 10)
  let left = half
  for (const b of stop.beads) {
    const note = textWidth(noteOf(b), 15, b.reason === undefined ? 400 : 600)
    half = Math.max(
      half,
      textWidth(b.name, 20, 700) / 2 + 8,
      b.flag === undefined ? note / 2 + 8 : 48 + flagWidth(b.flag) + 4,
    )
    // The words of an area reach a little beyond its bracket.
    half = Math.max(half, textWidth(b.area ?? '', 15) / 2 - 26)
    left = Math.max(left, half, b.flag === undefined ? 0 : note - 36)
  }
  const across = Math.max(...stop.rows.map((row) => row.length))
  if (across > 1) {
    half = Math.max(half, left)
    return { stop, left: half * across, right: half * across, deep: (stop.rows.length - 1) * deepStep }
  }
  return { stop, left, right: half, deep: (stop.rows.length - 1) * deepStep }
}

const noteOf = (b: Bead): string => b.reason ?? b.note

/** Bead and point slots in rows no wider than the room; a row ends at a point, and the next begins with it. */
function rowsOf(slots: readonly Slot[], room: number): Slot[][] {
  const rows: Slot[][] = []
  let row: Slot[] = []
  let used = 0
  for (const slot of slots) {
    const width = slot.left + slot.right
    const breaks = slot.stop.kind === 'place' && row.length > 1 && used + width + 60 > room
    if (breaks) {
      rows.push(row)
      row = []
      used = 0
    }
    row.push(slot)
    used += width
  }
  if (row.length > 0) rows.push(row)
  return rows
}

function lying(stops: readonly Stop[], trace: LoadTrace, options: StringOptions): Drawn {
  const below = options.below ?? 24
  const rows = rowsOf(stops.map(slotOf), options.width - 2 * endRoom)
  const spare = Math.min(
    ...rows.slice(0, -1).map((r) => room(r, options.width)),
    rows.length === 1 ? room(rows[0] ?? [], options.width) : Number.POSITIVE_INFINITY,
  )
  const beads: (Point & { id: ElementId })[] = []
  const points: StringPlan['points'][number][] = []
  const ink: string[] = []
  let top = 0
  let widest = 0
  rows.forEach((row, r) => {
    const y = top + rise
    const gaps = Math.max(1, row.length)
    // Beads spread a little where there is room, but a short string is not torn apart.
    const stretch = Math.min(28, Math.max(0, (rows.length === 1 ? spare : room(row, options.width)) / gaps))
    let x = endRoom
    const placed = row.map((slot) => {
      const mid = x + slot.left + stretch / 2
      const from = x
      x += slot.left + slot.right + stretch
      return { slot, x: mid, from, to: x }
    })
    const first = r === 0
    const last = r === rows.length - 1
    const end = x
    ink.push(areasOver(placed, top))
    ink.push(rowLine(placed, y, endRoom, end, first, last, trace))
    ink.push(first ? pole(endRoom - 30, y, trace.poles[0], 'left') : more(endRoom - 22, y))
    ink.push(last ? pole(end + 30, y, trace.poles[1], 'right') : more(end + 22, y))
    for (const p of placed) {
      const { stop } = p.slot
      if (stop.kind === 'point') {
        points.push({ x: p.x, y, wires: stop.wires, terminals: stop.terminals })
        ink.push(testPoint(stop, p.x, y, options))
      } else ink.push(place(stop, p.x, y, p.slot, options, beads))
    }
    widest = Math.max(widest, end + endRoom)
    top = y + beadHeight / 2 + Math.max(0, ...row.map((s) => s.deep)) + below
    if (row.some(({ stop }) => stop.kind === 'point' && verdictOf(stop, options))) top += wireRow
    for (const reading of options.readings ?? []) {
      const drawn = dimensionOver(placed, reading, y, top)
      if (drawn === '') continue
      ink.push(drawn)
      top += readingRow
    }
  })
  return {
    ink: ink.join('\n'),
    size: { width: Math.max(options.width, Math.ceil(widest - 0.01)), height: Math.ceil(top) },
    beads,
    points,
  }
}

/** Doubt about wires stands below that about elements, px. */
const wireRow = 26
/** One reading below another, px. */
const readingRow = 32

/** A reading whose two points stand in this row; each end of a wire is the same point. */
function dimensionOver(
  placed: readonly PlacedSlot[],
  reading: Reading & { readonly between: readonly [TerminalId, TerminalId] },
  y: number,
  top: number,
): string {
  const at = (terminal: TerminalId) =>
    placed.find((p) => p.slot.stop.kind === 'point' && p.slot.stop.terminals.includes(terminal))?.x
  const [a, b] = reading.between.map(at)
  if (a === undefined || b === undefined || a === b) return ''
  return dimension(Math.min(a, b), Math.max(a, b), y + 12, top + 14, reading)
}

function room(row: readonly Slot[], width: number): number {
  return width - 2 * endRoom - row.reduce((sum, s) => sum + s.left + s.right, 0)
}

function pole(x: number, y: number, name: string | undefined, side: 'left' | 'right'): string {
  if (name === undefined) return ''
  return (
    line(x, y - 34, x, y + 34, 'wire rail') +
    text(side === 'left' ? x - 12 : x + 12, y + 8, name, 'endname', side === 'left' ? 'end' : 'start')
  )
}

/** The string goes on in another row. */
function more(x: number, y: number): string {
  return path(`M${num(x - 3)} ${num(y - 7)}l7 7l-7 7`, 's')
}

interface PlacedSlot {
  readonly slot: Slot
  readonly x: number
  readonly from: number
  readonly to: number
}

/** The line itself, each stretch as heavy as what it carries. */
function rowLine(
  placed: readonly PlacedSlot[],
  y: number,
  from: number,
  to: number,
  first: boolean,
  last: boolean,
  trace: LoadTrace,
): string {
  let ink = ''
  const weigh = (feed: Feed) => `wire ${feed}`
  placed.forEach((p, i) => {
    const { stop } = p.slot
    if (stop.kind === 'point') {
      const start = i === 0 ? from - (first && trace.poles.length === 0 ? 0 : first ? 30 : 22) : p.from
      const end = i === placed.length - 1 ? to + (last && trace.poles.length === 0 ? 0 : last ? 30 : 18) : p.to
      ink += line(start, y, end, y, weigh(stop.feed))
      return
    }
    const before = placed[i - 1]?.slot.stop
    const after = placed[i + 1]?.slot.stop
    const left = before?.kind === 'point' ? before.feed : (stop.beads[0]?.feed ?? 'dead')
    const right = after?.kind === 'point' ? after.feed : (stop.beads[0]?.feed ?? 'dead')
    const reach = beadWidth / 2 - 12
    const start = i === 0 ? from - (first ? (trace.poles.length === 0 ? 0 : 30) : 22) : p.from
    const end = i === placed.length - 1 ? to + (last ? (trace.poles.length === 0 ? 0 : 30) : 18) : p.to
    const across = Math.max(...stop.rows.map((row) => row.length))
    const side = across > 1 ? p.slot.left - 18 : beadWidth / 2 + 14
    // A row of several is one line, its beads on it.
    if (across > 1) {
      stop.rows.forEach((row, k) => {
        const low = y + deepStep * k
        const whole = row.every((b) => b.conducts) ? (row[0]?.feed ?? 'dead') : left === 'live' ? 'fed' : left
        ink += path(`M${num(p.x - side)} ${num(y)}V${num(low)}H${num(p.x + side)}V${num(y)}`, weigh(whole))
      })
    } else
      stop.rows.slice(1).forEach(([b], k) => {
        if (!b) return
        const low = y + deepStep * (k + 1)
        const feed = b.conducts ? b.feed : left === 'live' ? 'fed' : left
        const back = b.conducts ? b.feed : right === 'live' ? 'fed' : right
        ink +=
          path(`M${num(p.x - side)} ${num(y)}V${num(low)}H${num(p.x - reach)}`, weigh(feed)) +
          path(`M${num(p.x + side)} ${num(y)}V${num(low)}H${num(p.x + reach)}`, weigh(back))
      })
    const inner = across > 1 ? side : reach
    ink += line(start, y, p.x - inner, y, weigh(left)) + line(p.x + inner, y, end, y, weigh(right))
    if (stop.rows.length > 1) ink += circle(p.x - side, y, 4.5, 'fill') + circle(p.x + side, y, 4.5, 'fill')
  })
  return ink
}

/** One bracket over neighbours that lie behind the same cover, its words above it. */
function areasOver(placed: readonly PlacedSlot[], top: number): string {
  let ink = ''
  const areaOf = (p: PlacedSlot) =>
    p.slot.stop.kind === 'place' ? p.slot.stop.beads.map((b) => b.area ?? '').join(' / ') : undefined
  for (let i = 0; i < placed.length; i++) {
    const start = placed[i]
    if (!start) break
    const name = areaOf(start)
    if (name === undefined) continue
    let end = start
    let stop = i
    for (let j = i + 1; j < placed.length; j++) {
      const next = placed[j]
      if (!next) break
      const other = areaOf(next)
      if (other === undefined) continue
      if (other !== name) break
      end = next
      stop = j
    }
    i = stop
    const words = areaWords(name.split(' / '))
    if (words === '') continue
    const x1 = start.x - Math.max(56, start.slot.left - 8)
    const x2 = end.x + Math.max(56, end.slot.right - 8)
    ink +=
      path(`M${num(x1)} ${num(top + 40)}v-8H${num(x2)}v8`, 'area') +
      text((x1 + x2) / 2, top + 24, fitText(words, x2 - x1 + 56, 15), 'areat')
  }
  return ink
}

/** Parallel beads may sit behind two covers; then there is room for their names only. */
function areaWords(areas: readonly string[]): string {
  const found = [...new Set(areas)].filter(Boolean)
  return found.length < 2 ? (found[0] ?? '') : found.map((a) => a.replace(/, [^,]*$/, '')).join(' / ')
}

function testPoint(stop: Extract<Stop, { kind: 'point' }>, x: number, y: number, options: StringOptions): string {
  const ink =
    (stop.colour === undefined
      ? ''
      : swatch(x - 17, y, stop.paint ?? stop.colour, 10, 8) +
        swatch(x + 17, y, stop.paint ?? stop.colour, 10, 8) +
        text(x, y - 16, stop.colour, 'code')) +
    circle(x, y, 8, 'point') +
    pointMarks(stop, x, y, options)
  return pressable(ink, rect(x - 24, y - 24, 48, 48, 'hit', 24), stop, options)
}

/** Doubt about a wire, and the probe that goes to this point, below it. */
function pointMarks(stop: Extract<Stop, { kind: 'point' }>, x: number, y: number, options: StringOptions): string {
  const kind = probeAt(stop, options)
  const verdict = verdictOf(stop, options)
  return (
    (verdict ? verdictInk(verdict, x, y + 40 + wireRow, 60, -4) : '') +
    (kind ? nextWash(x, y + 10, 28, 42) + probe(x, y + 16, kind) : '')
  )
}

function probeAt(stop: Extract<Stop, { kind: 'point' }>, { next }: StringOptions): 'parked' | 'moving' | undefined {
  const i = next?.findIndex((terminal) => stop.terminals.includes(terminal)) ?? -1
  return i < 0 ? undefined : i === 0 ? 'parked' : 'moving'
}

const verdictOf = (stop: Extract<Stop, { kind: 'point' }>, { verdicts }: StringOptions): Verdict | undefined =>
  stop.wires.flatMap((wire) => verdicts?.get(wire) ?? [])[0]

/** A verdict under a bead or a point; `y` is the top of a pennant. */
function verdictInk(verdict: Verdict, x: number, y: number, width: number, left: number): string {
  switch (verdict.kind) {
    case 'suspect':
      return pennant(x - left, y, verdict.rank, verdict.percent)
    case 'cleared':
      return cleared(x - 12, y + 9, verdict.by)
    case 'found':
      return found(x, y - 40, verdict.says, width, 68)
  }
}

function pressable(ink: string, hit: string, stop: Extract<Stop, { kind: 'point' }>, options: StringOptions): string {
  const data = `data-wire="${esc(stop.wires.join(' '))}" data-terminal="${esc(stop.terminals.join(' '))}"`
  if (options.standalone) return `<g ${data}>${ink}</g>`
  const chosen = options.selected !== undefined && stop.wires.includes(options.selected)
  const verdict = verdictOf(stop, options)
  const words = [
    `Test point ${stop.terminals.join(' to ')}`,
    stop.colour === undefined ? '' : `wire ${stop.colour}`,
    verdict ? verdictWords(verdict) : '',
  ].filter(Boolean)
  const marked = chosen ? hit.replace('"hit"', '"selection"') + ink : ink
  return button('testpoint', hit, data, words.join(', '), chosen, marked)
}

function beadGroup(b: Bead, ink: string, hit: string, options: StringOptions): string {
  if (options.standalone) return `<g data-element="${esc(b.element.id)}">${ink}</g>`
  const chosen = options.selected === b.element.id
  const verdict = options.verdicts?.get(b.element.id)
  const name = [beadInWords(b), verdict ? verdictWords(verdict) : ''].filter(Boolean).join(', ')
  return button('bead', hit, `data-element="${esc(b.element.id)}"`, name, chosen, ink)
}

function place(
  { beads, rows }: Extract<Stop, { kind: 'place' }>,
  x: number,
  y: number,
  slot: Slot,
  options: StringOptions,
  out: (Point & { id: ElementId })[],
): string {
  const across = Math.max(...rows.map((row) => row.length))
  const group = across === 1 && beads.length > 1 && beads.every((b) => b.mark === 'any-of')
  const own = across === 1 ? slot : { ...slot, left: slot.left / across, right: slot.right / across }
  const ink = rows.flatMap((row, k) =>
    row.map((b, i) => {
      const bx = across === 1 ? x : x + (2 * i - row.length + 1) * own.left * 0.94
      const by = y + k * deepStep
      out.push({ id: b.element.id, x: bx, y: by })
      return beadInk(b, bx, by, group, own, options)
    }),
  )
  const low = y + (rows.length - 1) * deepStep
  return ink.join('') + (group ? anyOf(x - beadWidth / 2 - 4, y - 36, x + beadWidth / 2 + 4, low + 36, 34) : '')
}

function beadSymbol(b: Bead, options: StringOptions): string {
  const state = b.conducts ? b.feed : 'fed'
  return symbol(b.element.figure, {
    blade: b.blade,
    left: state,
    right: state,
    mirrored: b.flipped && b.element.figure.kind === 'body',
    on: b.on,
    ...(options.symbols && { set: options.symbols }),
  })
}

function beadInk(b: Bead, x: number, y: number, grouped: boolean, slot: Slot, options: StringOptions): string {
  const half = beadWidth / 2
  const body = beadSymbol(b, options)
  let ink = rect(x - half + 12, y - 30, 2 * half - 24, 60, 'sheetfill')
  ink += at(x, y, body, ` scale(${symbolScale})`)
  const verdict = options.verdicts?.get(b.element.id)
  if (verdict) ink += verdictInk(verdict, x, y + 40, beadWidth, 52)
  if (b.mark === 'load') {
    ink +=
      seat(x, y, beadWidth, beadHeight) +
      rect(x - half + 6, y - beadHeight / 2 + 6, beadWidth - 12, beadHeight - 12, 'load inner')
  } else if (verdict?.kind === 'found') ink += ''
  else if (b.mark === 'must-be-closed') ink += collar(x, y, beadWidth, beadHeight, 'collar big')
  else if (b.mark === 'any-of' && !grouped) ink += anyOf(x - half, y - beadHeight / 2, x + half, y + beadHeight / 2, 34)
  // Tags stand inside the bead, clear of its round ends.
  ink +=
    text(x - 47, y - 9, fitText(b.tags[0], 22, 12, 600), 'tag', 'start') +
    text(x + 47, y - 9, fitText(b.tags[1], 22, 12, 600), 'tag', 'end')
  ink += text(x, y - 64, b.name, 'bname')
  const note = noteOf(b)
  if (b.reason !== undefined) {
    const width = textWidth(note, 15, 600) / 2 + 4
    ink +=
      text(x, y - 45, note, 'breason') +
      path(`M${num(x - width)} ${num(y - 40)}H${num(x + width)}M${num(x + 16)} ${num(y - 40)}l-6 7`, 'leader')
  } else if (b.flag === undefined) ink += text(x, y - 45, note, 'bnote')
  else {
    const long = textWidth(note, 15) / 2 > 42
    ink += long ? text(x + 42, y - 45, note, 'bnote', 'end') : text(x, y - 45, note, 'bnote')
  }
  if (b.flag !== undefined) ink += flag(x + 48, y - 58, y - 22, b.flag)
  if (options.selected === b.element.id)
    ink = rect(x - slot.left + 2, y - 84, slot.left + slot.right - 4, 122, 'selection', 4) + ink
  return beadGroup(b, ink, rect(x - Math.max(half, 30), y - 84, Math.max(beadWidth, 60), 124, 'hit', 8), options)
}

/** The line of an upright string, px from the left; words stand at `wordsX`. */
const lineX = 52
const besideX = 70
const scaleUp = 1.1

function standing(stops: readonly Stop[], trace: LoadTrace, options: StringOptions): Drawn {
  const beads: (Point & { id: ElementId })[] = []
  const points: StringPlan['points'][number][] = []
  const ink: string[] = []
  const runs: string[] = []
  let y = 16
  let area = ''
  const span = (from: number, to: number, feed: Feed) => runs.push(line(lineX, from, lineX, to, `wire ${feed}`))
  const head = trace.poles[0]
  if (head !== undefined) {
    ink.push(line(lineX - 34, y, lineX + 34, y, 'wire rail') + text(lineX + 44, y + 8, head, 'endname', 'start'))
    const feed = stops[0]?.kind === 'point' ? stops[0].feed : 'fed'
    span(y, y + 20, feed)
    y += 20
  }
  for (const stop of stops) {
    if (stop.kind === 'point') {
      const mid = y + 24
      span(y, mid + 24, stop.feed)
      points.push({ x: lineX, y: mid, wires: stop.wires, terminals: stop.terminals })
      ink.push(uprightPoint(stop, mid, options))
      y = mid + 24
      continue
    }
    const words = areaWords(stop.beads.map((b) => b.area ?? ''))
    const feed = stop.beads[0]?.feed ?? 'dead'
    if (words !== '' && words !== area) {
      ink.push(
        text(lineX + 44, y + 16, fitText(words, options.width - lineX - 60, 15), 'areat', 'start') +
          path(`M${num(lineX + 44)} ${num(y + 22)}H${num(options.width - 16)}`, 'area'),
      )
      span(y, y + 30, feed)
      y += 30
      area = words
    }
    const { rows } = stop
    const level = Math.max(84, rows.length * 48)
    const tall = level * Math.max(...rows.map((row) => row.length))
    const mid = y + level / 2
    span(y, mid - 34, feed)
    span(mid + 34, y + tall, feed)
    rows.forEach((row, k) => {
      const x = lineX + besideX * k
      if (k > 0) {
        const f = row.every((b) => b.conducts) ? (row[0]?.feed ?? 'dead') : 'fed'
        runs.push(
          path(
            `M${num(lineX)} ${num(y + 2)}H${num(x)}V${num(mid - 34)}M${num(x)} ${num(mid + 34)}V${num(y + tall - 2)}H${num(lineX)}`,
            `wire ${f}`,
          ),
        )
      }
      row.forEach((b, i) => {
        const by = mid + level * i
        beads.push({ id: b.element.id, x, y: by })
        ink.push(uprightBead(b, x, by, k, rows.length, tall === level && rows.length > 1, options))
      })
    })
    if (tall === level && rows.length > 1 && stop.beads.every((b) => b.mark === 'any-of')) {
      ink.push(anyOf(lineX - 31, mid - 37, lineX + besideX * (stop.beads.length - 1) + 31, mid + 37, 31))
    }
    y += tall
  }
  const foot = trace.poles[1]
  if (foot !== undefined) {
    const last = stops.at(-1)
    span(y, y + 20, last?.kind === 'point' ? last.feed : 'fed')
    y += 20
    ink.push(line(lineX - 34, y, lineX + 34, y, 'wire rail') + text(lineX + 44, y + 8, foot, 'endname', 'start'))
  }
  return { ink: [...runs, ...ink].join('\n'), size: { width: options.width, height: y + 20 }, beads, points }
}

function uprightPoint(stop: Extract<Stop, { kind: 'point' }>, y: number, options: StringOptions): string {
  const [a = '', b = ''] = stop.terminals
  const x = lineX + 44
  const kind = probeAt(stop, options)
  let ink =
    (kind ? rect(0, y - 24, options.width, 48, 'next') : '') +
    circle(lineX, y, 8, 'point') +
    (kind ? `<g transform="translate(${num(lineX - 8)} ${num(y)}) rotate(90)">${probe(0, 0, kind)}</g>` : '')
  const room = (options.width - x - 100) / 2
  const left = fitText(a, Math.max(40, room), 15, 600)
  let at = x + Math.max(56, textWidth(left, 15, 600) + 12)
  ink += text(x, y + 5, left, 'pt', 'start')
  if (stop.colour !== undefined) {
    const width = textWidth(stop.colour, 15, 600)
    ink +=
      swatch(at + 6, y, stop.paint ?? stop.colour, 12, 10) +
      text(at + 18, y + 5, stop.colour, 'pt', 'start') +
      swatch(at + 30 + width, y, stop.paint ?? stop.colour, 12, 10)
    at += width + 46
  }
  ink += text(at, y + 5, fitText(b, Math.max(20, options.width - at - 8), 15, 600), 'pt', 'start')
  const verdict = verdictOf(stop, options)
  if (verdict?.kind === 'suspect')
    ink += pennant(options.width - pennantWidth(verdict.percent) - 6, y - 9, verdict.rank, verdict.percent)
  else if (verdict)
    ink += text(options.width - 8, y + 5, verdictWords(verdict), verdict.kind === 'found' ? 'foundt' : 'by', 'end')
  return pressable(ink, rect(0, y - 24, options.width, 48, 'hit', 4), stop, options)
}

/** Bead `k` of `count` side by side; `grouped`: one dotted collar goes round all of them. */
function uprightBead(
  b: Bead,
  x: number,
  y: number,
  k: number,
  count: number,
  grouped: boolean,
  options: StringOptions,
): string {
  // Signs and letters are turned back, so that they stay upright.
  const body = beadSymbol(b, options)
    .replaceAll('<g class="glyph">', '<g class="glyph" transform="rotate(-90 0 13.5)">')
    .replaceAll('<g class="letter">', '<g class="letter" transform="rotate(-90)">')
  let ink =
    rect(x - 27, y - 33, 54, 66, 'sheetfill') +
    `<g transform="translate(${num(x)} ${num(y)}) rotate(90) scale(${scaleUp})">${body}</g>`
  const verdict = options.verdicts?.get(b.element.id)
  if (b.mark === 'load') ink += seat(x, y, 58, 74) + rect(x - 23, y - 31, 46, 62, 'load inner')
  else if (b.mark === 'must-be-closed') ink += collar(x, y, 58, 74, 'collar big')
  else if (b.mark === 'any-of' && !grouped) ink += anyOf(x - 29, y - 37, x + 29, y + 37, 29)
  const wordsX = lineX + 44 + besideX * (count - 1)
  const wy = count === 1 ? y - 8 : y - (count - 1) * 24 + k * 48 - 6
  const name = textWidth(b.name, 20, 700)
  ink += text(wordsX, wy, b.name, 'bname', 'start')
  let after = wordsX + name + 12
  if (b.flag !== undefined) {
    ink += flag(after, wy - 16, wy + 4, b.flag)
    after += flagWidth(b.flag) + 12
  }
  // The note goes beside the name where it fits whole, else below it; a reason always below.
  const beside = options.width - 8 - after
  if (b.reason !== undefined)
    ink += text(wordsX, wy + 21, fitText(b.reason, options.width - wordsX - 8, 15, 600), 'breason', 'start')
  else if (textWidth(b.note, 15) <= beside) ink += text(after, wy, b.note, 'bnote', 'start')
  else ink += text(wordsX, wy + 20, fitText(b.note, options.width - wordsX - 8, 15), 'bnote', 'start')
  if (verdict?.kind === 'suspect') ink += pennant(wordsX + 2, y + 18, verdict.rank, verdict.percent)
  else if (verdict?.kind === 'cleared') ink += cleared(wordsX + 8, y + 28, verdict.by)
  else if (verdict) ink += text(wordsX, y + 32, verdict.says, 'foundt', 'start')
  if (options.selected === b.element.id) ink = rect(2, y - 40, options.width - 4, 80, 'selection', 4) + ink
  const hit = count === 1 ? rect(0, y - 40, options.width, 80, 'hit', 4) : rect(x - 30, y - 38, 60, 76, 'hit', 4)
  return beadGroup(b, ink, hit, options)
}
