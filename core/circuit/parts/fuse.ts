import { addPart, element, onePair } from '../common/part.ts'
import { fuseFigure } from '../figures.ts'
import { measureForm, nameForm } from '../forms.ts'
import { kind } from '../kind.ts'
import { LINK, lawWhen } from '../laws.ts'
import { is } from '../test.ts'

/** A link that current opens for good. */
export const fuseKind = kind({
  word: 'fuse',
  title: 'Fuse',
  example: 'fuse F1 "Motor fuse" blows 15 A area rear',
  named: 'shared',
  round: 2,
  tags: true,
  clauses: { blows: measureForm('amps', '15 A'), area: nameForm('area') },
  children: {},
  read(line, to) {
    const { blows } = line.clauses
    const link = element(line, to, onePair(line, to), {
      name: 'link',
      role: 'link',
      laws: lawWhen(is(line.name, ['whole']), LINK),
      figure: fuseFigure,
      note: blows ? `${blows.value} ${blows.unit}` : '',
    })
    const elements = addPart(line, to, [link]).map((e) => e.id)
    to.actor({
      name: line.name,
      part: line.name,
      states: ['whole', 'blown'],
      // A fuse whose rating the sheet does not give is never blown by what is computed.
      sense: blows ? { by: 'current', elements, amps: blows.si } : { by: 'nothing' },
    })
  },
})
