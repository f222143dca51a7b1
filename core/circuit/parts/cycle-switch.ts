import { cursor, isProblem } from '../../netlist/index.ts'
import { checkCells, columnsAbsent, columnsMarked, headingOf, standsAt } from '../common/chart.ts'
import { addPart, element, pairName } from '../common/part.ts'
import { contactFigure } from '../figures.ts'
import { flagForm, nameForm, phraseThenNameForm } from '../forms.ts'
import { type Children, type Context, kind, type Row, type Said, type SaidChild, type Tags } from '../kind.ts'
import { CONTACT, lawWhen } from '../laws.ts'
import type { Control, Element, Test } from '../model.ts'

const clauses = {
  turned: phraseThenNameForm('by', 'control'),
  rest: flagForm('not', 'typed'),
  area: nameForm('area'),
}
const children = {
  chart: { named: false, clauses: {}, rows: true },
  bars: { named: false, clauses: {}, rows: true },
} as const satisfies Children

type SwitchLine = Said<typeof clauses, typeof children>
type ChartLine = SaidChild<typeof children>

/**
 * A switch of several contacts that a dial turns. Its chart has a row for each contact, `x` closed and `o` open at each
 * position of the control, or at each combination of several; a changeover closes to its first side at `x`, to its other
 * at `o`, to neither at `-`. A timing strip says over which degrees of the turn a contact is closed.
 */
const switchForm = (word: string, title: string, example: string) =>
  kind({
    word,
    title,
    example,
    named: 'shared',
    round: 2,
    clauses,
    children,
    read(line, to) {
      const { turned } = line.clauses
      const control = turned && to.findControl(turned)
      const charts = line.children.filter((c) => c.word === 'chart')
      const [chart, ...more] = charts
      for (const second of more) to.tell('second-chart', second.head, line.name)
      const [strip, ...others] = line.children.filter((c) => c.word === 'bars')
      for (const second of others) to.tell('second-chart', second.head, line.name)
      if (!chart && !strip && !line.told) to.tell('no-chart', line.head, line.name)

      const seen = new Set<string>()
      const elements = [
        ...(chart ? charted(line, chart, control, seen, to) : []),
        ...(strip ? stripped(line, strip, control, seen, to) : []),
      ]
      addPart({ ...line, tags: [] }, to, elements)
    },
  })

export const cycleSwitchKind = switchForm(
  'cycle-switch',
  'Cycle switch',
  'cycle-switch CS "Cycle switch" turned by dial area top\n  chart  off  timed  cool-down\n  A-B    o    x      x          "motor"\n  A-C    o    x      o          "heat"',
)
/** The same part where a hand sets it and it stays. */
export const selectorKind = switchForm(
  'selector',
  'Selector',
  'selector SEL "Heat selector" turned by knob area top\n  chart  off  low  high\n  1-2    o    x    x\n  1-3    o    o    x',
)

/** Whether a contact of this name is new; told when it is not. */
function isNew(tags: Tags, seen: Set<string>, to: Context): boolean {
  const name = pairName(tags)
  if (seen.has(name)) to.tell('contact-twice', tags.at, name)
  return !seen.has(name) && seen.add(name).size > 0
}

function contact(line: SwitchLine, to: Context, row: Row, tags: Tags, when: Test, throwOf?: string): Element {
  return element(line, to, tags, {
    name: pairName(tags),
    role: 'contact',
    laws: lawWhen(when, CONTACT),
    figure: contactFigure('dial'),
    note: row.label,
    charted: true,
    ...(throwOf !== undefined && { throwOf }),
  })
}

function charted(
  line: SwitchLine,
  chart: ChartLine,
  control: Control | undefined,
  seen: Set<string>,
  to: Context,
): readonly Element[] {
  const heading = headingOf(line.name, chart.bare, control, to)
  if (!line.clauses.turned && heading.axes.length === 0 && !line.told) to.tell('no-control', line.head, line.name)
  const restNotTyped = line.clauses.rest !== undefined
  const absent = columnsAbsent(heading)
  if (absent.length > 0 && !restNotTyped && !line.told) to.tell('no-column', chart.head, line.name, absent)
  return chart.rows.flatMap((row) => {
    if (!isNew(row.tags, seen, to)) return []
    checkCells(row, heading, restNotTyped, to)
    const first = contact(line, to, row, row.tags, standsAt(heading.axes, columnsMarked(row, 'x', heading)))
    if (!row.other || !isNew(row.other, seen, to)) return [first]
    const away = standsAt(heading.axes, columnsMarked(row, 'o', heading))
    return [first, contact(line, to, row, row.other, away, first.id)]
  })
}

/** Contacts of a timing strip: each closed from where a range begins up to where it ends. */
function stripped(
  line: SwitchLine,
  strip: ChartLine,
  control: Control | undefined,
  seen: Set<string>,
  to: Context,
): readonly Element[] {
  if (!line.clauses.turned && !line.told) to.tell('no-control', line.head, line.name)
  const inDegrees = control?.positions.every((p) => Number.isFinite(Number(p)))
  if (control && !inDegrees) to.tell('strip-needs-degrees', strip.head, control.name)
  if (control) setBar(line, strip, control, to)
  return strip.rows.flatMap((row) => {
    if (!isNew(row.tags, seen, to)) return []
    const ranges = rangesOf(row)
    if (!ranges) to.tell('strip-form', row.at, pairName(row.tags))
    const closed = (control?.positions ?? []).filter((p) => ranges?.some((range) => lies(Number(p), range)))
    return [
      contact(
        line,
        to,
        row,
        row.tags,
        standsAt(
          control ? [control] : [],
          closed.map((p) => [p]),
        ),
      ),
    ]
  })
}

/** `bars 6 deg = 45 s`: how long a motor takes to turn the control by so many degrees. */
function setBar(line: SwitchLine, strip: ChartLine, control: Control, to: Context): void {
  if (strip.bare.length === 0) return
  const at = cursor({ tokens: strip.bare, from: strip.head.from })
  const turn = at.takeQuantity()
  const equals = at.takeMark('=')
  const time = at.takeQuantity()
  const right = turn && !isProblem(turn) && turn.quantity === 'degrees' && equals && time && !isProblem(time) && at.done
  if (right && time.quantity === 'minutes' && turn.si > 0 && time.si > 0) {
    to.control({ ...control, bar: { degrees: turn.si, seconds: time.si * 60 } })
  } else to.tell('bars-form', strip.head, line.name)
}

type Range = readonly [from: number, to: number]

/** `closed 0..240, 255..355 deg`; the unit may be left out. */
function rangesOf(row: Row): readonly Range[] | undefined {
  const [word, ...cells] = row.cells.map((cell) => cell.text)
  if (cells.at(-1) === 'deg') cells.pop()
  const ranges = cells
    .filter((text) => text !== ',')
    .map((text): Range | undefined => {
      const [, from, to] = /^(\d+(?:\.\d+)?)\.\.(\d+(?:\.\d+)?)$/.exec(text) ?? []
      return from === undefined || to === undefined ? undefined : [Number(from), Number(to)]
    })
  const known = ranges.filter((range) => range !== undefined)
  return word === 'closed' && known.length > 0 && known.length === ranges.length ? known : undefined
}

/** From its beginning up to its end, which is no longer in it; a range may run over the full turn. */
const lies = (degrees: number, [from, to]: Range): boolean =>
  from <= to ? degrees >= from && degrees < to : degrees >= from || degrees < to
