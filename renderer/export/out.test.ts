import { expect, test } from 'vitest'
import { fileName } from './out.ts'

test.each([
  ['Bench dryer, electric', 'bench-dryer-electric.svg'],
  ['  Öfen / 2  ', 'öfen-2.svg'],
  ['../../etc/passwd', 'etc-passwd.svg'],
  ['…', 'drawing.svg'],
  ['', 'drawing.svg'],
])('%j is exported as %s', (title, name) => {
  expect(fileName(title, 'svg')).toBe(name)
})
