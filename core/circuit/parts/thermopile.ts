import { ratingOf } from '../common/load.ts'
import { onePair, partOf } from '../common/part.ts'
import { conditionForm, nameForm, quantityAsTyped } from '../forms.ts'
import { kind } from '../kind.ts'
import { lawWhen } from '../laws.ts'
import type { Element, Pole } from '../model.ts'
import { NEVER } from '../test.ts'

/** Common practice, no source: a thermopile of 750 mV gives half of that to a valve of 2 to 3 ohm. */
const USUAL_OHMS = 3

/** A source in a pilot flame: as many volts as typed with nothing on it, behind its own ohms. */
export const thermopileKind = kind({
  word: 'thermopile',
  title: 'Thermopile',
  example: 'thermopile TP "Thermopile" 750 mV 3 ohm when pilot=lit area rear',
  named: 'shared',
  round: 2,
  tags: true,
  ratings: ['volts', 'ohms'],
  clauses: { when: conditionForm, area: nameForm('area') },
  children: {},
  read(line, to) {
    const { when } = line.clauses
    const volts = line.ratings.find((r) => r.quantity.quantity === 'volts')?.quantity
    if (!volts && !line.told) to.tell('no-volts', line.head, line.name)
    if (!when && !line.told) to.tell('no-condition', line.head, line.name, 'when pilot=lit')
    const [plus, minus] = line.tags.length > 0 ? onePair(line, to).pair : ['+', '−']
    const poles = [plus, minus].map(
      (tag, i): Pole => ({
        terminal: `${line.name}.${tag}`,
        behind: `behind ${line.name}.${tag}`,
        re: i === 0 ? (volts?.si ?? 0) : 0,
        im: 0,
        name: tag,
      }),
    )
    const burns = when ? to.test(when) : NEVER
    const ohms = ratingOf(line, 'ohms') ?? USUAL_OHMS
    const sources = poles.map(
      (pole): Element => ({
        id: `${line.name}:${pole.name}`,
        part: line.name,
        name: pole.name,
        role: 'source',
        ends: [pole.behind, pole.terminal],
        laws: lawWhen(burns, { kind: 'path', ohms: ohms / 2 }),
        figure: { kind: 'source' },
        note: '',
        at: line.head,
      }),
    )
    const title = volts ? `${quantityAsTyped(volts)} thermopile` : 'thermopile'
    to.supply({ name: line.name, title, hertz: 0, poles })
    to.part(partOf({ ...line, label: line.label || title }, to), sources)
  },
})
