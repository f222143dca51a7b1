import { actedContact, actedContactForm } from '../common/acted.ts'
import { addPart, element, pairName } from '../common/part.ts'
import { overloadFigure } from '../figures.ts'
import { measureForm, nameForm } from '../forms.ts'
import { type Children, kind } from '../kind.ts'
import { LINK, lawAlways } from '../laws.ts'

const children = {
  through: { named: false, tags: true, clauses: {} },
  contact: actedContactForm('closed', 'tripped'),
} as const satisfies Children

/** An overload relay: the motor's current passes through it, and too much for long opens a contact in the coil's string. */
export const overloadKind = kind({
  word: 'overload',
  title: 'Overload relay',
  example: 'overload OL "Overload relay" trips 5 A area top',
  named: 'shared',
  round: 2,
  clauses: { trips: measureForm('amps', '5 A'), area: nameForm('area') },
  children,
  read(line, to) {
    const { trips } = line.clauses
    const elements = line.children.flatMap((c) => {
      if (c.word === 'contact') return actedContact(line, c, to, ['closed', 'tripped'], 'heat-reset')
      const [tags, second] = c.tags
      if (second) to.tell('one-pair-only', second.at, line.name)
      if (!tags && !c.told) to.tell('no-tags', c.head, line.name, 'through')
      if (!tags) return []
      return [
        element(line, to, tags, { name: pairName(tags), role: 'link', laws: lawAlways(LINK), figure: overloadFigure }),
      ]
    })
    const kept = addPart(line, to, elements)
    const sensing = kept.flatMap((e) => (e.role === 'link' ? [e.id] : []))
    to.actor({
      name: line.name,
      part: line.name,
      states: ['closed', 'tripped'],
      // Without its setting, or without the way of the motor's current, nothing that is computed trips it.
      sense: trips && sensing.length > 0 ? { by: 'current', elements: sensing, amps: trips.si } : { by: 'nothing' },
    })
  },
})
