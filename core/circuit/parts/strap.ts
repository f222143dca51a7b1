import { kind } from '../kind.ts'
import { join } from './wire.ts'

/** A bond that an installer sets or takes out: neutral to chassis, where the cord has no ground. */
export const strapKind = kind({
  word: 'strap',
  title: 'Neutral strap',
  example: 'strap supply.N chassis',
  named: 'no',
  round: 3,
  bare: true,
  clauses: {},
  children: {},
  read(line, to) {
    const [one, other, ...extra] = line.bare
    for (const token of extra) to.tell('unknown-word', token, token.text, false, [])
    if (!one || !other) {
      if (!line.told) to.tell('one-end-only', line.head, 'strap', 'strap supply.N chassis')
      return
    }
    const a = to.findTerminal({ text: one.text, at: one })
    const b = to.findTerminal({ text: other.text, at: other })
    if (a !== undefined && b !== undefined) join(a, b, other, {}, to)
  },
})
