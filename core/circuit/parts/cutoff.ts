import { heatSense, needs } from '../common/heat.ts'
import { addPart, element, onePair } from '../common/part.ts'
import { contactFigure } from '../figures.ts'
import { nameForm, temperatureForm } from '../forms.ts'
import { kind } from '../kind.ts'
import { LINK, lawWhen } from '../laws.ts'
import { temperatureText } from '../temperature.ts'
import { is } from '../test.ts'

/** A link that heat opens once: thermal fuse, thermal cutoff. */
export const cutoffKind = kind({
  word: 'cutoff',
  title: 'Thermal cutoff',
  example: 'cutoff TF "Thermal fuse" opens 91 C zone box area rear',
  named: 'shared',
  round: 2,
  tags: true,
  clauses: { opens: temperatureForm, zone: nameForm('zone'), area: nameForm('area') },
  children: {},
  read(line, to) {
    const opens = needs(line, to, 'opens', '178 C')
    const link = element(line, to, onePair(line, to), {
      name: 'link',
      role: 'link',
      laws: lawWhen(is(line.name, ['cold']), LINK),
      figure: contactFigure('heat-once'),
      note: opens ? `opens ${temperatureText(opens)}` : '',
    })
    addPart(line, to, [link])
    to.actor({
      name: line.name,
      part: line.name,
      states: ['cold', 'blown'],
      sense: heatSense(to, line.clauses.zone, opens),
    })
  },
})
