import { expect, test } from 'vitest'
import { diagnostics } from './problems.ts'

const problem = {
  from: 4,
  to: 9,
  code: 'unknown-word',
  severity: 'error',
  message: 'Nothing is called “heeter”.',
  hint: 'Did you mean `heater`?',
} as const

test('a problem is underlined where it stands, and says its way out', () => {
  const [shown] = diagnostics([problem], 20)
  expect(shown).toMatchObject({ from: 4, to: 9, severity: 'error' })
  expect(shown?.message).toBe('Nothing is called “heeter”. Did you mean heater?')
})

test('words of the netlist are set as such, and nothing in them is taken for markup', () => {
  const [shown] = diagnostics([{ ...problem, hint: 'Write `<b>` or `a & b`.' }], 20)
  const box = shown?.renderMessage?.(undefined as never)
  expect(box?.textContent).toBe('Nothing is called “heeter”.Write <b> or a & b.')
  expect(box instanceof HTMLElement && [...box.querySelectorAll('code')].map((c) => c.textContent)).toEqual([
    '<b>',
    'a & b',
  ])
})

test('a place beyond the text is brought back into it', () => {
  expect(diagnostics([{ ...problem, from: 30, to: 40 }], 20)).toMatchObject([{ from: 20, to: 20 }])
})
