import { contactFigure } from '../figures.ts'
import { nameForm, phraseThenNameForm } from '../forms.ts'
import { child, kind } from '../kind.ts'
import type { Element } from '../model.ts'
import { CONTACT } from '../ohms.ts'
import { is } from '../test.ts'
import { addPart, element, lawWhen, pairName } from './contact.ts'

/** A switch of several contacts that a dial turns, with the chart of its cells: `x` closed, `o` open. */
export const cycleSwitchKind = kind({
  word: 'cycle-switch',
  title: 'Cycle switch',
  example: 'cycle-switch CS "Cycle switch" turned by dial area console',
  named: 'part',
  round: 2,
  clauses: { turned: phraseThenNameForm('by', 'control'), area: nameForm('area') },
  children: { chart: child({ named: false, clauses: {}, rows: true }) },
  read(line, to) {
    const elements: Element[] = []
    const { turned } = line.clauses
    const control = turned && to.findControl(turned.value)
    if (!turned) {
      to.tell(
        'no-control',
        line.head,
        `${line.name} does not say what turns it.`,
        'Add `turned by dial`, with the name of its control.',
      )
    }
    const [chart, second] = line.children
    if (!chart) {
      to.tell(
        'no-chart',
        line.head,
        `${line.name} has no contact chart.`,
        'Add an indented line `chart` with the positions, and under it a row for each contact: `A-B  o  x`.',
      )
    }
    if (second) {
      to.tell('one-chart-only', second.head, `${line.name} has a second chart.`, 'Put its rows under the first one.')
    }
    const positions = (chart?.bare ?? []).filter((t) => t.kind !== ',')
    for (const p of positions) {
      if (control && !control.positions.includes(p.text)) {
        to.tell(
          'unknown-position',
          p,
          `${control.label || control.name} has no position “${p.text}”.`,
          `Its positions are ${control.positions.join(', ')}.`,
        )
      }
    }
    const seen = new Set<string>()
    for (const row of chart?.rows ?? []) {
      const name = pairName(row.tags)
      if (seen.has(name)) {
        to.tell(
          'contact-twice',
          row.tags.at,
          `The chart has ${name} twice.`,
          'Take one of the two rows out, or correct its tags.',
        )
        continue
      }
      seen.add(name)
      if (row.cells.length !== positions.length) {
        to.tell(
          'cells-do-not-match',
          row.at,
          `${name} has ${row.cells.length} cells for ${positions.length} positions.`,
          'Give every position one cell: `x` closed, `o` open.',
        )
      }
      const closed: string[] = []
      row.cells.forEach((cell, i) => {
        const position = positions[i]
        if (cell.text === 'x' && position) closed.push(position.text)
        else if (cell.text !== 'o' && cell.text !== 'x') {
          to.tell(
            'unknown-cell',
            cell.at,
            `“${cell.text}” is no cell of a chart.`,
            'Write `x` where the contact is closed, `o` where it is open.',
          )
        }
      })
      elements.push(
        element(line, to, row.tags, {
          name,
          role: 'contact',
          laws: turned ? lawWhen(is(turned.value.text, closed), CONTACT) : [],
          figure: contactFigure(control && closed.includes(control.normally) ? 'closed' : 'open', 'dial'),
          note: row.label,
          charted: true,
        }),
      )
    }
    addPart(line, 'cycle-switch', to, elements)
  },
})
