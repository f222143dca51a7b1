import { addPart, element, pairName } from '../common/part.ts'
import { contactFigure } from '../figures.ts'
import { nameForm, phraseThenNameForm } from '../forms.ts'
import { type Context, kind, type Row } from '../kind.ts'
import { CONTACT, lawWhen } from '../laws.ts'
import { is, NEVER } from '../test.ts'

/** A switch of several contacts that a dial turns, with the chart of its cells: `x` closed, `o` open. */
export const cycleSwitchKind = kind({
  word: 'cycle-switch',
  title: 'Cycle switch',
  example:
    'cycle-switch CS "Cycle switch" turned by dial area top\n  chart  off  timed  cool-down\n  A-B    o    x      x          "motor"\n  A-C    o    x      o          "heat"',
  named: 'shared',
  round: 2,
  clauses: { turned: phraseThenNameForm('by', 'control'), area: nameForm('area') },
  children: { chart: { named: false, clauses: {}, rows: true } },
  read(line, to) {
    const { turned } = line.clauses
    const [chart, ...more] = line.children
    const control = turned && to.findControl(turned)
    if (!turned && !line.told) to.tell('no-control', line.head, line.name)
    if (!chart && !line.told) to.tell('no-chart', line.head, line.name)
    for (const second of more) to.tell('second-chart', second.head, line.name)

    const positions = (chart?.bare ?? []).filter((token) => token.kind !== ',')
    const named = positions.map((token) => token.text)
    for (const [i, token] of positions.entries()) {
      const { text } = token
      if (named.indexOf(text) < i) to.tell('position-twice', token, `The chart of ${line.name}`, text)
      else if (control && !control.positions.includes(text)) {
        to.tell('unknown-position', token, control.name, text, control.positions)
      }
    }
    const absent = control?.positions.filter((position) => !named.includes(position)) ?? []
    if (chart && absent.length > 0 && !line.told) to.tell('no-column', chart.head, line.name, absent)

    const seen = new Set<string>()
    const contacts = (chart?.rows ?? []).filter(({ tags }) => {
      const name = pairName(tags)
      if (seen.has(name)) to.tell('contact-twice', tags.at, name)
      return !seen.has(name) && seen.add(name)
    })
    const elements = contacts.map((row) => {
      const closed = closedAt(row, named, to)
      return element(line, to, row.tags, {
        name: pairName(row.tags),
        role: 'contact',
        laws: lawWhen(turned ? is(turned.text, closed) : NEVER, CONTACT),
        figure: contactFigure('dial'),
        note: row.label,
        charted: true,
      })
    })
    addPart(line, to, elements)
  },
})

/** The positions where the contact of a row is closed. */
function closedAt(row: Row, positions: readonly string[], to: Context): readonly string[] {
  if (row.cells.length !== positions.length) {
    to.tell('cells-do-not-match', row.at, pairName(row.tags), row.cells.length, positions.length)
  }
  const closed: string[] = []
  for (const [i, cell] of row.cells.entries()) {
    const position = positions[i]
    if (cell.text === 'x') {
      if (position !== undefined) closed.push(position)
    } else if (cell.text !== 'o') to.tell('unknown-cell', cell.at, cell.text)
  }
  return closed
}
