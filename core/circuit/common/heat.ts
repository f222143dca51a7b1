import { contactFigure } from '../figures.ts'
import type { Context, SaidLine, Tags, Word } from '../kind.ts'
import { CONTACT, lawWhen } from '../laws.ts'
import type { Element, Sense, Temperature } from '../model.ts'
import { ANYWAY } from '../needs.ts'
import { celsius, temperatureText } from '../temperature.ts'
import { is } from '../test.ts'
import { element, pairName } from './part.ts'

type Said<W extends string> = Pick<SaidLine, 'name' | 'head' | 'told'> & {
  readonly clauses: { readonly [K in W]?: Temperature }
}

/** A temperature that the line must give; told when it is absent. */
export function needs<W extends string>(line: Said<W>, to: Context, word: W, example: string): Temperature | undefined {
  const given = line.clauses[word]
  if (!given && !line.told) to.tell('no-temperature', line.head, line.name, word, example)
  return given
}

/**
 * What is taken between opening and closing where the body of a disc thermostat shows one of them only. Common practice,
 * no source: cycling ones have 8 to 20 °C, limits 15 to 40 °C.
 */
const USUAL_DIFFERENCE = { C: 15, F: 25 } as const

/** A temperature so much lower, in the unit it was typed in. */
export const lower = ({ value, unit }: Temperature, by: Readonly<Record<'C' | 'F', number>>): Temperature => ({
  value: Number((value - by[unit]).toFixed(1)),
  unit,
})

/** Where heat moves a contact and where it comes back. */
export interface Swing {
  readonly up?: Temperature
  readonly down?: Temperature
  /** It closes when it gets hot, and opens when it is cold again. */
  readonly onRise: boolean
}

/** Opening and closing of a line; where it gives one of them the other is taken, `difference` below, and told. */
export function swingOf(line: Said<'opens' | 'closes'>, to: Context, difference = USUAL_DIFFERENCE): Swing {
  const { opens, closes } = line.clauses
  if (!opens && !closes) {
    needs(line, to, 'opens', '68 C')
    return { onRise: false }
  }
  const onRise = !opens || (closes !== undefined && celsius(closes) > celsius(opens))
  const up = onRise ? closes : opens
  if (!up) return { onRise }
  const down = (onRise ? opens : closes) ?? lower(up, difference)
  if (!opens || !closes) {
    const [gives, lacks] = onRise ? ['closes', 'opens'] : ['opens', 'closes']
    const taken = `${down.value} ${down.unit}`
    if (!line.told) to.tell('differential-assumed', line.head, line.name, gives, lacks, taken)
  } else if (celsius(opens) === celsius(closes)) to.tell('same-temperature', line.head, line.name)
  return { up, down, onRise }
}

/** The contact between two tags of a part whose actor is `cold` or `hot`. */
export function heatContact(line: { readonly name: string }, to: Context, tags: Tags, swing: Swing): Element {
  const { up, onRise } = swing
  return element(line, to, tags, {
    name: pairName(tags),
    role: 'contact',
    laws: lawWhen(is(line.name, [onRise ? 'hot' : 'cold']), CONTACT),
    figure: contactFigure('heat'),
    note: up ? `${onRise ? 'closes' : 'opens'} ${temperatureText(up)}` : '',
  })
}

/** Senses its zone; without a zone or a temperature nothing ever moves it. */
export function heatSense(to: Context, zone: Word | undefined, up: Temperature | undefined, down?: Temperature): Sense {
  const name = zone && to.findName('zone', zone)
  if (name === undefined || !up) return { by: 'nothing' }
  return { by: 'heat', zone: name, points: [{ when: ANYWAY, up, ...(down && { down }) }] }
}
