import { addPart, element, pairName } from '../common/part.ts'
import { rectifierFigure } from '../figures.ts'
import { nameForm } from '../forms.ts'
import { kind } from '../kind.ts'
import { lawAlways, resistance } from '../laws.ts'

/** A diode passes working current nearly free, and shows an ohmmeter of low test voltage next to nothing; common practice, no source. */
const PASSES_OHMS = 0.1
const METER_OHMS = 1e7

/**
 * Diodes, each between two tags in the way of its current; a bridge has one on each side of what it feeds:
 * `rectifier BR L-+ N-"−"`. A steady state of one frequency knows no direction: a load behind it has the volts before it.
 */
export const rectifierKind = kind({
  word: 'rectifier',
  title: 'Rectifier',
  example: 'rectifier D1 "Brake diode" A-K area top',
  named: 'shared',
  round: 2,
  tags: true,
  clauses: { area: nameForm('area') },
  children: {},
  read(line, to) {
    const pairs = line.tags.length > 0 ? line.tags : [{ pair: ['1', '2'] as const, at: line.head }]
    addPart(
      line,
      to,
      pairs.map((tags) =>
        element(line, to, tags, {
          name: pairName(tags),
          role: 'passive',
          laws: lawAlways(resistance(PASSES_OHMS, METER_OHMS)),
          figure: rectifierFigure,
        }),
      ),
    )
  },
})
