import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { readCircuit } from '../circuit/index.ts'
import { allProblems } from './index.ts'
import { messages } from './messages.ts'

/** The page that explains what a review finds, run: each circuit has what it stands under, and mended it has nothing. */
const entries = readFileSync(new URL('HELP.md', import.meta.url), 'utf8')
  .split(/^## /m)
  .slice(1)
  .map((entry) => {
    const [, code = '', words = ''] = /^(\S+)\n\n([\s\S]*?)\n\n/.exec(entry) ?? []
    const block = (kind: string) => new RegExp(`\`\`\`${kind}\\n([\\s\\S]*?)\`\`\``).exec(entry)?.[1] ?? ''
    return { code, words, odd: block('odd'), mended: block('mended') }
  })
const codes = (text: string) => allProblems(text, readCircuit(text)).map((p) => p.code)

describe('the page of what a review finds', () => {
  it.each(entries)('$code', ({ code, words, odd, mended }) => {
    expect(words).toMatch(/^[A-Z][\s\S]*\.$/)
    expect(codes(odd)).toEqual([code])
    expect(codes(mended)).toEqual([])
  })
  it('has every code once', () => {
    expect(entries.map((e) => e.code).toSorted()).toEqual(Object.keys(messages).toSorted())
  })
})
