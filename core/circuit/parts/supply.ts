import { ratingOf } from '../common/load.ts'
import { partOf } from '../common/part.ts'
import { flagForm, measureForm, nameForm, phraseForm } from '../forms.ts'
import { kind } from '../kind.ts'
import { GROUND_OHMS, lawAlways, lawWhen, SOURCE_OHMS } from '../laws.ts'
import type { Element, Law, Pole } from '../model.ts'
import { is } from '../test.ts'

/** The kinds of supply by the word that follows `supply`: each pole as a share of the line volts, about neutral. */
const SYSTEMS: ReadonlyMap<string, readonly { readonly name: string; readonly share: number }[]> = new Map([
  // Two legs of one winding, each half the volts, in opposite phase; ground is bonded to neutral at the panel.
  [
    'split-phase',
    [
      { name: 'L1', share: 0.5 },
      { name: 'L2', share: -0.5 },
      { name: 'N', share: 0 },
      { name: 'G', share: 0 },
    ],
  ],
])
const USUAL_VOLTS = 240
const USUAL_HERTZ = 60

const clauses = {
  by: phraseForm('cord'),
  'hard-wired': flagForm(),
  breaker: measureForm('amps', '30 A'),
  source: measureForm('ohms', '0.05 ohm'),
  ground: measureForm('ohms', '0.1 ohm'),
  area: nameForm('area'),
}

/** Where the unit's power comes from. */
export const supplyKind = kind({
  word: 'supply',
  title: 'Supply',
  example: 'supply split-phase 240 V 60 Hz by cord breaker 30 A area rear',
  named: 'no',
  once: true,
  round: 1,
  bare: true,
  ratings: ['volts', 'hertz'],
  clauses,
  children: {},
  read(line, to) {
    const [word, ...extra] = line.bare
    const system = word && SYSTEMS.get(word.text)
    if (!system) {
      if (word || !line.told) to.tell('unknown-supply', word ?? line.head, word?.text, [...SYSTEMS.keys()])
      to.lost('supply')
      return
    }
    for (const token of extra) to.tell('unknown-word', token, token.text, false, Object.keys(clauses))
    const typed = ratingOf(line, 'volts')
    if (typed === undefined && !line.told) to.tell('volts-assumed', line.head, USUAL_VOLTS)
    const volts = typed ?? USUAL_VOLTS
    const title = `${volts} V ${word.text}`
    const { breaker, source, ground } = line.clauses
    const poles = system.map(
      ({ name, share }): Pole => ({
        terminal: `supply.${name}`,
        behind: `behind ${name}`,
        re: share * volts,
        im: 0,
        name,
      }),
    )
    const isSwitched = (pole: Pole): boolean => breaker !== undefined && pole.re !== 0
    const sources = poles.map((pole): Element => {
      const ohms = pole.name === 'G' ? (ground?.si ?? GROUND_OHMS) : (source?.si ?? SOURCE_OHMS)
      const law: Law = { kind: 'path', ohms }
      return {
        id: `supply:${pole.name}`,
        part: 'supply',
        name: pole.name,
        role: 'source',
        ends: [pole.behind, pole.terminal],
        laws: isSwitched(pole) ? lawWhen(is('breaker', ['on']), law) : lawAlways(law),
        figure: { kind: 'source' },
        note: '',
        at: line.head,
      }
    })
    to.supply({
      title,
      hertz: ratingOf(line, 'hertz') ?? USUAL_HERTZ,
      poles,
      ...(breaker && { breaker: breaker.si }),
    })
    to.part(partOf({ ...line, name: 'supply', label: title }, to), sources)
    if (breaker) {
      to.actor({
        name: 'breaker',
        part: 'supply',
        states: ['on', 'tripped'],
        sense: { by: 'current', elements: poles.filter(isSwitched).map((p) => `supply:${p.name}`), amps: breaker.si },
      })
    }
  },
})
