import { expect, test } from 'vitest'
import { minimalSheet } from '../store/sheets.ts'
import { createReader } from './reader.ts'

function read(text: string) {
  const answer = createReader()({ kind: 'read', text })
  if (answer.kind !== 'read') throw new Error('a read is answered by a read')
  return answer.read
}

test.each([
  ['a comment', `# from the sheet\n${minimalSheet}`],
  ['white space', minimalSheet.replaceAll('  ', '   ')],
  ['a blank line', minimalSheet.replace('\n\n', '\n\n\n')],
])('%s leaves the circuit the same, so that nothing is drawn anew', (_, text) => {
  expect(text).not.toBe(minimalSheet)
  expect(read(text).print).toBe(read(minimalSheet).print)
})

test.each([
  ['a rating', minimalSheet.replace('2000 W', '2100 W')],
  ['a wire colour', minimalSheet.replace('wire RD', 'wire BN')],
  ['a label', minimalSheet.replace('"Heater"', '"Coil"')],
])('%s makes it another', (_, text) => {
  expect(read(text).print).not.toBe(read(minimalSheet).print)
})

test('a setting is worked out for the text that the job names, whatever was read before', () => {
  const reader = createReader()
  reader({ kind: 'read', text: 'unit "Another"\n' })
  const answer = reader({ kind: 'trace', text: minimalSheet, given: { switch: 'on' } })
  if (answer.kind !== 'trace') throw new Error('a trace is answered by a trace')
  expect(answer.trace.loads.map(({ load, on }) => [load, on])).toEqual([['H1:1-2', true]])
})

test('answers can be carried from a worker to its page', () => {
  const answer = createReader()({ kind: 'trace', text: minimalSheet, given: { switch: 'on' } })
  expect(structuredClone(answer)).toEqual(answer)
})
