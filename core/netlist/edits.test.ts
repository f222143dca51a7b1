import { describe, expect, it } from 'vitest'
import {
  appendTokens,
  applyEdits,
  diffEdit,
  insertAfterStatement,
  insertLineAfter,
  parse,
  removeLines,
  replaceToken,
  spanOf,
  statements,
} from './index.ts'
import type { Line, TextEdit } from './tree.ts'

const motor = `motor M  area drum
    winding main 4-5  2.4 ohm  # cold

lamp LP`
const { netlist } = parse(motor)

function line(number: number): Line {
  const found = netlist.lines[number - 1]
  if (!found) throw new Error(`the text has a line ${number}`)
  return found
}

describe('line edits', () => {
  it.each<[string, readonly TextEdit[], string]>([
    ['a word replaced', replaceToken(line(2).tokens[3] ?? never(), '2.6'), motor.replace('2.4', '2.6')],
    ['words appended', appendTokens(line(1), '120 V', 'space'), motor.replace('drum', 'drum 120 V')],
    ['words appended before a comment', appendTokens(line(2), 'area top'), motor.replace('ohm', 'ohm  area top')],
    [
      'a first child',
      insertLineAfter(netlist, line(1), 'overload 8-4', 1),
      motor.replace('drum', 'drum\n    overload 8-4'),
    ],
    [
      'another child',
      insertLineAfter(netlist, line(2), 'overload 8-4'),
      motor.replace('cold', 'cold\n    overload 8-4'),
    ],
    ['a child where none is', insertLineAfter(netlist, line(4), 'x', 1), `${motor}\n  x`],
    ['a last line', insertLineAfter(netlist, line(4), 'fuse F1'), `${motor}\nfuse F1`],
    ['a line removed', removeLines(netlist, line(2)), 'motor M  area drum\n\nlamp LP'],
    ['the last line removed', removeLines(netlist, line(4)), motor.replace('\nlamp LP', '')],
    ['all lines removed', removeLines(netlist, { from: 0, to: motor.length }), ''],
    ['a statement removed', removeLines(netlist, spanOf(statements(netlist)[0] ?? never())), '\nlamp LP'],
    [
      'a sibling',
      insertAfterStatement(netlist, statements(netlist)[0] ?? never(), 'fuse F1'),
      motor.replace('cold', 'cold\nfuse F1'),
    ],
  ])('[N21] %s', (_, edits, after) => expect(applyEdits(motor, edits)).toBe(after))

  it('[N21] a new line ends as the others do', () => {
    const windows = parse('fuse F1\r\nlamp LP').netlist
    const [first, last] = windows.lines
    expect(insertLineAfter(windows, first ?? never(), 'x')[0]?.insert).toBe('\r\nx')
    expect(insertLineAfter(windows, last ?? never(), 'x')[0]?.insert).toBe('\r\nx')
  })

  it('[N21] the first line of an empty text stands alone', () => {
    const empty = parse('').netlist
    expect(applyEdits('', insertLineAfter(empty, empty.lines[0] ?? never(), 'lamp LP'))).toBe('lamp LP')
  })

  it('[N21] a quote left open is closed before words are appended', () => {
    const [open] = parse('switch DS "Door').netlist.lines
    expect(applyEdits('switch DS "Door', appendTokens(open ?? never(), 'area top'))).toBe('switch DS "Door"  area top')
  })

  it('[N21] nothing is appended to a line without words, nor put under nothing', () => {
    expect(() => appendTokens(line(3), 'x')).toThrow('line 3')
    expect(() => insertLineAfter(netlist, line(1), 'x', 2)).toThrow('depth 2')
  })
})

describe('edits', () => {
  it('[N22] that overlap or leave the text are mistakes of ours', () => {
    const abc = (...edits: readonly (readonly [number, number])[]) =>
      applyEdits(
        'abc',
        edits.map(([from, to]) => ({ from, to, insert: 'x' })),
      )
    expect(() => abc([0, 2], [1, 3])).toThrow('overlap')
    expect(() => abc([0, 3], [1, 1])).toThrow('overlap')
    expect(() => abc([2, 4])).toThrow('text of 3')
    expect(() => abc([2, 1])).toThrow('2…1')
    expect(() => abc([-1, 1])).toThrow('overlap')
    expect(abc([0, 1], [1, 1], [1, 3])).toBe('xxx')
  })

  it('[N22] at one place are made as listed', () => {
    const insert = (at: number, text: string) => ({ from: at, to: at, insert: text })
    expect(applyEdits('ad', [insert(1, 'b'), insert(1, 'c')])).toBe('abcd')
  })

  it.each([
    ['fuse F1', 'fuse F1', { from: 7, to: 7, insert: '' }],
    ['fuse F1', 'fuse F2', { from: 6, to: 7, insert: '2' }],
    ['aa', 'aaa', { from: 2, to: 2, insert: 'a' }],
    ['', 'lamp', { from: 0, to: 0, insert: 'lamp' }],
    ['lamp', '', { from: 0, to: 4, insert: '' }],
    // The two flames share their first half, the two of the second row their last.
    ['a🔥b', 'a🔦b', { from: 1, to: 3, insert: '🔦' }],
    ['a\u{1f525}b', 'a\u{10525}b', { from: 1, to: 3, insert: '\u{10525}' }],
  ])('[N22] from %j to %j', (before, after, edit) => expect(diffEdit(before, after)).toEqual(edit))
})

function never(): never {
  throw new Error('the text has what the test speaks of')
}
