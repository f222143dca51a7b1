import { describe, expect, it } from 'vitest'
import { catalogue, readCircuit } from '../../core/circuit/index.ts'
import { parse, print, type Statement, statements, strip } from '../../core/netlist/index.ts'
import { allProblems } from '../../core/review/index.ts'
import { generateKinds } from './kinds.ts'

/** `KINDS` and `SEED` make the run larger, or another; by default it is always the same. */
const COUNT = Number(process.env.KINDS ?? 10_000)
const FIRST = Number(process.env.SEED ?? 1)

describe(`netlists of every kind, ${COUNT} from seed ${FIRST}`, { timeout: 600_000 }, () => {
  it('have every kind, every clause and every indented line at least twenty times', () => {
    const met = new Map<string, number>()
    const meet = (what: string) => void met.set(what, (met.get(what) ?? 0) + 1)
    const words = ({ line }: Statement) => new Set(line.tokens.flatMap((t) => (t.kind === 'word' ? [t.text] : [])))
    const forms = new Map(catalogue.map((k) => [k.word, k]))
    for (let seed = FIRST; seed < FIRST + COUNT; seed++) {
      for (const statement of statements(parse(generateKinds(seed)).netlist)) {
        const kind = forms.get(statement.line.tokens[0]?.text ?? '')
        if (!kind) continue
        meet(kind.word)
        const own = words(statement)
        for (const clause of Object.keys(kind.clauses)) if (own.has(clause)) meet(`${kind.word} … ${clause}`)
        for (const child of statement.children.flatMap((c) => [c, ...c.children])) {
          const word = child.line.tokens[0]?.text ?? ''
          const form = kind.children[word]
          if (!form) continue
          meet(`${kind.word}: ${word}`)
          const under = words(child)
          for (const clause of Object.keys(form.clauses))
            if (under.has(clause)) meet(`${kind.word}: ${word} … ${clause}`)
        }
      }
    }
    const all = catalogue.flatMap((k) => [
      k.word,
      ...Object.keys(k.clauses).map((clause) => `${k.word} … ${clause}`),
      ...Object.entries(k.children).flatMap(([word, form]) => [
        `${k.word}: ${word}`,
        ...Object.keys(form.clauses).map((clause) => `${k.word}: ${word} … ${clause}`),
      ]),
    ])
    const least = (20 * COUNT) / 10_000
    expect(all.filter((what) => (met.get(what) ?? 0) < least).map((what) => `${what}: ${met.get(what) ?? 0}`)).toEqual(
      [],
    )
  })

  it('print, then parse, is the same netlist, and printing again the same text', () => {
    for (let seed = FIRST; seed < FIRST + COUNT; seed++) {
      const { netlist } = parse(generateKinds(seed))
      const printed = print(netlist)
      const again = parse(printed).netlist
      if (JSON.stringify(strip(again)) !== JSON.stringify(strip(netlist))) {
        expect(strip(again), `seed ${seed}`).toEqual(strip(netlist))
      }
      if (print(again) !== printed) expect(print(again), `seed ${seed}`).toBe(printed)
    }
  })

  it('printed they are the same circuit, and nearly all of them are read without an error', () => {
    let wrong = 0
    const every = 20
    for (let seed = FIRST; seed < FIRST + COUNT; seed += every) {
      const text = generateKinds(seed)
      const read = readCircuit(text)
      const printed = readCircuit(print(parse(text).netlist))
      const bare = (value: unknown) =>
        JSON.stringify(value, (key, it) =>
          ['at', 'from', 'to'].includes(key) ? undefined : it instanceof Map || it instanceof Set ? [...it] : it,
        )
      expect(bare(printed), `seed ${seed}`).toBe(bare(read))
      if (read.problems.some((p) => p.severity === 'error')) wrong++
    }
    expect(wrong).toBeLessThan((0.02 * COUNT) / every)
  })

  it('are reviewed, whatever stands in them', () => {
    for (let seed = FIRST; seed < FIRST + COUNT; seed += 100) {
      const text = generateKinds(seed)
      for (const { from, to, message } of allProblems(text, readCircuit(text), 8)) {
        expect(message, `seed ${seed}`).toMatch(/^\S[\s\S]*[.!?]$/)
        expect(from <= to && to <= text.length, `seed ${seed}`).toBe(true)
      }
    }
  })
})
