import { ohmText, ratingOf } from '../common/load.ts'
import { addPart, element, onePair, pairName } from '../common/part.ts'
import { valveFigure } from '../figures.ts'
import { nameForm, phraseThenMeasureForm, quantityAsTyped } from '../forms.ts'
import { kind } from '../kind.ts'
import { lawAlways, resistance } from '../laws.ts'
import { anyLoad } from '../needs.ts'

/** Common practice, no source: the bimetal heater of an oven valve reads about 1 ohm. */
const USUAL_OHMS = 1
/** The share of its opening current to which the bimetal stays bent; common practice, no source. */
const STAYS = 0.85

/** A gas valve in series with its igniter: its bimetal opens it once the hot igniter lets enough current through. */
export const ovenValveKind = kind({
  word: 'oven-valve',
  title: 'Oven valve',
  example: 'oven-valve OV "Bake valve" 1-2 opens above 2.9 A 1.2 ohm area rear',
  named: 'shared',
  round: 2,
  tags: true,
  ratings: ['ohms'],
  clauses: { opens: phraseThenMeasureForm('above', 'amps', '2.9 A'), area: nameForm('area') },
  children: {},
  read(line, to) {
    const { opens } = line.clauses
    if (!opens && !line.told) to.tell('no-opening-amps', line.head, line.name)
    const ohms = ratingOf(line, 'ohms') ?? USUAL_OHMS
    const tags = onePair(line, to)
    const kept = addPart(line, to, [
      element(line, to, tags, {
        name: pairName(tags),
        role: 'load',
        laws: lawAlways(resistance(ohms)),
        figure: valveFigure,
        note: opens ? `opens ${quantityAsTyped(opens)}` : ohmText(ohms),
        load: { volts: (opens?.si ?? 0) * ohms, works: 1, weak: 1, holds: STAYS },
      }),
    ])
    const ids = opens ? kept.map((e) => e.id) : []
    to.actor({
      name: line.name,
      part: line.name,
      states: ['shut', 'open'],
      sense: { by: 'needs', to: anyLoad(ids, 1), stay: anyLoad(ids, STAYS) },
    })
  },
})
