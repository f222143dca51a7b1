import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { messages as ofMeaning } from '../circuit/messages.ts'
import { readCircuit } from '../circuit/reader.ts'
import { messages as ofForm } from './problems.ts'

/** The page that explains every problem, run: each line has the problem it stands under, and mended it has none. */
const page = readFileSync(new URL('PROBLEMS.md', import.meta.url), 'utf8')
const around = /```around\n([\s\S]*?)```/.exec(page)?.[1] ?? ''
const entries = page
  .split(/^### /m)
  .slice(1)
  .map((entry) => {
    const [code = ''] = entry.split('\n')
    const [head, , row] = entry.split('\n').filter((line) => line.startsWith('|'))
    const [typed = '', mended = ''] = [...(row ?? '').matchAll(/`([^`]*)`/g)].map((m) =>
      (m[1] ?? '').replaceAll('⏎', '\n').replaceAll('␀', '\u0000'),
    )
    const before = head?.startsWith('| alone') ? '' : around
    const among = head?.includes('among others') ?? false
    return { code, among, typed: before + typed, mended: before + mended, words: entry.split('\n')[2] ?? '' }
  })

const codes = (text: string) => readCircuit(text).problems.map((p) => p.code)

describe('the page of problems', () => {
  it('stands on a circuit without any', () => expect(readCircuit(around).problems).toEqual([]))
  it.each(entries)('$code', ({ code, among, typed, mended, words }) => {
    expect(words).toMatch(/^[A-Z].*\.$/)
    if (among) expect(codes(typed)).toContain(code)
    else expect(codes(typed)).toEqual([code])
    expect(codes(mended)).toEqual([])
  })
  it('has every code once', () => {
    expect(entries.map((e) => e.code).toSorted()).toEqual(
      [...Object.keys(ofForm), ...Object.keys(ofMeaning)].toSorted(),
    )
  })
})
