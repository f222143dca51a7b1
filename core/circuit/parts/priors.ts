import { kind } from '../kind.ts'

/** This unit's own failure rates: kept word by word, understood where suspects are ranked. */
export const priorsKind = kind({
  word: 'priors',
  title: 'Failure rates',
  example: 'priors OT open 30 stuck 5',
  named: 'no',
  round: 3,
  bare: true,
  clauses: {},
  children: {},
  read: (line, to) => to.priors(line.bare.map((token) => token.text)),
})
