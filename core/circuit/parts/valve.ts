import { HOLDS, PULLS_IN } from '../common/coil.ts'
import { type LoadForm, loadClauses, loadElement, loadRatings } from '../common/load.ts'
import { addPart } from '../common/part.ts'
import { valveFigure } from '../figures.ts'
import { allForm, measureForm } from '../forms.ts'
import { type Children, type Context, kind, type Said, type Word } from '../kind.ts'
import type { Element, ElementId, Needs, Sense } from '../model.ts'
import { allLoads } from '../needs.ts'

const coilForm: LoadForm = { figure: valveFigure, works: PULLS_IN, weak: PULLS_IN, holds: HOLDS, wound: true }

const children = {
  coil: { named: true, tags: true, ratings: loadRatings, clauses: { at: measureForm('volts', '120 V') } },
  opens: {
    named: false,
    bare: true,
    clauses: { with: allForm('coil'), stays: allForm('coil', 'open', 'with') },
  },
} as const satisfies Children

/**
 * A valve for gas or water. With one coil it opens as that is fed. With several, an indented line says which of them open
 * it and which keep it open; without it all of them do both.
 */
export const valveKind = kind({
  word: 'valve',
  title: 'Valve',
  example: 'valve WV "Hot water valve" 1-2 120 V 900 ohm area rear',
  named: 'shared',
  round: 2,
  tags: true,
  ratings: loadRatings,
  clauses: loadClauses,
  children,
  read(line, to) {
    const coils = line.children.flatMap((c) => (c.word === 'coil' ? [c] : []))
    const rules = line.children.flatMap((c) => (c.word === 'opens' ? [c] : []))
    const named = coils.map((c): Element => {
      if (c.tags.length === 0 && !c.told) to.tell('no-tags', c.head, `${line.name}:${c.name}`, `coil ${c.name}`)
      const coil = loadElement({ ...c, name: line.name, at: c.head }, to, coilForm)
      return { ...coil, id: `${line.name}:${c.name}`, name: c.name }
    })
    // A rating on the line itself is a coil without a name.
    const own = coils.length === 0 || line.ratings.length > 0 ? [loadElement(line, to, coilForm)] : []
    const kept = addPart(line, to, [...own, ...named])
    to.actor({ name: line.name, part: line.name, states: ['shut', 'open'], sense: openSense(line, rules, kept, to) })
  },
})

type ValveLine = Said<typeof loadClauses, typeof children>
type OpensLine = Extract<ValveLine['children'][number], { readonly word: 'opens' }>

function openSense(line: ValveLine, rules: readonly OpensLine[], coils: readonly Element[], to: Context): Sense {
  const [rule, ...more] = rules
  for (const second of more) to.tell('second-rule', second.head, line.name)
  for (const token of rule?.bare ?? []) {
    if (token.kind !== ',') to.tell('unknown-word', token, token.text, false, Object.keys(children.opens.clauses))
  }
  const opening = coilsNamed(rule?.clauses.with, coils, to)
  const keeping = rule?.clauses.stays ? coilsNamed(rule.clauses.stays, coils, to) : opening
  if (rule && !rule.clauses.with && !rule.told) to.tell('opens-form', rule.head, line.name)
  const fed = (ids: readonly ElementId[], share: number): Needs => (ids.length > 0 ? allLoads(ids, share) : [])
  return { by: 'needs', to: fed(opening, PULLS_IN), stay: fed(keeping, HOLDS) }
}

/** The coils of these names, each that is not there told; all of them where no names are given. */
function coilsNamed(names: readonly Word[] | undefined, coils: readonly Element[], to: Context): readonly ElementId[] {
  if (!names) return coils.map((coil) => coil.id)
  return names.flatMap(({ text, at }) => {
    const coil = coils.find(({ name }) => name === text)
    if (!coil)
      to.tell(
        'unknown-coil',
        at,
        text,
        coils.map(({ name }) => name),
      )
    return coil ? [coil.id] : []
  })
}
