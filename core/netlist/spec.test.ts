import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import {
  isName,
  isProblem,
  nearest,
  parse,
  print,
  quantity,
  splitTags,
  terminalId,
  unitOf,
  unitWords,
} from './index.ts'
import type { Line } from './tree.ts'

const folder = new URL('.', import.meta.url)
const spec = readFileSync(new URL('SPEC.md', folder), 'utf8')

/** Rows of all tables with exactly these headings, below the rule `rule`; cells without their backquotes. */
function rows(rule: string, ...headings: readonly string[]): readonly (readonly string[])[] {
  const found = section(rule)
    .split('\n\n')
    .map((block) => block.split('\n').filter((line) => line.startsWith('|')))
    .map((table) =>
      table.map((row) =>
        row
          .split('|')
          .slice(1, -1)
          .map((cell) => cell.trim()),
      ),
    )
    .filter(([head]) => head?.join() === headings.join())
    .flatMap((table) => table.slice(2))
    .map((row) => row.map((cell) => cell.replace(/^`([^`]*)`$/, '$1')))
  expect(found.length, `rule ${rule} has a table of ${headings.join(', ')}`).toBeGreaterThan(0)
  return found
}

/** Fenced blocks of this kind below a rule. */
function fences(rule: string, kind: string): readonly string[] {
  const found = [...section(rule).matchAll(new RegExp(`^\`\`\`${kind}\n(.*?)\n\`\`\`$`, 'gms'))].map(
    (match) => match[1] ?? '',
  )
  expect(found.length, `rule ${rule} has a block of ${kind}`).toBeGreaterThan(0)
  return found
}

function section(rule: string): string {
  const from = spec.indexOf(`**${rule} `)
  const to = spec.indexOf('\n**', from)
  return spec.slice(from, to === -1 ? undefined : to)
}

function onlyLine(text: string): Line {
  const [line, ...others] = parse(text).netlist.lines
  expect(others).toEqual([])
  if (!line) throw new Error('a text has a line')
  return line
}

/** Tokens as the tables of the rules show them. */
function shown({ tokens, comment }: Line): readonly string[] {
  const words = tokens.map(({ kind, text }) => (kind === 'string' ? `"${text}"` : text))
  return comment ? [...words, `#${comment.text}`] : words
}

describe('every rule has a test, and every test a rule', () => {
  it('N rules', () => {
    const rules = [...spec.matchAll(/^\*\*(N\d+) /gm)].map((match) => match[1])
    const sources = readdirSync(folder).filter((name) => name.endsWith('.test.ts'))
    const tested = sources.flatMap((name) =>
      [...readFileSync(new URL(name, folder), 'utf8').matchAll(/'\[(N\d+)\]/g)].map((match) => match[1]),
    )
    expect(rules).toEqual(rules.map((_, index) => `N${index + 1}`))
    expect([...new Set(tested)].sort()).toEqual([...rules].sort())
  })
})

describe('the tables and examples of the rules', () => {
  it('[N2] a line belongs to the nearest above that begins further left', () => checkDepths('N2'))
  it('[N3] blank lines and comments part nothing', () => checkDepths('N3'))

  function checkDepths(rule: string): void {
    for (const block of fences(rule, 'depths')) {
      const typed = block
        .split('\n')
        .map((line) => line.slice(2))
        .join('\n')
      const depths = block.split('\n').map((line) => Number(line[0]))
      expect(parse(typed).netlist.lines.map(({ depth }) => depth)).toEqual(depths)
    }
  }

  it('[N4] words and marks', () => checkTokens('N4'))
  it('[N5] quotes', () => checkTokens('N5'))
  it('[N6] comments', () => checkTokens('N6'))
  it('[N8] a quote that is not closed', () => checkTokens('N8'))

  function checkTokens(rule: string): void {
    for (const [typed = '', tokens = ''] of rows(rule, 'typed', 'tokens')) {
      expect(shown(onlyLine(typed)), typed).toEqual(tokens.split(' · ').map((token) => token.replace(/^`|`$/g, '')))
    }
  }

  it('[N7] problems of form', () => {
    for (const [typed = '', code] of rows('N7', 'typed', 'problem')) {
      const text = typed.replaceAll('␀', '\u0000').replaceAll('␣', '\u200d')
      const found = parse(text).problems
      expect(
        found.map((one) => one.code),
        typed,
      ).toEqual(code === '—' ? [] : [code])
      for (const { from, to, message, hint } of found) {
        expect(to, typed).toBeGreaterThan(from)
        expect(message, typed).toMatch(/^[A-Z].*\.$/)
        expect(hint, typed).toMatch(/^[A-Z].*\.$/)
      }
    }
  })

  it('[N10] names', () => {
    for (const [typed = '', name] of rows('N10', 'typed', 'name')) expect(isName(typed), typed).toBe(name === 'yes')
  })

  it('[N11] two tags', () => {
    for (const [typed = '', tags = ''] of rows('N11', 'typed', 'tags')) {
      const expected = tags === '—' ? undefined : tags.split(' and ').map((tag) => tag.replaceAll('`', ''))
      expect(splitTags(typed), typed).toEqual(expected)
    }
  })

  it('[N12] terminals', () => {
    for (const [typed = '', terminal] of rows('N12', 'typed', 'terminal')) {
      expect(terminalId(typed), typed).toBe(terminal === '—' ? undefined : terminal)
    }
  })

  it('[N13] quantities', () => {
    const unitsShown = new Set<string>()
    for (const [typed = '', expected = ''] of rows('N13', 'typed', 'value')) {
      const [value, name] = expected.split(' ')
      const read = quantity(onlyLine(typed).tokens)
      if (!read || isProblem(read)) throw new Error(`${typed} is not read`)
      expect(read.quantity, typed).toBe(name)
      expect(read.si / Number(value), typed).toBeCloseTo(1, 4)
      expect([read.from, read.to], typed).toEqual([0, typed.length])
      expect(unitOf(typed.replace(/^[-.\d]+ ?/, '')), typed).toBe(read.unit)
      unitsShown.add(read.unit)
    }
    expect([...unitsShown].sort()).toEqual([...unitWords].sort())
  })

  it('[N14] problems with a number', () => {
    for (const [typed = '', code] of rows('N14', 'typed', 'problem with the number')) {
      const read = quantity(onlyLine(typed).tokens)
      expect(read && isProblem(read) ? read.code : '—', typed).toBe(code)
    }
  })

  it('[N15] the nearest word', () => {
    for (const [typed = '', known = '', meant] of rows('N15', 'typed', 'known', 'meant')) {
      const candidates = known.split(' ').map((word) => word.replaceAll('`', ''))
      expect(nearest(typed, candidates), typed).toBe(meant === '—' ? undefined : meant)
    }
  })

  it('[N16] printing changes white space only', () => checkPrinting('N16'))
  it('[N17] columns', () => checkPrinting('N17'))
  it('[N18] charts', () => checkPrinting('N18'))
  it('[N19] comments in a column', () => checkPrinting('N19'))

  function checkPrinting(rule: string): void {
    const typed = fences(rule, 'typed')
    const printed = fences(rule, 'printed')
    expect(typed.length).toBe(printed.length)
    typed.forEach((text, index) => {
      expect(print(parse(text).netlist)).toBe(printed[index])
    })
  }
})
