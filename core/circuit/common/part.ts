import type { Context, Said, SaidLine, Tags, Word } from '../kind.ts'
import type { Element, Figure, LawWhen, Load, Role } from '../model.ts'

/** What most kinds have in common: an element between two tags, and a part of such elements. */

/** A line of a part: all that the helpers here need of it. */
export type PartLine = Pick<Said, 'word' | 'name' | 'label' | 'head' | 'at' | 'tags' | 'told'> & {
  readonly clauses: { readonly area?: Word }
}

/** The tags of a two-terminal part: as typed, else `1` and `2`. More than one pair is told. */
export function onePair(line: PartLine, to: Context): Tags {
  const [first, second] = line.tags
  if (second) to.tell('one-pair-only', second.at, line.name)
  return first ?? { pair: ['1', '2'], at: line.head }
}

export interface ElementForm {
  readonly name: string
  readonly role: Role
  readonly laws: readonly LawWhen[]
  readonly figure: Figure
  readonly note?: string
  readonly load?: Load
  readonly throwOf?: string
  readonly charted?: true
  readonly passes?: true
}

/** An element of part `line.name` between the two tags. */
export function element(line: Pick<SaidLine, 'name'>, to: Context, { pair, at }: Tags, it: ElementForm): Element {
  const [a, b] = pair
  const { name, note = '', ...rest } = it
  return {
    id: `${line.name}:${name}`,
    part: line.name,
    name,
    ends: [to.tag(line.name, a, at), to.tag(line.name, b, at)],
    note,
    at,
    ...rest,
  }
}

/** The name of an element that the text gives no name: its tags as typed, without quotes. */
export const pairName = (tags: Tags): string => tags.pair.join('-')

/** Adds the part that owns the elements; returns those that are in the circuit now. */
export function addPart(line: PartLine, to: Context, elements: readonly Element[]): readonly Element[] {
  return to.part(partOf(line, to), elements)
}

/** A part as its line says, without elements and terminals. */
export function partOf(line: Omit<PartLine, 'tags' | 'told'>, to: Context) {
  const { word, name, label, at, clauses } = line
  const area = clauses.area && to.findName('area', clauses.area)
  return { name, kind: word, label, at, ...(area !== undefined && { area }) }
}
