import { ohmText, ratedOf, ratingOf } from '../common/load.ts'
import { addPart, element, onePair, pairName } from '../common/part.ts'
import { igniterFigure } from '../figures.ts'
import { measureForm, nameForm, phraseThenMeasureForm } from '../forms.ts'
import { kind } from '../kind.ts'
import { lawWhen, resistance } from '../laws.ts'
import { anyLoad } from '../needs.ts'
import { is } from '../test.ts'

/** Common practice, no source: a silicon carbide igniter glows after some 15 to 60 s, and lights gas some seconds more. */
const GLOWS_AFTER = 30
const STAYS_HOT = 10
/** The share of its rated current from which it heats. */
const WORKS = 0.5

/** A hot-surface igniter: its resistance falls as it gets hot, some seconds after it is fed. */
export const igniterKind = kind({
  word: 'igniter',
  title: 'Igniter',
  example: 'igniter IG "Igniter" 120 V cold 100 ohm hot 40 ohm glows after 30 s stays hot 20 s area rear',
  named: 'shared',
  round: 2,
  tags: true,
  ratings: ['volts', 'amps', 'watts'],
  clauses: {
    at: measureForm('volts', '120 V'),
    cold: measureForm('ohms', '100 ohm'),
    hot: measureForm('ohms', '40 ohm'),
    glows: phraseThenMeasureForm('after', 'minutes', '30 s'),
    stays: phraseThenMeasureForm('hot', 'minutes', '20 s'),
    area: nameForm('area'),
  },
  children: {},
  read(line, to) {
    const { cold, hot, glows, stays } = line.clauses
    const rated = hot ? hotRated(line.clauses.at?.si ?? ratingOf(line, 'volts'), hot.si) : ratedOf(line, to)
    if (!rated && hot && !line.told) to.tell('no-volts', line.head, line.name)
    const tags = onePair(line, to)
    const laws = rated
      ? [
          ...lawWhen(is(line.name, ['hot']), resistance(rated.ohms)),
          ...lawWhen(is(line.name, ['cold']), resistance(cold?.si ?? rated.dc)),
        ]
      : []
    const kept = addPart(line, to, [
      element(line, to, tags, {
        name: pairName(tags),
        role: 'load',
        laws,
        figure: igniterFigure,
        note: rated?.note ?? '',
        load: { volts: rated?.volts ?? 0, works: WORKS, weak: 0.8 },
      }),
    ])
    const fed = anyLoad(
      kept.map((e) => e.id),
      WORKS,
    )
    to.actor({
      name: line.name,
      part: line.name,
      states: ['cold', 'hot'],
      sense: {
        by: 'needs',
        to: fed,
        stay: fed,
        toSeconds: glows ? glows.si * 60 : GLOWS_AFTER,
        backSeconds: stays ? stays.si * 60 : STAYS_HOT,
      },
    })
  },
})

const hotRated = (volts: number | undefined, ohms: number) =>
  volts === undefined ? undefined : { volts, ohms, dc: ohms, note: `${ohmText(ohms)} hot` }
