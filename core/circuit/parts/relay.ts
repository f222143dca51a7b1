import { actedContact, actedContactForm } from '../common/acted.ts'
import { HOLDS, PULLS_IN } from '../common/coil.ts'
import { loadRatings, ratedOf } from '../common/load.ts'
import { addPart, element } from '../common/part.ts'
import { coilFigure } from '../figures.ts'
import { measureForm, nameForm, thresholdForm } from '../forms.ts'
import { type Children, kind } from '../kind.ts'
import { inductive, lawAlways } from '../laws.ts'
import { allLoads } from '../needs.ts'

const children = {
  coil: {
    named: false,
    tags: true,
    ratings: [...loadRatings, 'voltamperes'],
    clauses: { at: measureForm('volts', '24 V'), in: thresholdForm('19 V'), out: thresholdForm('8 V') },
  },
  contact: actedContactForm('in', 'out'),
} as const satisfies Children

/** A coil that works contacts: pulled in from the volts it pulls in at, dropped out below those it holds to. */
const relayForm = (word: string, title: string, name: string) =>
  kind({
    word,
    title,
    example: `${word} ${name} "${title}" area top\n  coil A1-A2 24 V 200 ohm\n  contact 1-2 closed when in`,
    named: 'shared',
    round: 2,
    clauses: { area: nameForm('area') },
    children,
    read(line, to) {
      const [coil, ...more] = line.children.flatMap((c) => (c.word === 'coil' ? [c] : []))
      for (const second of more) to.tell('second-coil', second.head, line.name)
      if (!coil && !line.told) to.tell('no-coil', line.head, line.name)
      const rated = coil && ratedOf({ ...coil, name: line.name }, to)
      const { in: pull, out: drop } = coil?.clauses ?? {}
      const shareOf = (volts: number | undefined, usual: number): number =>
        volts === undefined || !rated ? usual : volts / rated.volts
      const works = shareOf(pull?.volts, PULLS_IN)
      const holds = Math.min(works, shareOf(drop?.volts, HOLDS))
      const [tags, second] = coil?.tags ?? []
      if (second) to.tell('one-pair-only', second.at, line.name)
      if (coil && !tags && !coil.told) to.tell('no-tags', coil.head, `${line.name}:coil`, 'coil')
      const elements = line.children.flatMap((c) => {
        if (c.word === 'contact') return actedContact(line, c, to, ['out', 'in'], 'relay')
        if (c !== coil || !tags) return []
        return [
          element(line, to, tags, {
            name: 'coil',
            role: 'load',
            laws: rated ? lawAlways(inductive(rated.ohms, rated.dc)) : [],
            figure: coilFigure,
            note: rated?.note ?? '',
            load: { volts: rated?.volts ?? 0, works, weak: Math.max(works, 0.8), holds },
          }),
        ]
      })
      const coils = addPart(line, to, elements).flatMap((e) => (e.role === 'load' ? [e.id] : []))
      to.actor({
        name: line.name,
        part: line.name,
        states: ['out', 'in'],
        sense: {
          by: 'needs',
          to: coils.length > 0 ? allLoads(coils, works) : [],
          stay: coils.length > 0 ? allLoads(coils, holds) : [],
          ...(pull?.seconds !== undefined && { toSeconds: pull.seconds }),
          ...(drop?.seconds !== undefined && { backSeconds: drop.seconds }),
        },
      })
    },
  })

export const relayKind = relayForm('relay', 'Relay', 'K1')
/** A relay for the current of motors and heaters: the same part under the name that is on its label. */
export const contactorKind = relayForm('contactor', 'Contactor', 'K2')
