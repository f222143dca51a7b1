import { type Cursor, isProblem, type Quantity, type QuantityName } from '../netlist/index.ts'
import type { Token } from '../netlist/tree.ts'
import type { ClauseForm, Condition, Tell, Word } from './kind.ts'
import type { Temperature } from './model.ts'

/** What may follow the word of a clause. Each tells its problem and gives `undefined` when something else stands there. */

const missing = (cursor: Cursor, tell: Tell, form: string): undefined => {
  const found = cursor.peek()
  tell(
    'clause-incomplete',
    found ?? cursor.span,
    found ? `“${found.text}” stands where ${form} is needed.` : `Here ${form} is missing.`,
    `Write ${form}.`,
  )
}

const asWord = (token: Token): Word => ({ text: token.text, at: { from: token.from, to: token.to } })

function takeName(cursor: Cursor): Word | undefined {
  const token = cursor.peek()
  if (token?.kind !== 'word' && token?.kind !== 'string') return undefined
  cursor.next()
  return asWord(token)
}

const form = <T>(text: string, read: (cursor: Cursor, tell: Tell) => T | undefined): ClauseForm<T> => ({
  form: text,
  read,
})

/** Any one word: a position, a tag, a way of being joined. */
export const wordForm = (what: string): ClauseForm<Word> =>
  form(what, (cursor, tell) => takeName(cursor) ?? missing(cursor, tell, what))

/** A name of something else in the circuit. */
export const nameForm = (what: string): ClauseForm<Word> =>
  wordForm(`the name of ${/^[aeiou]/.test(what) ? 'an' : 'a'} ${what}`)

export const tagForm = wordForm('a tag')

/** Words in quotes. */
export const textForm = (example: string): ClauseForm<string> =>
  form(example, (cursor, tell) => cursor.takeString() ?? missing(cursor, tell, `text in quotes such as ${example}`))

/** A word that says all by itself, with the words that must follow it: `springs back`. */
export const flagForm = (...words: readonly string[]): ClauseForm<true> =>
  form(words.join(' '), (cursor, tell) => {
    for (const word of words) if (!cursor.takeWord(word)) return missing(cursor, tell, `the word \`${word}\``)
    return true
  })

/** One of several phrases: `at speed`, `at rest`. */
export const phraseForm = <const P extends string>(...phrases: readonly P[]): ClauseForm<P> =>
  form(phrases.join(' or '), (cursor, tell) => {
    for (const phrase of phrases) {
      const words = phrase.split(' ')
      if (words.every((word, i) => cursor.peek(i)?.text === word)) {
        for (const _ of words) cursor.next()
        return phrase
      }
    }
    return missing(cursor, tell, phrases.map((p) => `\`${p}\``).join(' or '))
  })

/** A small word, then a name: `by dial`. */
export const phraseThenNameForm = (lead: string, what: string): ClauseForm<Word> =>
  form(`${lead} ${what}`, (cursor, tell) => {
    if (!cursor.takeWord(lead)) return missing(cursor, tell, `\`${lead}\` and the name of a ${what}`)
    return takeName(cursor) ?? missing(cursor, tell, `the name of a ${what}`)
  })

/** A small word, then names with commas between: `with H1, H2`. */
export const listForm = (lead: string, what: string): ClauseForm<readonly Word[]> =>
  form(`${lead} ${what}`, (cursor, tell) => {
    if (!cursor.takeWord(lead)) return missing(cursor, tell, `\`${lead}\` and ${what}`)
    const names: Word[] = []
    do {
      const name = takeName(cursor)
      if (!name) return missing(cursor, tell, what)
      names.push(name)
    } while (cursor.takeMark(','))
    return names
  })

/** A quantity of one kind: `15 A`. */
export const measureForm = (quantity: QuantityName, example: string): ClauseForm<Quantity> =>
  form(example, (cursor, tell) => {
    const before = cursor.span
    const read = cursor.takeQuantity()
    if (!read) return missing(cursor, tell, `a value such as ${example}`)
    if (isProblem(read)) return void tell(read.code, read, read.message, read.hint)
    if (read.quantity !== quantity) {
      return void tell(
        'wrong-quantity',
        { from: before.from, to: read.to },
        `${read.value} ${read.unit} stands where ${quantity} are needed.`,
        `Write a value such as ${example}.`,
      )
    }
    return read
  })

const degrees = measureForm('celsius', '68 C')
export const temperatureForm: ClauseForm<Temperature> = form('68 C', (cursor, tell) => {
  const read = degrees.read(cursor, tell)
  return read && { value: read.value, unit: read.unit === 'F' ? 'F' : 'C' }
})

const percent = measureForm('share', '60 %')
/** `from 60 %`: the share of its rated current from which a load works. */
export const worksFromForm: ClauseForm<number> = form('from 60 %', (cursor, tell) => {
  if (!cursor.takeWord('from')) return missing(cursor, tell, '`from` and a share such as 60 %')
  return percent.read(cursor, tell)?.si
})

/** `door=shut`, `mode=p1, p3`, `door=shut and eco=off`. */
export const conditionForm: ClauseForm<Condition> = form('door=shut', (cursor, tell) => {
  const { from } = cursor.span
  const clauses: { of: Word; states: Word[] }[] = []
  let to = from
  do {
    const of = takeName(cursor)
    if (!of || !cursor.takeMark('=')) return missing(cursor, tell, 'a condition such as `door=shut`')
    const states: Word[] = []
    do {
      const state = takeName(cursor)
      if (!state) return missing(cursor, tell, `a state of ${of.text}`)
      states.push(state)
      to = state.at.to
    } while (cursor.takeMark(','))
    clauses.push({ of, states })
  } while (cursor.takeWord('and'))
  return { clauses, at: { from, to } }
})
