import { flagForm, measureForm, nameForm, wordForm } from '../forms.ts'
import { kind } from '../kind.ts'
import type { Element, Pole } from '../model.ts'
import { GROUND_OHMS, SOURCE_OHMS } from '../ohms.ts'
import { is } from '../test.ts'
import { lawAlways, lawWhen } from './contact.ts'
import { ratingOf } from './load.ts'

/** The kinds of supply by the word that follows `supply`: each pole as a share of the line volts, about neutral. */
const SYSTEMS: Readonly<Record<string, readonly { readonly name: string; readonly share: number }[]>> = {
  // Two legs of one winding, each half the volts, in opposite phase; ground is bonded to neutral at the panel.
  'split-phase': [
    { name: 'L1', share: 0.5 },
    { name: 'L2', share: -0.5 },
    { name: 'N', share: 0 },
    { name: 'G', share: 0 },
  ],
}

/** Where the unit's power comes from. */
export const supplyKind = kind({
  word: 'supply',
  title: 'Supply',
  example: 'supply split-phase 240 V 60 Hz by cord breaker 30 A area block',
  named: 'no',
  round: 1,
  bare: true,
  ratings: ['volts', 'hertz'],
  clauses: {
    by: wordForm('cord'),
    'hard-wired': flagForm(),
    breaker: measureForm('amps', '30 A'),
    source: measureForm('ohms', '0.05 ohm'),
    ground: measureForm('ohms', '0.1 ohm'),
    area: nameForm('area'),
  },
  children: {},
  read(line, to) {
    if (to.hasSupply()) {
      to.tell('second-supply', line.head, 'The circuit has a supply already.', 'Take one of the two lines out.')
      return
    }
    const [word] = line.bare
    const system = word && SYSTEMS[word.text]
    if (!system) {
      to.tell(
        'unknown-supply',
        word ?? line.head,
        word ? `No supply is called “${word.text}”.` : 'The line does not say what kind of supply it is.',
        `Write one of: ${Object.keys(SYSTEMS).join(', ')}.`,
      )
      return
    }
    let volts = ratingOf(line, 'volts')
    if (!volts) {
      to.tell(
        'no-volts',
        line.head,
        'The supply has no volts; 240 V is taken.',
        'Write the volts between its legs: `240 V`.',
        'warning',
      )
      volts = 240
    }
    const ohms = (name: string) =>
      name === 'G' ? (line.clauses.ground?.value.si ?? GROUND_OHMS) : (line.clauses.source?.value.si ?? SOURCE_OHMS)
    const { breaker, area } = line.clauses
    const poles = system.map(
      ({ name, share }): Pole => ({
        terminal: `supply.${name}`,
        behind: `behind ${name}`,
        re: share * volts,
        im: 0,
        name,
      }),
    )
    const legs = breaker ? poles.filter((p) => p.re !== 0) : []
    const elements = poles.map(
      (pole): Element => ({
        id: `supply:${pole.name}`,
        part: 'supply',
        name: pole.name,
        role: 'source',
        ends: [pole.behind, pole.terminal],
        laws: legs.includes(pole)
          ? lawWhen(is('breaker', ['on']), { kind: 'path', ohms: ohms(pole.name) })
          : lawAlways({ kind: 'path', ohms: ohms(pole.name) }),
        figure: { kind: 'source' },
        note: '',
        at: line.head,
      }),
    )
    to.supply({
      name: 'supply',
      title: `${volts} V ${word.text}`,
      hertz: ratingOf(line, 'hertz') ?? 60,
      poles,
      ...(breaker && { breaker: breaker.value.si }),
    })
    if (breaker) {
      to.actor({
        name: 'breaker',
        part: 'supply',
        states: ['on', 'tripped'],
        sense: { by: 'current', elements: legs.map((p) => `supply:${p.name}`), amps: breaker.value.si },
      })
    }
    const place = to.findArea(area?.value)
    to.part(
      {
        name: 'supply',
        kind: 'supply',
        label: `${volts} V ${word.text}`,
        at: line.at,
        ...(place !== undefined && { area: place }),
      },
      elements,
    )
  },
})
