import { type Cursor, isProblem, number, type Quantity, type QuantityName, splitTags } from '../netlist/index.ts'
import type { Token } from '../netlist/tree.ts'
import type { Condition, Teller, Word } from './kind.ts'
import { withArticle } from './messages.ts'
import type { Temperature } from './model.ts'
import { canBe, quantityText } from './range.ts'

/** What may follow the word of a clause. Each tells its problem and gives `undefined` when something else stands there. */
export interface ClauseForm<T = unknown> {
  /** What stands after the word, for hints: `68 C`, `a zone`. */
  readonly form: string
  /** What it measures. */
  readonly quantity?: QuantityName
  read(at: Place): T | undefined
}

/** Where in a line a form is read. */
export interface Place {
  /** The word that the form follows. */
  readonly clause: string
  readonly cursor: Cursor
  readonly teller: Teller
  /** Whether the token is a word that begins a clause of this line, and so no name unless it is in quotes. */
  beginsClause(token: Token): boolean
}

const form = <T>(text: string, read: (at: Place) => T | undefined): ClauseForm<T> => ({ form: text, read })

function missing({ clause, cursor, teller }: Place, what: string): undefined {
  const found = cursor.peek()
  teller.tell('clause-incomplete', found ?? cursor.span, clause, found?.text, what)
}

/** The word or the quoted words that come next, if they can be a name. */
function takeName({ cursor, beginsClause }: Place): Word | undefined {
  const token = cursor.peek()
  if (!token || (token.kind !== 'word' && token.kind !== 'string') || beginsClause(token)) return undefined
  cursor.next()
  return { text: token.text, at: { from: token.from, to: token.to } }
}

/** Goes past the word that stands where one of the language's own should: it is no second mistake. */
function skipSlip({ cursor, beginsClause }: Place): undefined {
  const token = cursor.peek()
  if (token?.kind === 'word' && /^[a-z]+$/i.test(token.text) && !beginsClause(token)) cursor.next()
}

/** Words that must follow; true when all did. Stands behind those that did. */
const takeWords = ({ cursor }: Place, words: readonly string[]): boolean => words.every((w) => cursor.takeWord(w))

/** A word of the line's own: a position. */
export const wordForm = (what: string): ClauseForm<Word> =>
  form(withArticle(what), (at) => takeName(at) ?? missing(at, withArticle(what)))

/** A name of something else in the circuit. */
export const nameForm = (what: string): ClauseForm<Word> =>
  form(withArticle(what), (at) => takeName(at) ?? missing(at, `the name of ${withArticle(what)}`))

/** The tag that a token is, as `terminalId` gives it; it may be on another part. */
export function tagOf(token: Token): string | undefined {
  // A tag alone is what would be a tag in a pair.
  return splitTags(`${token.kind === 'string' ? `"${token.text}"` : token.text}-0`)?.[0]
}

/** Tags with commas between, and numbered ones from first to last: `L, N, S`, `1..6`. */
export const tagsForm: ClauseForm<readonly Word[]> = form('tags such as `1, 2, 3`', (at) => {
  const { cursor } = at
  const tags: Word[] = []
  do {
    const token = cursor.peek()
    const [, first, last] = /^(\d{1,3})\.\.(\d{1,3})$/.exec(token?.text ?? '') ?? []
    const tag = token && !at.beginsClause(token) ? tagOf(token) : undefined
    if (!token || (tag === undefined && last === undefined)) {
      missing(at, 'a tag')
      break
    }
    cursor.next()
    const here = { from: token.from, to: token.to }
    if (tag !== undefined) tags.push({ text: tag, at: here })
    else for (let n = Number(first); n <= Number(last); n++) tags.push({ text: String(n), at: here })
  } while (cursor.takeMark(','))
  return tags.length > 0 ? tags : undefined
})

/** One tag: `NO`. */
export const tagForm: ClauseForm<Word> = form('a tag', (at) => {
  const token = at.cursor.peek()
  const tag = token && !at.beginsClause(token) ? tagOf(token) : undefined
  if (!token || tag === undefined) return missing(at, 'a tag')
  at.cursor.next()
  return { text: tag, at: { from: token.from, to: token.to } }
})

/** Words in quotes. */
export const textForm = (example: string): ClauseForm<string> =>
  form(example, (at) => at.cursor.takeString() ?? missing(at, `text in quotes such as ${example}`))

/** A word that says all by itself, or with the words that must follow it: `springs back`. */
export const flagForm = (...words: readonly string[]): ClauseForm<true> =>
  form(words.join(' '), (at) => {
    if (takeWords(at, words)) return true
    missing(at, `\`${words.join(' ')}\``)
    return skipSlip(at)
  })

/** One of several phrases: `at speed`, `at rest`. */
export const phraseForm = <const P extends string>(...phrases: readonly P[]): ClauseForm<P> =>
  form(phrases.join(' or '), (at) => {
    const { cursor } = at
    /** How many words of the phrase come next. */
    const fits = (phrase: string): number => {
      const words = phrase.split(' ')
      const other = words.findIndex((word, i) => cursor.peek(i)?.text !== word)
      return other < 0 ? words.length : other
    }
    const found = phrases.find((phrase) => fits(phrase) === phrase.split(' ').length)
    // Words of a phrase that breaks off are no mistakes of their own.
    for (let taken = Math.max(...phrases.map(fits)); taken > 0; taken--) cursor.next()
    if (found !== undefined) return found
    missing(at, phrases.map((p) => `\`${p}\``).join(' or '))
    return skipSlip(at)
  })

/** A small word, then a name: `by dial`. A name without the word is told, and taken. */
export const phraseThenNameForm = (lead: string, what: string): ClauseForm<Word> =>
  form(`${lead} ${withArticle(what)}`, (at) => {
    const name = `the name of ${withArticle(what)}`
    if (takeWords(at, [lead])) return takeName(at) ?? missing(at, name)
    missing(at, `\`${lead}\` and ${name}`)
    return takeName(at)
  })

/** A small word, then names with commas between: `with H1, H2`. What stands before a missing one is taken. */
export const listForm = (lead: string, what: string): ClauseForm<readonly Word[]> =>
  form(`${lead} ${withArticle(what)}`, (at) => {
    const name = `the name of ${withArticle(what)}`
    if (!takeWords(at, [lead])) {
      missing(at, `\`${lead}\` and ${name}`)
      const next = at.cursor.peek()
      if (!next || at.beginsClause(next)) return undefined
    }
    const names = namesWithCommas(at, name)
    return names.length > 0 ? names : undefined
  })

function namesWithCommas(at: Place, what: string): readonly Word[] {
  const names: Word[] = []
  do {
    const name = takeName(at)
    if (!name) {
      missing(at, what)
      break
    }
    names.push(name)
  } while (at.cursor.takeMark(','))
  return names
}

/** Names with `and` between, behind small words or none: `hold and boost`. What stands before a missing one is kept. */
export const allForm = (what: string, ...lead: readonly string[]): ClauseForm<readonly Word[]> =>
  form([...lead, withArticle(what)].join(' '), (at) => {
    if (!takeWords(at, lead)) return missing(at, `\`${lead.join(' ')}\` and the name of ${withArticle(what)}`)
    const names: Word[] = []
    do {
      const name = takeName(at)
      if (!name) {
        missing(at, `the name of ${withArticle(what)}`)
        break
      }
      names.push(name)
    } while (at.cursor.takeWord('and'))
    return names.length > 0 ? names : undefined
  })

/** A number without a unit: `3950`. */
export const numberForm = (example: string): ClauseForm<number> =>
  form(example, (at) => at.cursor.takeNumber() ?? missing(at, `a number such as ${example}`))

/** A small word or several, then a quantity: `after 20 s`, `hot 20 s`. */
export const phraseThenMeasureForm = (lead: string, quantity: QuantityName, example: string): ClauseForm<Quantity> =>
  form(`${lead} ${example}`, (at) =>
    takeWords(at, lead.split(' '))
      ? takeMeasure(at, quantity, example)
      : missing(at, `\`${lead}\` and a value such as ${example}`),
  )

export interface Threshold {
  readonly volts?: number
  /** Seconds that it must have held. */
  readonly seconds?: number
}

/** `19 V`, `after 30 s`, or both: from when a coil moves what it works. */
export const thresholdForm = (example: string): ClauseForm<Threshold> =>
  form(`${example}, \`after 30 s\``, (at) => {
    const { cursor } = at
    const volts = cursor.peek()?.text === 'after' ? undefined : takeMeasure(at, 'volts', example)
    if (volts === undefined && cursor.peek()?.text !== 'after') return undefined
    const time = cursor.takeWord('after') ? takeMeasure(at, 'minutes', '30 s') : undefined
    return { ...(volts && { volts: volts.si }), ...(time && { seconds: time.si * 60 }) }
  })

/** Names with commas between: `start, kick`. */
export const namesForm = (what: string): ClauseForm<readonly Word[]> =>
  form(withArticle(what), (at) => {
    const names = namesWithCommas(at, withArticle(what))
    return names.length > 0 ? names : undefined
  })

/** A quantity of one kind: `15 A`. */
export const measureForm = (quantity: QuantityName, example: string): ClauseForm<Quantity> => ({
  form: example,
  quantity,
  read: (at) => takeMeasure(at, quantity, example),
})

function takeMeasure(at: Place, quantity: QuantityName, example: string): Quantity | undefined {
  const { cursor, teller } = at
  const read = cursor.takeQuantity()
  if (!read) return missing(at, `a value such as ${example}`)
  if (isProblem(read)) return void teller.pass(read)
  if (read.quantity !== quantity) {
    return void teller.tell(
      'wrong-quantity',
      read,
      quantityAsTyped(read),
      [],
      [`${quantityText(quantity)} such as ${example}`],
    )
  }
  if (!canBe(read)) return void teller.tell('impossible-value', read, quantityAsTyped(read))
  return read
}

export const quantityAsTyped = ({ value, unit }: Quantity): string => `${value} ${unit}`

export const temperatureForm: ClauseForm<Temperature> = {
  form: '68 C',
  quantity: 'celsius',
  read(at) {
    const read = takeMeasure(at, 'celsius', '68 C')
    return read && { value: read.value, unit: read.unit === 'F' ? 'F' : 'C' }
  },
}

/** A difference of temperatures, in °C: `12 C`, `20 F`. */
export const differenceForm = (example: string): ClauseForm<number> =>
  form(example, (at) => {
    const read = takeMeasure(at, 'celsius', example)
    if (!read) return undefined
    if (read.value > 0) return read.unit === 'F' ? read.value / 1.8 : read.value
    return void at.teller.tell('impossible-value', read, quantityAsTyped(read))
  })

/** `from 60 %`: the share of its rated current from which a load works. */
export const worksFromForm: ClauseForm<number> = form('from 60 %', (at) => {
  if (!takeWords(at, ['from'])) {
    missing(at, '`from` and a share such as 60 %')
    if (number(at.cursor.peek()?.text ?? '') === undefined) return undefined
  }
  return takeMeasure(at, 'share', '60 %')?.si
})

/** Where a step goes: `ignite`, `run if B=lit else retry`. */
export interface Onward {
  readonly to: Word
  readonly if?: Condition
  readonly else?: Word
}

export const onwardForm: ClauseForm<Onward> = form('run if B=lit else retry', (at) => {
  const to = takeName(at)
  if (!to) return missing(at, 'the name of a step')
  const condition = at.cursor.takeWord('if') ? conditionForm.read(at) : undefined
  const other = at.cursor.takeWord('else') ? (takeName(at) ?? missing(at, 'the name of a step')) : undefined
  return { to, ...(condition && { if: condition }), ...(other && { else: other }) }
})

/** What ends a step, and where to: `B=out then retry or PS=open then purge`. */
export const untilForm: ClauseForm<readonly Onward[]> = form('B=out then retry', (at) => {
  const ways: Onward[] = []
  do {
    const condition = conditionForm.read(at)
    if (!condition) break
    const to = at.cursor.takeWord('then') ? takeName(at) : undefined
    if (!to) {
      missing(at, '`then` and the name of a step')
      break
    }
    ways.push({ to, if: condition })
  } while (at.cursor.takeWord('or'))
  return ways.length > 0 ? ways : undefined
})

/** `to 3 tries`. */
export const triesForm: ClauseForm<number> = form('to 3 tries', (at) => {
  const tries = at.cursor.takeWord('to') ? at.cursor.takeNumber() : undefined
  if (tries === undefined || !at.cursor.takeWord('tries')) return missing(at, '`to 3 tries`')
  return tries
})

/** `door=shut`, `mode=p1, p3`, `door=shut and eco=off`. What stands before a missing word is kept. */
export const conditionForm: ClauseForm<Condition> = form('door=shut', (at) => {
  const clauses: { of: Word; states: readonly Word[] }[] = []
  do {
    const of = takeName(at)
    if (!of) {
      missing(at, 'a condition such as `door=shut`')
      break
    }
    if (!at.cursor.takeMark('=')) {
      missing(at, `\`=\` and a state of ${of.text}`)
      const next = at.cursor.peek()
      if (!next || at.beginsClause(next)) break
    }
    const states = namesWithCommas(at, `a state of ${of.text}`)
    if (states.length === 0) break
    clauses.push({ of, states })
  } while (at.cursor.takeWord('and'))
  return clauses.length > 0 ? { clauses } : undefined
})
