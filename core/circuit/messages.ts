import { nearest } from '../netlist/index.ts'
import type { Problem, Span } from '../netlist/tree.ts'

/**
 * All that can be wrong with the meaning of a text, by code: one sentence that says what is wrong, one that says what to
 * do. An error was not understood as typed; a warning was, and may be a slip. SPEC.md shows a line for each.
 */

interface Wording {
  readonly message: string
  readonly hint: string
  readonly severity?: 'warning'
}

/** Names in a row, cut where nobody would read on. */
function list(names: readonly string[]): string {
  const most = 12
  return names.length > most ? `${names.slice(0, most).join(', ')} and ${names.length - most} more` : names.join(', ')
}

const words = (known: readonly string[]): string => known.map((word) => `\`${word}\``).join(', ')

/** The way out of a name that is not known: the one that was meant, else all there are. */
function suggest(name: string, known: readonly string[], lead: string, none: string): string {
  const guess = nearest(name, known)
  if (guess !== undefined) return `Did you mean ${guess}?`
  return known.length > 0 ? `${lead} ${list(known)}.` : none
}

/** The same for words of the language. */
function suggestWord(word: string, known: readonly string[], lead: string, none: string): string {
  const guess = nearest(word, known)
  if (guess !== undefined) return `Did you mean \`${guess}\`?`
  return known.length > 0 ? `${lead} ${words(known)}.` : none
}

/** `a zone`, `an area`. */
export const withArticle = (what: string): string => `${/^[aeiou]/.test(what) ? 'an' : 'a'} ${what}`

const unknownName =
  (what: string) =>
  (name: string, known: readonly string[]): Wording => ({
    message: `No ${what} is called “${name}”.`,
    hint: suggest(name, known, 'There are:', `Add a line for it, or correct the name.`),
  })

export const messages = {
  // The first word of a line, its name, and whose line it is.
  'unknown-kind': (word: string, known: readonly string[]): Wording => ({
    message: `No line begins with “${word}”.`,
    hint: suggestWord(word, known, 'A line begins with one of:', ''),
  }),
  'unknown-line': (word: string, kind: string, known: readonly string[]): Wording => ({
    message:
      known.length > 0 ? `No line under \`${kind}\` begins with “${word}”.` : `No line belongs under \`${kind}\`.`,
    hint: suggestWord(word, known, 'It may be:', 'Begin this line at the left edge.'),
  }),
  'indented-too-far': (word: string): Wording => ({
    message: `This line is indented under \`${word}\`, which takes no lines of its own.`,
    hint: 'Begin it where the line above begins.',
    severity: 'warning',
  }),
  'no-name': (kind: string, found: string | undefined): Wording => ({
    message:
      found === undefined ? `This \`${kind}\` has no name.` : `“${found}” cannot be the name of this \`${kind}\`.`,
    hint: 'Write a name after the first word: a letter, then letters, digits and `_`.',
  }),
  'name-taken': (name: string, kind: string): Wording => ({
    message: `The name ${name} belongs to ${withArticle(kind)} already.`,
    hint: 'Give one of the two another name.',
  }),
  'reserved-name': (name: string): Wording => ({
    message: `“${name}” already means something in every circuit.`,
    hint: 'Choose another name.',
  }),
  'second-line': (kind: string): Wording => ({
    message: `The circuit has a \`${kind}\` line already.`,
    hint: 'Take one of the two out.',
  }),

  // The words of a line.
  'unknown-word': (word: string, takesTags: boolean, known: readonly string[]): Wording => ({
    message: `This line does not take “${word}”.`,
    hint: suggestWord(
      word,
      known,
      takesTags ? 'It takes two tags such as `1-2`, and' : 'It takes',
      takesTags ? 'It takes two tags such as `1-2`.' : 'Take the word out.',
    ),
  }),
  'clause-twice': (word: string): Wording => ({
    message: `\`${word}\` stands twice in this line.`,
    hint: 'Take one of the two out.',
  }),
  'rating-twice': (text: string, quantity: string): Wording => ({
    message: `With ${text} this line gives ${quantity} twice.`,
    hint: 'Take one of the two values out.',
  }),
  'label-twice': (text: string): Wording => ({
    message: `“${text}” is a second label.`,
    hint: 'Take one of the two labels out.',
  }),
  'clause-incomplete': (clause: string, found: string | undefined, form: string): Wording => ({
    message: `\`${clause}\` is not complete${found === undefined ? '' : ` before “${found}”`}.`,
    hint: `Write ${form} there.`,
  }),
  'wrong-quantity': (text: string, clauses: readonly string[], takes: readonly string[]): Wording => ({
    message: `${text} has no meaning here.`,
    hint:
      clauses.length > 0
        ? `Write before it what it is: ${words(clauses)}.`
        : takes.length > 0
          ? `Write ${takes.join(', ')}, or take it out.`
          : 'Take it out.',
  }),
  'impossible-value': (text: string): Wording => ({
    message: `${text} cannot be right.`,
    hint: 'Write the value from the label or the sheet.',
  }),
  'stray-mark': (mark: string, hint: string): Wording => ({ message: `“${mark}” does not belong here.`, hint }),

  // Names of other things.
  'unknown-area': unknownName('area'),
  'unknown-zone': unknownName('zone'),
  'unknown-airflow': unknownName('airflow'),
  'unknown-control': unknownName('control'),
  'unknown-part': unknownName('part'),
  'unknown-motor': unknownName('motor'),
  'unknown-place': unknownName('terminal'),
  'no-states': (name: string, known: readonly string[]): Wording => ({
    message: `${name} has no positions and no states, so no condition can speak of it.`,
    hint: suggest(name, known, 'Conditions can speak of', 'Add a `control` line for what opens and closes it.'),
  }),
  'unknown-position': (name: string, position: string, known: readonly string[]): Wording => ({
    message: `${name} is never “${position}”.`,
    hint: suggest(position, known, 'It can be', ''),
  }),
  'unknown-terminal': (part: string, tag: string, tags: readonly string[]): Wording => ({
    message: `${part} has no terminal “${tag}”.`,
    hint: suggest(tag, tags, 'Its tags are', `Complete the line of ${part} first.`),
  }),
  'terminal-needed': (part: string, terminals: readonly string[]): Wording => ({
    message: `${part} is a part with ${terminals.length} terminals, so it is not clear which one is meant.`,
    hint: `Write one of: ${list(terminals)}.`,
  }),
  'no-supply': (): Wording => ({
    message: 'The circuit has no supply to be wired to.',
    hint: 'Add a line such as `supply split-phase 240 V 60 Hz`.',
  }),
  'no-load': (part: string): Wording => ({
    message: `${part} has no load, so it warms nothing.`,
    hint: 'Name heaters, motors or lamps.',
  }),
  'area-circle': (area: string): Wording => ({
    message: `Area ${area} can only be opened after itself.`,
    hint: 'Take one `after` of this circle out.',
  }),

  // Controls and the supply.
  'no-positions': (control: string): Wording => ({
    message: `${control} has no positions.`,
    hint: 'Add them with commas between: `shut, open`.',
  }),
  'position-twice': (name: string, position: string): Wording => ({
    message: `${name} has “${position}” twice.`,
    hint: 'Correct one of the two.',
  }),
  'unknown-supply': (word: string | undefined, known: readonly string[]): Wording => ({
    message:
      word === undefined ? 'This line does not say what kind of supply it is.' : `No supply is called “${word}”.`,
    hint: suggestWord(word ?? '', known, 'Write', ''),
  }),
  'volts-assumed': (volts: number): Wording => ({
    message: `The supply has no volts; ${volts} V is taken.`,
    hint: `Write the volts between its legs: \`${volts} V\`.`,
    severity: 'warning',
  }),

  // Parts and their elements.
  'one-pair-only': (part: string): Wording => ({
    message: `${part} has one element, so it takes one pair of tags.`,
    hint: 'Take the second pair out, or give it a line of its own.',
  }),
  'same-tags': (element: string, terminal: string): Wording => ({
    message: `Both ends of ${element} are ${terminal}.`,
    hint: 'Correct one of its tags.',
  }),
  'element-twice': (part: string, element: string): Wording => ({
    message: `${part} has ${element} twice.`,
    hint: 'Give each of its elements its own name or tags.',
  }),
  'no-condition': (name: string, example: string): Wording => ({
    message: `${name} does not say when it is closed.`,
    hint: `Add it to the line: \`${example}\`.`,
  }),
  'changeover-form': (part: string, lacks: string): Wording => ({
    message: `${part} does not say ${lacks}.`,
    hint: 'Write it in the form `C to NO when door=shut else NC`.',
  }),
  'no-temperature': (part: string, word: string, example: string): Wording => ({
    message: `${part} does not say at what temperature it ${word}.`,
    hint: `Add \`${word} ${example}\` with the value from the sheet or the body of the part.`,
  }),
  'same-temperature': (part: string): Wording => ({
    message: `${part} opens and closes at the same temperature.`,
    hint: 'Correct one of the two.',
    severity: 'warning',
  }),
  'no-volts': (part: string): Wording => ({
    message: `${part} does not say for how many volts it is.`,
    hint: 'Add the volts from its label: `5400 W at 240 V`.',
  }),
  'no-rating': (part: string): Wording => ({
    message: `${part} has no watts, amps or ohms, so nothing can be computed for it.`,
    hint: 'Add one of them from its label or the sheet: `5400 W at 240 V`.',
  }),
  'no-ohms': (part: string): Wording => ({
    message: `${part} has no resistance.`,
    hint: 'Add it with its unit: `4.7 kohm`.',
  }),
  'no-volts-and-amps': (part: string): Wording => ({
    message: `${part} needs its volts and amps.`,
    hint: 'Add both from its label: `120 V 5 A`; `start 22 A` too where it is known.',
  }),
  'no-winding': (part: string): Wording => ({
    message: `${part} has no main winding, so nothing can run it.`,
    hint: 'Add an indented line `winding main 4-5 2.4 ohm`.',
  }),
  'no-tags': (element: string, line: string): Wording => ({
    message: `${element} does not say between which tags it is.`,
    hint: `Add the tags of its two ends: \`${line} 4-5\`.`,
  }),

  // Cycle switches and their charts.
  'no-control': (part: string): Wording => ({
    message: `${part} does not say what turns it.`,
    hint: 'Add `turned by` and the name of its control.',
  }),
  'no-chart': (part: string): Wording => ({
    message: `${part} has no contact chart.`,
    hint: 'Add an indented line `chart` with the positions, and below it a row for each contact: `A-B  o  x`.',
  }),
  'second-chart': (part: string): Wording => ({
    message: `${part} has a second chart.`,
    hint: 'Put its rows under the first one.',
  }),
  'no-column': (part: string, positions: readonly string[]): Wording => ({
    message: `The chart of ${part} has no column for ${list(positions)}; all its contacts are taken as open there.`,
    hint: 'Add the column to the chart.',
    severity: 'warning',
  }),
  'row-form': (word: string): Wording => ({
    message: `“${word}” is no pair of tags.`,
    hint: 'Begin a row of the chart with its two tags: `A-B`.',
  }),
  'contact-twice': (contact: string): Wording => ({
    message: `The chart has ${contact} twice.`,
    hint: 'Take one of the two rows out, or correct its tags.',
  }),
  'cells-do-not-match': (contact: string, cells: number, positions: number): Wording => ({
    message: `${contact} has ${count(cells, 'cell')} for ${count(positions, 'position')}.`,
    hint: 'Give every position one cell: `x` closed, `o` open.',
  }),
  'unknown-cell': (cell: string): Wording => ({
    message: `“${cell}” is no cell of a chart.`,
    hint: 'Write `x` where the contact is closed, `o` where it is open.',
  }),

  // Wires.
  'unknown-colour': (letters: string, known: readonly string[]): Wording => ({
    message: `“${letters}” is no colour code of IEC 60757; it is kept as typed.`,
    hint: nearest(letters, known)
      ? suggest(letters, known, '', '')
      : `The codes are ${known.join(', ')}; a stripe is WH/RD.`,
    severity: 'warning',
  }),
  'one-end-only': (kind: string, example: string): Wording => ({
    message: `A ${kind} joins at least two places.`,
    hint: `Write both ends: \`${example}\`.`,
  }),
  'wire-to-itself': (terminal: string): Wording => ({
    message: `This wire begins and ends at ${terminal}.`,
    hint: 'Correct one of its ends.',
  }),
  'wired-twice': (one: string, other: string): Wording => ({
    message: `${one} and ${other} are already joined by a wire.`,
    hint: 'Take one of the two out, or correct its ends.',
    severity: 'warning',
  }),
  'no-arrow': (word: string): Wording => ({
    message: `“${word}” is one word too many here.`,
    hint: 'Put `>` between the places of a run; only a colour stands before a place.',
  }),
  'no-place': (): Wording => ({
    message: 'There is nothing on one side of this `>`.',
    hint: 'Write a part or a terminal there.',
  }),
}

const count = (n: number, what: string): string => `${n} ${what}${n === 1 ? '' : 's'}`

/** A stable name for what is wrong with the meaning of a text. */
export type Code = keyof typeof messages
/** What the sentences of a problem speak of. */
export type WordsOf = { readonly [C in Code]: Parameters<(typeof messages)[C]> }

const table: { readonly [C in Code]: (...words: WordsOf[C]) => Wording } = messages

/** The problem `code` at `span`. */
export function problem<C extends Code>(code: C, { from, to }: Span, ...words: WordsOf[C]): Problem {
  const { message, hint, severity = 'error' } = table[code](...words)
  return { code, severity, from, to, message, hint }
}
