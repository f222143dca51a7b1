import { loadRatings, ratedOf, ratingOf } from '../common/load.ts'
import { element, pairName, partOf } from '../common/part.ts'
import { type Call, checkSteps, type Step, unroll } from '../common/sequence.ts'
import { boardFigure, contactFigure, resistorFigure } from '../figures.ts'
import {
  conditionForm,
  flagForm,
  measureForm,
  nameForm,
  onwardForm,
  phraseThenNameForm,
  tagsForm,
  triesForm,
  untilForm,
} from '../forms.ts'
import { type Children, type Condition, type Context, kind, type Said, type SaidChild, type Tags } from '../kind.ts'
import { CONTACT, lawAlways, lawWhen, resistance } from '../laws.ts'
import type { Element, Test } from '../model.ts'
import { anyLoad } from '../needs.ts'
import { ALWAYS, both, is, NEVER } from '../test.ts'

/** A board works from seven tenths of its rated current, and sees an input from half of its own. */
const WORKS = 0.7
const SEES = 0.5
/** Common practice, no source: a small board takes a few watts, and an input some milliamperes. */
const USUAL_WATTS = 5
const INPUT_AMPS = 0.01

/** A record with a key of this name could be taken for a promise; it is a word of the language here. */
const THEN = 'then'

const clauses = { powered: flagForm(), at: measureForm('volts', '24 V'), tags: tagsForm, area: nameForm('area') }
const children = {
  input: { named: false, tags: true, bare: true, ratings: ['volts', 'ohms'], clauses: {} },
  output: { named: false, tags: true, bare: true, clauses: { when: conditionForm } },
  sequence: {
    named: true,
    leads: true,
    clauses: { when: conditionForm, ends: phraseThenNameForm('with', 'step') },
  },
  step: {
    named: true,
    bare: true,
    ratings: ['minutes'],
    clauses: { [THEN]: onwardForm, until: untilForm, up: triesForm },
  },
} as const satisfies Children

type BoardLine = Said<typeof clauses, typeof children>
type BoardChild = SaidChild<typeof children>
type Child<W extends BoardChild['word']> = Extract<BoardChild, { readonly word: W }>

/**
 * A control board: contacts that close by what it is told. It works while it is powered; an input is on while it is fed;
 * an output closes under a condition, or in the steps of a sequence that name it.
 */
export const boardKind = kind({
  word: 'board',
  title: 'Control board',
  example: 'board CB "Ignition board" powered R-C 24 V area rear',
  named: 'shared',
  round: 2,
  tags: true,
  ratings: [...loadRatings, 'voltamperes'],
  clauses,
  children,
  read(line, to) {
    const [power, second] = line.tags
    if (second) to.tell('one-pair-only', second.at, line.name)
    if (!power && line.clauses.powered && !line.told) to.tell('no-power', line.head, line.name)
    const volts = line.clauses.at?.si ?? ratingOf(line, 'volts')
    const inputs = line.children.flatMap((c) => (c.word === 'input' ? inputOf(line, c, volts, to) : []))
    const own = new Set(inputs.map((e) => e.name))
    const testOf = (condition: Condition): Test => to.test(namingOwn(condition, line.name, own))
    const powered: Test = power ? is(line.name, ['powered']) : ALWAYS

    const outputs = line.children.flatMap((c) => (c.word === 'output' ? outputOf(c, line, to) : []))
    const closes = new Map<string, Test>(
      outputs.map(({ name, when }) => [name, when ? both(powered, testOf(when)) : NEVER]),
    )
    for (const { head, steps } of sequencesOf(
      line,
      outputs.map((o) => o.name),
      to,
    )) {
      const name = `${line.name}:${head.name}`
      const { when, ends } = head.clauses
      if (!when && !head.told) to.tell('no-condition', head.head, name, 'when call=heat')
      if (steps.length === 0) {
        if (!head.told) to.tell('no-steps', head.head, name)
        continue
      }
      checkSteps(steps, to)
      const known = steps.map((s) => s.name)
      if (ends && !known.includes(ends.text)) to.tell('unknown-step', ends.at, ends.text, known)
      const call: Call = {
        when: when ? testOf(when) : NEVER,
        powered,
        ...(ends && known.includes(ends.text) && { ends: ends.text }),
      }
      const sequence = unroll(steps, call, (way) => (way.if ? testOf(way.if) : ALWAYS))
      to.actor({
        name,
        part: line.name,
        states: sequence.states,
        sense: { by: 'sequence', ways: sequence.ways },
      })
      for (const [output, states] of sequence.closes) {
        closes.set(output, [...(closes.get(output) ?? []), ...is(name, states)])
      }
    }

    const contacts = outputs.map(({ name, tags, when, note }): Element => {
      const test = closes.get(name) ?? NEVER
      if (test.length === 0 && !when && !line.told) to.tell('output-idle', tags.at, `${line.name}:${name}`)
      return element(line, to, tags, {
        name,
        role: 'contact',
        laws: lawWhen(test, CONTACT),
        figure: contactFigure('relay'),
        note,
      })
    })
    // Tags of what the board only reads, a sensor: nothing in the circuit stands between them.
    const more = (line.clauses.tags ?? []).map(({ text }) => `${line.name}.${text}`)
    const kept = to.part(
      partOf(line, to),
      [...(power ? [supplyOf(line, power, to)] : []), ...inputs, ...contacts],
      more,
    )
    if (power) {
      const fed = anyLoad(
        kept.flatMap((e) => (e.at === power.at ? [e.id] : [])),
        WORKS,
      )
      to.actor({
        name: line.name,
        part: line.name,
        states: ['dead', 'powered'],
        sense: { by: 'needs', to: fed, stay: fed },
      })
    }
    for (const input of inputs) {
      const fed = anyLoad(
        kept.flatMap((e) => (e.at === input.at ? [e.id] : [])),
        SEES,
      )
      const sense = { by: 'needs', to: fed, stay: fed } as const
      to.actor({ name: `${line.name}:${input.name}`, part: line.name, states: ['off', 'on'], sense })
    }
  },
})

/** Its own supply: a load that has to be fed for anything else. */
function supplyOf(line: BoardLine, tags: Tags, to: Context): Element {
  const volts = line.clauses.at?.si ?? ratingOf(line, 'volts')
  const given = line.ratings.some((r) => r.quantity.quantity !== 'volts')
  const rated = given
    ? ratedOf(line, to)
    : volts === undefined
      ? undefined
      : { volts, ohms: volts ** 2 / USUAL_WATTS, dc: volts ** 2 / USUAL_WATTS }
  if (!given && volts === undefined && !line.told) to.tell('no-volts', line.head, line.name)
  return element(line, to, tags, {
    name: 'power',
    role: 'load',
    laws: rated ? lawAlways(resistance(rated.ohms, rated.dc)) : [],
    figure: boardFigure,
    note: volts === undefined ? '' : `${volts} V`,
    load: { volts: rated?.volts ?? 0, works: WORKS, weak: 0.8 },
  })
}

/** What it looks at: `input W-C`, called by its first tag, or `input call W-C`. */
function inputOf(line: BoardLine, c: Child<'input'>, boardVolts: number | undefined, to: Context): readonly Element[] {
  const [tags, second] = c.tags
  if (second) to.tell('one-pair-only', second.at, line.name)
  if (!tags) {
    if (!c.told) to.tell('no-tags', c.head, line.name, 'input')
    return []
  }
  const volts = ratingOf(c, 'volts') ?? boardVolts
  if (volts === undefined && !c.told) to.tell('no-volts', c.head, `${line.name}:${tags.pair[0]}`)
  const ohms = ratingOf(c, 'ohms') ?? (volts === undefined ? undefined : volts / INPUT_AMPS)
  const { name, note } = nameOf(c, tags.pair[0], to)
  return [
    element(line, to, tags, {
      name,
      role: 'load',
      laws: ohms === undefined ? [] : lawAlways(resistance(ohms)),
      figure: resistorFigure,
      note: note || 'input',
      load: { volts: volts ?? 0, works: SEES, weak: SEES },
    }),
  ]
}

interface Output {
  readonly name: string
  readonly tags: Tags
  readonly note: string
  readonly when?: Condition
}

/** A contact: `output R-W when call=heat`, or `output IND 5-6`, which steps name. */
function outputOf(c: Child<'output'>, line: BoardLine, to: Context): readonly Output[] {
  const [tags, second] = c.tags
  if (second) to.tell('one-pair-only', second.at, line.name)
  if (!tags) {
    if (!c.told) to.tell('no-tags', c.head, line.name, 'output')
    return []
  }
  const { when } = c.clauses
  return [{ ...nameOf(c, pairName(tags), to), tags, ...(when && { when }) }]
}

/** The word before the tags, else `usual`; words in quotes say what it is for. */
function nameOf(
  c: Child<'input' | 'output'>,
  usual: string,
  to: Context,
): { readonly name: string; readonly note: string } {
  const note = c.bare.filter((token) => token.kind === 'string').map((token) => token.text)
  const [name, ...extra] = c.bare.filter((token) => token.kind !== 'string')
  for (const token of extra) to.tell('unknown-word', token, token.text, true, [])
  return { name: name?.text ?? usual, note: note.join(' ') }
}

/** A board's conditions may call its own inputs by their names alone. */
const namingOwn = (condition: Condition, part: string, own: ReadonlySet<string>): Condition => ({
  clauses: condition.clauses.map((c) =>
    own.has(c.of.text) ? { ...c, of: { ...c.of, text: `${part}:${c.of.text}` } } : c,
  ),
})

/** Each sequence with the steps that follow it. */
function sequencesOf(
  line: BoardLine,
  outputs: readonly string[],
  to: Context,
): readonly { readonly head: Child<'sequence'>; readonly steps: readonly Step[] }[] {
  const found: { head: Child<'sequence'>; steps: Step[] }[] = []
  for (const c of line.children) {
    if (c.word === 'sequence') found.push({ head: c, steps: [] })
    if (c.word !== 'step') continue
    const last = found.at(-1)
    if (last) last.steps.push(stepOf(c, outputs, to))
    else to.tell('step-alone', c.head, c.name)
  }
  return found
}

function stepOf(c: Child<'step'>, outputs: readonly string[], to: Context): Step {
  const closes = c.bare.filter(({ kind, text }) => kind !== ',' && !(kind === 'string' && text === ''))
  for (const token of closes) {
    if (!outputs.includes(token.text)) to.tell('unknown-output', token, token.text, outputs)
  }
  const { [THEN]: onward, until = [], up } = c.clauses
  return {
    name: c.name,
    at: c.head,
    outputs: closes.map((token) => token.text),
    seconds: (ratingOf(c, 'minutes') ?? 0) * 60,
    ...(onward && { onward }),
    until,
    ...(up !== undefined && { tries: Math.max(1, Math.min(MOST_TRIES, Math.floor(up))) }),
  }
}

/** More tries than any board makes before it locks out. */
const MOST_TRIES = 20
