import { partOf } from '../common/part.ts'
import { listForm, nameForm } from '../forms.ts'
import { type Context, kind, type Word } from '../kind.ts'
import type { Needs } from '../model.ts'
import { bothNeeds, standsIn } from '../needs.ts'

/** Where gas burns: lit once its valves are open and something hot is there, and until a valve shuts. */
export const burnerKind = kind({
  word: 'burner',
  title: 'Burner',
  example: 'burner B "Burner" lit by IG fed by WV area rear',
  named: 'shared',
  round: 2,
  clauses: { lit: listForm('by', 'igniter'), fed: listForm('by', 'valve'), area: nameForm('area') },
  children: {},
  read(line, to) {
    const { lit, fed } = line.clauses
    if ((!lit || !fed) && !line.told) to.tell('burner-form', line.head, line.name)
    to.part(partOf(line, to), [])
    const actor = { name: line.name, part: line.name, states: ['out', 'lit'] } as const
    // There from now on for zones that it warms; what lights and feeds it may stand in later lines.
    to.actor({ ...actor, sense: { by: 'nothing' } })
    if (!lit || !fed) return
    to.later(() => {
      const gas = fed.map((valve) => awayNeeds(valve, to)).reduce(bothNeeds)
      const flame = lit.flatMap((igniter) => awayNeeds(igniter, to))
      to.actor({ ...actor, sense: { by: 'needs', to: bothNeeds(flame, gas), stay: gas } })
    })
  },
})

/** That a thing is away from rest; that a control, a pilot or a tap, stands so that there is flame or gas. */
function awayNeeds(word: Word, to: Context): Needs {
  const mover = to.findMover(word)
  if (!mover) return []
  if (!('positions' in mover)) return standsIn(mover.name, [mover.states[0]], true)
  const given = mover.positions.filter((p) => p === 'lit' || p === 'open')
  if (given.length === 0) to.tell('unknown-position', word.at, mover.name, 'lit', mover.positions)
  return standsIn(mover.name, given)
}
