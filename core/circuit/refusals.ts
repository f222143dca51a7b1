import type { Problem, Span } from '../netlist/index.ts'

/** Why an edit of a circuit cannot be made, by code: one sentence that says why, one that says what to do. */
interface Wording {
  readonly message: string
  readonly hint: string
}

const messages = {
  'no-such-thing': (kind: string, name: string): Wording => ({
    message: `There is no ${kind} “${name}”.`,
    hint: 'Choose one that is in the text.',
  }),
  'no-such-kind': (kind: string): Wording => ({
    message: `There is no kind of part “${kind}”.`,
    hint: 'Choose one of the kinds of the language.',
  }),
  'no-such-position': (control: string, position: string): Wording => ({
    message: `${control} has no position “${position}”.`,
    hint: 'Choose one that its line names.',
  }),
  'no-such-terminal': (terminal: string): Wording => ({
    message: `There is no terminal ${terminal}.`,
    hint: 'Choose one that a part has.',
  }),
  'no-such-wire': (wire: string): Wording => ({
    message: `There is no wire ${wire}.`,
    hint: 'Choose one that is in the text.',
  }),
  'no-such-end': (wire: string, terminal: string): Wording => ({
    message: `The wire ${wire} does not end at ${terminal}.`,
    hint: 'Choose one of its two ends.',
  }),
  'no-such-clause': (clause: string, kind: string): Wording => ({
    message: `A \`${kind}\` has no \`${clause}\`.`,
    hint: 'Choose one of the clauses its line takes.',
  }),
  'no-such-cell': (contact: string, position: string): Wording => ({
    message: `The chart has no cell for ${contact} at ${position}.`,
    hint: 'Add the row or the column to the chart first.',
  }),
  'bad-name': (name: string): Wording => ({
    message: `“${name}” cannot be a name.`,
    hint: 'Write a letter, then letters, digits and `_`.',
  }),
  'bad-position': (name: string): Wording => ({
    message: `“${name}” cannot be a position.`,
    hint: 'Write something without quotes.',
  }),
  'bad-tag': (tag: string): Wording => ({
    message: `“${tag}” cannot be a tag.`,
    hint: 'Write something without dots and quotes.',
  }),
  'bad-value': (value: string, form: string): Wording => ({
    message: `“${value}” cannot stand there.`,
    hint: `Write it in the form ${form}.`,
  }),
  'name-in-use': (name: string): Wording => ({
    message: `“${name}” is in use.`,
    hint: 'Choose another name.',
  }),
  'not-written': (word: string): Wording => ({
    message: `“${word}” is not written in the text; the language gives it.`,
    hint: 'Change the line by hand.',
  }),
  'label-needed': (word: string): Wording => ({
    message: `“${word}” would have to stand in quotes right behind the name, where it would be the label.`,
    hint: 'Give the line a label first.',
  }),
  'same-terminal': (terminal: string): Wording => ({
    message: `Both ends of the wire would be ${terminal}.`,
    hint: 'Choose another terminal.',
  }),
  'wired-already': (one: string, other: string): Wording => ({
    message: `${one} and ${other} are already joined by a wire.`,
    hint: 'Choose another terminal.',
  }),
  'spoken-of': (name: string): Wording => ({
    message: `Another line speaks of ${name} and would say nothing without it.`,
    hint: 'Change that line first.',
  }),
  'would-be-wrong': (problem: string): Wording => ({
    message: `The text would be wrong after it: ${problem}`,
    hint: 'Choose something else.',
  }),
  'would-change-more': (): Wording => ({
    message: 'The text would say something else in other places too.',
    hint: 'Change the text by hand.',
  }),
}

export type RefusalCode = keyof typeof messages
export type RefusalWords = { readonly [C in RefusalCode]: Parameters<(typeof messages)[C]> }

/** An edit that was not made, with the words of the text that stand against it. */
export interface Refusal extends Problem {
  readonly code: RefusalCode
}

const table: { readonly [C in RefusalCode]: (...words: RefusalWords[C]) => Wording } = messages

export function refusal<C extends RefusalCode>(code: C, { from, to }: Span, ...words: RefusalWords[C]): Refusal {
  return { code, severity: 'error', from, to, ...table[code](...words) }
}
