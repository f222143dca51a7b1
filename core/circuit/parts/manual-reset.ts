import { heatSense, needs } from '../common/heat.ts'
import { addPart, element, onePair, pairName } from '../common/part.ts'
import { contactFigure } from '../figures.ts'
import { flagForm, nameForm, temperatureForm } from '../forms.ts'
import { kind, type Tags } from '../kind.ts'
import { CONTACT, lawWhen } from '../laws.ts'
import { temperatureText } from '../temperature.ts'
import { is } from '../test.ts'

/** A limit that heat opens and only a hand closes again; its poles open together. Until reset it is `blown`. */
export const manualResetKind = kind({
  word: 'manual-reset',
  title: 'Limit, reset by hand',
  example: 'manual-reset ECO "High limit" opens 77 C resets by hand zone box area top',
  named: 'shared',
  round: 2,
  tags: true,
  clauses: {
    opens: temperatureForm,
    resets: flagForm('by', 'hand'),
    zone: nameForm('zone'),
    area: nameForm('area'),
  },
  children: { pole: { named: true, tags: true, clauses: {} } },
  read(line, to) {
    const opens = needs(line, to, 'opens', '77 C')
    const contact = (name: string, tags: Tags) =>
      element(line, to, tags, {
        name,
        role: 'contact',
        laws: lawWhen(is(line.name, ['cold']), CONTACT),
        figure: contactFigure('heat-reset'),
        note: opens ? `opens ${temperatureText(opens)}` : '',
      })
    const poles = line.children.flatMap((pole) => {
      const [tags, second] = pole.tags
      const id = `${line.name}:${pole.name}`
      if (!tags && !pole.told) to.tell('no-tags', pole.head, id, `pole ${pole.name}`)
      if (second) to.tell('one-pair-only', second.at, id)
      return tags ? [contact(pole.name, tags)] : []
    })
    const one = line.children.length === 0 || line.tags.length > 0 ? onePair(line, to) : undefined
    addPart(line, to, [...(one ? [contact(pairName(one), one)] : []), ...poles])
    to.actor({
      name: line.name,
      part: line.name,
      states: ['cold', 'blown'],
      sense: heatSense(to, line.clauses.zone, opens),
    })
  },
})
