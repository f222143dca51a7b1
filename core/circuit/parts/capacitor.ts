import { ratingOf } from '../common/load.ts'
import { addPart, element, onePair, pairName } from '../common/part.ts'
import { capacitorFigure } from '../figures.ts'
import { nameForm } from '../forms.ts'
import { kind } from '../kind.ts'
import { lawAlways } from '../laws.ts'

/** `8 µF`, `470 nF`: three figures, as a person would read it aloud. */
export function faradText(farads: number): string {
  const [n, unit] =
    farads >= 1e-7 ? [farads * 1e6, 'µF'] : farads >= 1e-9 ? [farads * 1e9, 'nF'] : [farads * 1e12, 'pF']
  return `${Number(n.toPrecision(3))} ${unit}`
}

/** A capacitor in the way of a winding, or across a supply; its volts are only kept. */
export const capacitorKind = kind({
  word: 'capacitor',
  title: 'Capacitor',
  example: 'capacitor C1 "Run capacitor" 8 uF 450 V area rear',
  named: 'shared',
  round: 2,
  tags: true,
  ratings: ['farads', 'volts'],
  clauses: { area: nameForm('area') },
  children: {},
  read(line, to) {
    const farads = ratingOf(line, 'farads')
    if (farads === undefined && !line.told) to.tell('no-farads', line.head, line.name)
    const tags = onePair(line, to)
    const body = element(line, to, tags, {
      name: pairName(tags),
      role: 'passive',
      laws: farads === undefined ? [] : lawAlways({ kind: 'capacitance', farads }),
      figure: capacitorFigure,
      note: farads === undefined ? '' : faradText(farads),
    })
    addPart(line, to, [body])
  },
})
