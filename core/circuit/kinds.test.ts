import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { catalogue, readCircuit } from './index.ts'

const spec = readFileSync(new URL('../netlist/SPEC.md', import.meta.url), 'utf8')
const kinds = spec.slice(spec.search(/^# Part \w+: kinds$/m))
const around = /```circuit\n([\s\S]*?)```/.exec(kinds)?.[1] ?? ''

interface Table {
  readonly heads: readonly string[]
  readonly rows: readonly (readonly string[])[]
}

/** Every K rule: number, name, and its tables with cells without backquotes. */
const rules = [...kinds.matchAll(/^\*\*(K\d+) ([^*]+)\*\*([\s\S]*?)(?=^\*\*K|^#|$(?![\s\S]))/gm)].map(
  ([, number = '', name = '', body = '']) => ({ number, name, tables: tablesIn(body) }),
)

function tablesIn(body: string): readonly Table[] {
  return body.split(/\n\s*\n/).flatMap((block) => {
    const lines = block.split('\n').filter((line) => line.startsWith('|'))
    const [heads, , ...rows] = lines.map((line) =>
      line
        .split('|')
        .slice(1, -1)
        .map((cell) => cell.trim().replace(/^`([^`]*)`$/, '$1')),
    )
    return heads ? [{ heads, rows }] : []
  })
}

/** What a cell shows of the circuit that the line of its row gives, by its heading. */
const shown: Readonly<Record<string, (text: string, known: string) => readonly string[]>> = {
  problem: (text) => readCircuit(text).problems.map((p) => p.code),
  elements(text, known) {
    const before = readCircuit(known).circuit.elements
    return [...readCircuit(text).circuit.elements.keys()].filter((id) => !before.has(id))
  },
  states(text, known) {
    const before = readCircuit(known).circuit.actors
    return [...readCircuit(text).circuit.actors.values()].flatMap((a) => (before.has(a.name) ? [] : a.states))
  },
  terminals(text, known) {
    const before = readCircuit(known).circuit.terminals
    return [...readCircuit(text).circuit.terminals].filter((t) => !before.has(t))
  },
}

describe('the circuit around the rows', () => {
  it('is read without a problem', () => {
    expect(readCircuit(around).circuit.parts.size).toBeGreaterThan(0)
    expect(readCircuit(around).problems).toEqual([])
  })
  it('rules are numbered in their order', () => {
    const numbers = rules.map((r) => r.number)
    expect(numbers).toEqual(numbers.map((_, i) => `K${i + 1}`))
  })
})

for (const { number, name, tables } of rules)
  describe(`[${number}] ${name}`, () => {
    it('has rows', () => expect(tables.flatMap((t) => t.rows).length).toBeGreaterThan(0))
    for (const { heads, rows } of tables) {
      it.each(rows)('%s', (...cells) => {
        const [typed = '', ...expected] = cells
        const known = heads[0] === 'alone' ? '' : around
        const text = `${known}${typed.replaceAll('⏎', '\n ')}`
        expected.forEach((cell, i) => {
          const show = shown[heads[i + 1] ?? '']
          if (!show) throw new Error(`no column is called ${heads[i + 1]}`)
          expect(show(text, known), `${typed}: ${heads[i + 1]}`).toEqual(
            cell === '—' ? [] : cell.split(' · ').map((word) => word.replaceAll('`', '')),
          )
        })
      })
    }
  })

describe('the example of every kind', () => {
  it.each(catalogue.map((k) => [k.word, k.example]))(
    '%s is read, but for what other lines have to bring',
    (word, example) => {
      expect(example.split(' ')[0]).toBe(word)
      const codes = readCircuit(example).problems.map((p) => p.code)
      const missing =
        /^(unknown-(area|zone|airflow|control|part|motor|place|coil|burner)|no-(supply|winding|chart|coil|states|windings))$/
      expect(codes.filter((code) => !missing.test(code))).toEqual([])
    },
  )
})
