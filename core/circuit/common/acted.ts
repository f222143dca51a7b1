import { contactFigure } from '../figures.ts'
import { phraseForm, tagForm, tagOf } from '../forms.ts'
import type { ChildForm, Clauses, Context, SaidLine, Word } from '../kind.ts'
import { CONTACT, lawWhen } from '../laws.ts'
import type { Driver, Element, Test } from '../model.ts'
import { is, NEVER } from '../test.ts'
import { element, pairName } from './part.ts'

/** Contacts that the state of their own part works: those of a relay, of an overload relay. */

/** `contact 1-2 closed when in`, or with two sides `contact C to NO when in else NC`; words in quotes say what it is for. */
export const actedContactForm = <const S extends string>(...states: readonly S[]) =>
  ({
    named: false,
    tags: true,
    bare: true,
    clauses: {
      closed: phraseForm(...states.map((s): `when ${S}` => `when ${s}`)),
      to: tagForm,
      when: phraseForm(...states),
      else: tagForm,
    },
  }) as const satisfies ChildForm<Clauses>

type ContactLine = SaidLine & {
  readonly clauses: {
    readonly closed?: `when ${string}`
    readonly to?: Word
    readonly when?: string
    readonly else?: Word
  }
}

/** The contact, or both sides of a changeover, of an indented line; `rest` and `away` are the two states of its part. */
export function actedContact(
  line: { readonly name: string },
  child: ContactLine,
  to: Context,
  states: readonly [rest: string, away: string],
  by: Driver,
): readonly Element[] {
  const { closed, to: one, when, else: other } = child.clauses
  const [tags, second] = child.tags
  const words = child.bare.filter((token) => token.kind === 'string')
  const [first, ...extra] = child.bare.filter((token) => token.kind !== 'string')
  const note = words.map((token) => token.text).join(' ')
  const common = first && !tags ? tagOf(first) : undefined
  for (const token of common === undefined ? child.bare.filter((t) => t.kind !== 'string') : extra) {
    to.tell('unknown-word', token, token.text, true, ['closed', 'to', 'when', 'else'])
  }
  const tell = child.told ? () => {} : to.tell
  if (tags) {
    if (second) to.tell('one-pair-only', second.at, line.name)
    const name = pairName(tags)
    const state = closed?.slice('when '.length)
    if (state === undefined) tell('no-condition', child.head, `${line.name}:${name}`, `closed when ${states[1]}`)
    return [
      element(line, to, tags, {
        name,
        role: 'contact',
        laws: lawWhen(state === undefined ? NEVER : is(line.name, [state]), CONTACT),
        figure: contactFigure(by),
        note: note || (state === undefined ? '' : `when ${state}`),
      }),
    ]
  }
  if (common === undefined || !one || !other || when === undefined) {
    tell('acted-contact-form', child.head, line.name, states[1])
    return []
  }
  const otherState = when === states[0] ? states[1] : states[0]
  const side = (tag: string, test: Test, throwOf?: string): Element => {
    const pair = { pair: [common, tag] as const, at: first ?? child.head }
    return element(line, to, pair, {
      name: pairName(pair),
      role: 'contact',
      laws: lawWhen(test, CONTACT),
      figure: contactFigure(by),
      note,
      ...(throwOf !== undefined && { throwOf }),
    })
  }
  const toward = side(one.text, is(line.name, [when]))
  return [toward, side(other.text, is(line.name, [otherState]), toward.id)]
}
