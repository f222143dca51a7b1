import { fuseFigure } from '../figures.ts'
import { measureForm, nameForm } from '../forms.ts'
import { kind } from '../kind.ts'
import { LINK } from '../ohms.ts'
import { is } from '../test.ts'
import { addPart, element, lawWhen, onePair } from './contact.ts'

/** A link that current opens for good. */
export const fuseKind = kind({
  word: 'fuse',
  title: 'Fuse',
  example: 'fuse F1 "Motor fuse" blows 15 A area rear',
  named: 'part',
  round: 2,
  clauses: { blows: measureForm('amps', '15 A'), area: nameForm('area') },
  children: {},
  read(line, to) {
    const { blows } = line.clauses
    const link = element(line, to, onePair(line, to), {
      name: 'link',
      role: 'link',
      laws: lawWhen(is(line.name, ['whole']), LINK),
      figure: fuseFigure,
      note: blows ? `${blows.value.value} A` : '',
    })
    addPart(line, 'fuse', to, [link])
    to.actor({
      name: line.name,
      part: line.name,
      states: ['whole', 'blown'],
      // A fuse whose rating the sheet does not give is never blown by what is computed.
      sense: { by: 'current', elements: [link.id], amps: blows?.value.si ?? Number.POSITIVE_INFINITY },
    })
  },
})
