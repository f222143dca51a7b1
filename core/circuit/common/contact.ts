import { contactFigure } from '../figures.ts'
import type { Clauses, Condition, Context, Said, Tags, Word } from '../kind.ts'
import type { Driver, Element, Figure, Law, LawWhen, Load, Role, Test } from '../model.ts'
import { CONTACT } from '../ohms.ts'
import { ALWAYS, NEVER } from '../test.ts'

/** What most kinds have in common: an element between two tags, and a part of such elements. */

export type AnyLine = Pick<Said<Clauses>, 'name' | 'label' | 'head' | 'at' | 'tags'> & {
  readonly clauses: { readonly area?: { readonly value: Word; readonly at: Word['at'] } }
}

/** The tags of a two-terminal part: as typed, else `1` and `2`. More than one pair is told. */
export function onePair(line: Pick<AnyLine, 'name' | 'tags' | 'head'>, to: Context): Tags {
  const [first, second] = line.tags
  if (second) {
    to.tell(
      'one-pair-only',
      second.at,
      `${line.name} has one element, so it takes one pair of tags.`,
      'Take the second pair out, or give it a part of its own.',
    )
  }
  return first ?? { pair: ['1', '2'], at: line.head }
}

export interface ElementParts {
  readonly name: string
  readonly role: Role
  readonly laws: readonly LawWhen[]
  readonly figure: Figure
  readonly note?: string
  readonly load?: Load
  readonly throwOf?: string
  readonly charted?: true
}

/** An element of part `line.name` between the two tags. */
export function element(line: Pick<AnyLine, 'name'>, to: Context, tags: Tags, it: ElementParts): Element {
  const [a, b] = tags.pair
  return {
    id: `${line.name}:${it.name}`,
    part: line.name,
    name: it.name,
    role: it.role,
    ends: [to.tag(line.name, a, tags.at), to.tag(line.name, b, tags.at)],
    laws: it.laws,
    figure: it.figure,
    note: it.note ?? '',
    at: tags.at,
    ...(it.load && { load: it.load }),
    ...(it.charted && { charted: it.charted }),
    ...(it.throwOf !== undefined && { throwOf: it.throwOf }),
  }
}

/** The name of an element that the text gives no name: its tags, without a part they may point to. */
export const pairName = (tags: Tags): string => tags.pair.join('-')

/** Adds the part that owns the elements. */
export function addPart(line: AnyLine, kindWord: string, to: Context, elements: readonly Element[]): void {
  const area = to.findArea(line.clauses.area?.value)
  to.part(
    { name: line.name, kind: kindWord, label: line.label, at: line.at, ...(area !== undefined && { area }) },
    elements,
  )
}

/** One law under a condition. */
export const lawWhen = (when: Test, law: Law): readonly LawWhen[] => [{ when, law }]
/** The same law whatever the state. */
export const lawAlways = (law: Law): readonly LawWhen[] => [{ when: ALWAYS, law }]

/** A part with one contact under a `when`. Without one it is told and never closes. */
export function contactPart(
  line: AnyLine & { readonly clauses: { readonly when?: { readonly value: Condition } } },
  to: Context,
  by: Driver,
): void {
  const tags = onePair(line, to)
  const { when } = line.clauses
  if (!when) {
    to.tell(
      'no-condition',
      line.head,
      `${line.name} does not say when it is closed.`,
      'Add `when` and a control with its position: `when door=shut`.',
    )
  }
  const test = when ? to.test(when.value) : NEVER
  const contact = element(line, to, tags, {
    name: pairName(tags),
    role: 'contact',
    laws: lawWhen(test, CONTACT),
    figure: contactFigure(to.holdsAtRest(test) ? 'closed' : 'open', by),
  })
  addPart(line, by === 'push' ? 'button' : 'switch', to, [contact])
}
