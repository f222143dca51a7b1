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
  'no-such-pole': (kind: string, pole: string): Wording => ({
    message: `A ${kind} supply has no ${pole} that could be missing.`,
    hint: `Take \`without ${pole}\` out.`,
  }),
  'cord-does-not-fit': (kind: string, cord: string): Wording => ({
    message: `No ${cord} brings a ${kind} supply.`,
    hint: 'Write `by cord` where all of its poles come in, or count the wires again.',
  }),
  'volts-assumed': (volts: number): Wording => ({
    message: `The supply has no volts; ${volts} V is taken.`,
    hint: `Write them as on its label: \`${volts} V\`.`,
    severity: 'warning',
  }),

  // Parts and their elements.
  'tag-twice': (part: string, tag: string): Wording => ({
    message: `${part} has the tag “${tag}” twice.`,
    hint: 'Take one of the two out.',
  }),
  'tags-needed': (part: string, example: string): Wording => ({
    message: `${part} does not say which tags it has.`,
    hint: `Add them: \`${example}\`.`,
  }),
  'colours-form': (found: string | undefined): Wording => ({
    message:
      found === undefined ? 'Letters or their colour are missing here.' : `“${found}” does not say what letters mean.`,
    hint: 'Write the letters of the sheet, `=` and what they stand for: `colours R=RD T="tan"`.',
  }),
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
  'changeover-form': (part: string, lacks: string, form: string): Wording => ({
    message: `${part} does not say ${lacks}.`,
    hint: `Write it in the form \`${form}\`.`,
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
  'no-farads': (part: string): Wording => ({
    message: `${part} has no capacitance.`,
    hint: 'Add it with its unit: `8 uF`.',
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

  'not-by-heat': (part: string): Wording => ({
    message: `${part} does not work by heat, so nothing can change the temperature at which it does.`,
    hint: 'Name a thermostat.',
  }),
  'differential-assumed': (part: string, gives: string, lacks: string, taken: string): Wording => ({
    message: `${part} says at what temperature it ${gives}, not where it ${lacks}; ${taken} is taken.`,
    hint: `Add \`${lacks} ${taken}\`, or the value from the sheet where it has one.`,
    severity: 'warning',
  }),
  'bias-form': (part: string): Wording => ({
    message: `${part} does not say which thermostat it lowers, or how far.`,
    hint: 'Add `lowers OT to 52 C`: the thermostat it sits on, and where that opens while it works.',
  }),
  'no-set-points': (part: string, control: string): Wording => ({
    message: `No position of ${control} is a temperature, so ${part} never opens.`,
    hint: 'Write positions as `150C, 180C`, or add an indented line `at bake 180 C`.',
  }),
  'set-point-form': (part: string): Wording => ({
    message: `This line of ${part} does not say at which position it opens at what temperature.`,
    hint: 'Write it in the form `at broil 290 C`.',
  }),
  'no-bimetal': (part: string): Wording => ({
    message: `${part} does not say what its own heater is fed by, so nothing makes it cycle.`,
    hint: 'Add an indented line `heater H1-H2`: the tags it stands between.',
  }),
  'sensor-form': (part: string): Wording => ({
    message: `${part} needs its kind and its ohms at 25 °C, once.`,
    hint: 'Write `ntc 10 kohm B 3950` or `rtd 1080 ohm`.',
  }),
  'no-belt': (drive: string): Wording => ({
    message: `${drive} has no belt.`,
    hint: 'Add `belt` to its `drive` line, or name the drive that has one.',
  }),
  'unknown-coil': unknownName('coil'),
  'second-rule': (part: string): Wording => ({
    message: `${part} says twice when it opens.`,
    hint: 'Take one of the two lines out.',
  }),
  'opens-form': (part: string): Wording => ({
    message: `${part} does not say which of its coils open it.`,
    hint: 'Write it in the form `opens with hold and boost, stays open with hold`.',
  }),
  'no-opening-amps': (part: string): Wording => ({
    message: `${part} does not say at how many amps it opens.`,
    hint: 'Add `opens above 2.9 A` with the value from the sheet.',
  }),
  'burner-form': (part: string): Wording => ({
    message: `${part} does not say what lights it and what feeds it.`,
    hint: 'Write it in the form `lit by IG fed by V1, V2`.',
  }),
  'no-flame': (part: string): Wording => ({
    message: `${part} does not say which flame it senses.`,
    hint: 'Add `senses` and the name of a burner.',
  }),
  'two-conditions': (part: string): Wording => ({
    message: `${part} says twice when it closes.`,
    hint: 'Take `when …` or `closed by …` out.',
  }),
  'part-volts-assumed': (part: string, volts: number): Wording => ({
    message: `${part} does not say for how many volts it is; ${volts} V is taken.`,
    hint: `Add them: \`at ${volts} V\`.`,
    severity: 'warning',
  }),

  'second-coil': (part: string): Wording => ({
    message: `${part} has a second coil.`,
    hint: 'Take one of the two out, or give it a relay of its own.',
  }),
  'no-coil': (part: string): Wording => ({
    message: `${part} has no coil, so nothing pulls it in.`,
    hint: 'Add an indented line `coil A1-A2 24 V 200 ohm`.',
  }),
  'no-windings': (part: string, lacks: string): Wording => ({
    message: `${part} has no ${lacks}.`,
    hint: 'Add indented lines `primary 1-2 120 V` and `secondary 3-4 24 V`.',
  }),
  'second-winding': (part: string): Wording => ({
    message: `${part} has a second primary.`,
    hint: 'Keep the one that is wired to the supply.',
  }),
  'winding-volts': (part: string, winding: string): Wording => ({
    message: `The ${winding} of ${part} has no volts.`,
    hint: 'Add the volts from its label: `24 V`.',
  }),
  'va-assumed': (part: string, va: number): Wording => ({
    message: `${part} does not say how many VA it is good for; ${va} VA is taken.`,
    hint: `Add them from its label: \`${va} VA\`.`,
    severity: 'warning',
  }),
  'acted-contact-form': (part: string, state: string): Wording => ({
    message: `This contact of ${part} does not say between which tags it is, and when.`,
    hint: `Write \`contact 1-2 closed when ${state}\`, or with two sides \`contact C to NO when ${state} else NC\`.`,
  }),

  // Boards and their sequences.
  'no-power': (part: string): Wording => ({
    message: `${part} does not say between which tags it is powered.`,
    hint: 'Add `powered R-C 24 V`, or take the word out.',
  }),
  'step-alone': (step: string): Wording => ({
    message: `The step ${step} belongs to no sequence.`,
    hint: 'Put a line `sequence heat when call=heat` above it.',
  }),
  'no-steps': (sequence: string): Wording => ({
    message: `${sequence} has no steps.`,
    hint: 'Add indented lines such as `step purge IND 30 s then ignite`.',
  }),
  'step-twice': (step: string): Wording => ({
    message: `The sequence has the step ${step} twice.`,
    hint: 'Give one of the two another name; `idle` is where it waits for its call.',
  }),
  'unknown-step': unknownName('step'),
  'unknown-output': unknownName('output'),
  'else-alone': (step: string): Wording => ({
    message: `The step ${step} goes to one place or another, but not when.`,
    hint: 'Write `then run if B=lit else retry`.',
  }),
  'tries-form': (step: string): Wording => ({
    message: `The step ${step} does not say how often, where to, and where to after the last try.`,
    hint: 'Write `up to 3 tries then purge else lockout`.',
  }),
  'output-idle': (output: string): Wording => ({
    message: `The output ${output} has no condition and no step, so it never closes.`,
    hint: 'Add `when call=heat`, or name it in a step.',
    severity: 'warning',
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
  'degrees-form': (control: string): Wording => ({
    message: `${control} does not say which degrees its positions are.`,
    hint: 'Write the first, the last and the step: `0..354 deg by 6`.',
  }),
  'heading-form': (heading: string, controls: readonly string[]): Wording => ({
    message: `“${heading}” does not give a position of ${controls.join(' and ')}.`,
    hint: `Write one of each with a slash between: \`${controls.map((_, i) => ['timed', 'high', 'on'][i] ?? 'on').join('/')}\`.`,
  }),
  'bars-form': (part: string): Wording => ({
    message: `The strip of ${part} does not say how long a bar takes.`,
    hint: 'Write `bars 6 deg = 45 s`, or `bars` alone.',
  }),
  'strip-form': (contact: string): Wording => ({
    message: `${contact} does not say from where to where it is closed.`,
    hint: 'Write its degrees: `D-E closed 0..240, 255..355 deg`.',
  }),
  'strip-needs-degrees': (control: string): Wording => ({
    message: `${control} has positions that are no degrees, so a strip cannot be laid along them.`,
    hint: 'Give the control its degrees: `0..354 deg by 6`.',
  }),
  'row-form': (word: string): Wording => ({
    message: `“${word}” is no pair of tags.`,
    hint: 'Begin a row with its two tags, `A-B`, or with both sides of a changeover, `C to NO else NC`.',
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
