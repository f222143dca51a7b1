import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  appendTokens,
  applyEdits,
  cursor,
  diffEdit,
  insertAfterStatement,
  insertLineAfter,
  invertEdits,
  isProblem,
  parse,
  print,
  removeLines,
  spanOf,
  splitTags,
  statements,
  strip,
  terminalId,
} from './index.ts'
import { DEEPEST } from './parse.ts'
import type { Comment, Gap, Line, Statement, TextEdit, Token } from './tree.ts'

const runs = { seed: 20_240_611, numRuns: 2000 }

/** Pieces that a technician, a pasted sheet or a slipped finger puts together. */
const fragment = fc.constantFrom(
  ...[
    'switch',
    'DS',
    '"Door switch"',
    'C-NO',
    'when',
    'door=shut',
    '=',
    ',',
    ' , ',
    '>',
    ' > ',
    'area rear',
    '15 A',
    '2,4 ohm',
  ],
  ...[
    '1-"−"',
    'supply."+"',
    '“Door”',
    '"',
    '”',
    '#',
    '# by heat',
    '  ',
    '   ',
    ' ',
    '\t',
    '\u00a0',
    '\ufeff',
    '\u200b',
  ],
  ...[
    '\n',
    '\n',
    '\n',
    '\r\n',
    '\r',
    '\n\n',
    '\n  ',
    '\n  ',
    '\n    ',
    '\n\t',
    '\n   ',
    '\n # note',
    '\u0000',
    '🔥',
    '\ud800',
  ],
  ...[
    '\n  chart  off  on',
    '\n  chart dial, heat  off/low  on/low',
    '\n  A-B  x o "motor"',
    '\n  A-C o  x',
    '\n  bars 6 deg = 45 s',
  ],
)
const fragments = fc.array(fragment, { maxLength: 40 }).map((pieces) => pieces.join(''))
const unicode = fc.string({ unit: 'binary', maxLength: 60 })
const units = fc.array(fc.nat(0xffff), { maxLength: 40 }).map((codes) => String.fromCharCode(...codes))
const deep = fc
  .array(fc.tuple(fc.nat(20), fc.constantFrom('a', 'b c', '# d', '')), { maxLength: 40 })
  .map((lines) => lines.map(([indent, words]) => ' '.repeat(indent) + words).join('\n'))
const text = fc.oneof({ weight: 6, arbitrary: fragments }, { weight: 2, arbitrary: deep }, unicode, units)

describe('reading', () => {
  it('[N1] any text is lines, and nothing of it is lost', () => {
    fc.assert(
      fc.property(text, (typed) => {
        const { lines } = parse(typed).netlist
        expect(lines.map(({ from, to }) => typed.slice(from, to))).toEqual(typed.split(/\r\n|\r|\n/))
        for (const line of lines) {
          let end = line.from
          for (const { from, to } of [...line.tokens, ...(line.comment ? [line.comment] : [])]) {
            expect(typed.slice(end, from)).toMatch(/^\s*$/)
            expect(to).toBeGreaterThan(from)
            end = to
          }
          expect(typed.slice(end, line.to)).toMatch(/^\s*$/)
        }
      }),
      runs,
    )
  })

  it('[N4] agrees with a plain twin made of patterns', () => {
    fc.assert(
      fc.property(text, (typed) => {
        const { lines } = parse(typed).netlist
        expect(lines.map(({ tokens, comment }) => ({ tokens, comment: comment?.text }))).toEqual(plainTokens(typed))
      }),
      runs,
    )
  })

  it('[N2] agrees with a plain twin that looks back for the line each belongs to', () => {
    fc.assert(
      fc.property(text, (typed) => {
        expect(parse(typed).netlist.lines.map(({ depth }) => depth)).toEqual(plainDepths(typed))
      }),
      runs,
    )
  })

  it('[N7] problems come in order and lie within the text, on one line each', () => {
    fc.assert(
      fc.property(text, (typed) => {
        let before = 0
        for (const { from, to } of parse(typed).problems) {
          expect(from).toBeGreaterThanOrEqual(before)
          expect(to).toBeGreaterThan(from)
          expect(typed.slice(from, to)).not.toMatch(/[\r\n]/)
          before = from
        }
      }),
      runs,
    )
  })

  it('[N8] what follows a broken line is read as without it', () => {
    fc.assert(
      fc.property(fragments, (typed) => {
        const alone = parse('lamp LP "pilot"').netlist.lines
        const after = parse(`${typed}\nlamp LP "pilot"`).netlist.lines
        expect(strip({ lines: after.slice(-1) })).toEqual(strip({ lines: alone }))
      }),
      runs,
    )
  })

  it('[N3] statements are the lines with words, each as deep as it is nested', () => {
    const flatten = (nested: readonly Statement[], depth: number): readonly Line[] =>
      nested.flatMap(({ line, children }) => {
        expect(line.depth).toBe(depth)
        return [line, ...flatten(children, depth + 1)]
      })
    fc.assert(
      fc.property(text, (typed) => {
        const { netlist } = parse(typed)
        expect(flatten(statements(netlist), 0)).toEqual(netlist.lines.filter(({ tokens }) => tokens.length > 0))
      }),
      runs,
    )
  })

  it('[N24] a cursor comes to the end by every step, and lexing words never throws', () => {
    fc.assert(
      fc.property(text, fc.array(fc.nat(5)), (typed, steps) => {
        for (const line of parse(typed).netlist.lines) {
          const read = cursor(line)
          const taken: Token[] = []
          for (let step = 0; !read.done; step++) {
            const { from } = read.span
            if (steps[step] === 1) read.takeString()
            if (steps[step] === 2) read.takeNumber()
            if (steps[step] === 3) {
              const found = read.takeQuantity()
              if (found && isProblem(found)) expect(found.from).toBe(from)
            }
            const token = read.next()
            if (!token) continue
            taken.push(token)
            splitTags(token.text)
            terminalId(token.text)
          }
          expect(read.span.from).toBe(read.span.to)
          expect(line.tokens).toEqual(expect.arrayContaining(taken))
        }
      }),
      runs,
    )
  })
})

describe('printing', () => {
  it('[N16] keeps every line, and printing again changes nothing', () => {
    fc.assert(
      fc.property(text, (typed) => {
        const { netlist, problems } = parse(typed)
        const printed = print(netlist)
        const again = parse(printed)
        expect(strip(again.netlist)).toEqual(strip(netlist))
        expect(print(again.netlist)).toBe(printed)
        const ofWords = (code: string) => code === 'unclosed-quote' || code === 'control-character'
        expect(again.problems.map(({ code }) => code)).toEqual(problems.map(({ code }) => code).filter(ofWords))
      }),
      runs,
    )
  })

  it('[N16] of any lines reads back as those lines', () => {
    fc.assert(
      fc.property(anyLines, (lines) => {
        expect(strip(parse(print({ lines })).netlist)).toEqual(strip({ lines }))
      }),
      runs,
    )
  })

  it('[N16] leaves no white space at the end of a line without a comment', () => {
    fc.assert(
      fc.property(text, (typed) => {
        for (const line of print(parse(typed).netlist).split('\n')) {
          if (!line.includes('#')) expect(line).toBe(line.trimEnd())
        }
      }),
      runs,
    )
  })

  it('[N17] begins the columns of a block at one place', () => {
    const cell = fc.stringMatching(/^[a-z🔥]{1,12}$/u)
    fc.assert(
      fc.property(fc.array(fc.array(cell, { minLength: 1, maxLength: 5 }), { minLength: 1, maxLength: 6 }), (rows) => {
        const printed = print(parse(rows.map((row) => row.join('\t')).join('\n')).netlist).split('\n')
        const starts = printed.map((line) => [
          ...`  ${[...line].map((one) => (one === ' ' ? ' ' : 'x')).join('')}`.matchAll(/(?<= {2})x/g),
        ])
        const widths = [0, 1, 2, 3].map((column) =>
          Math.max(0, ...rows.filter((row) => row.length > column + 1).map((row) => [...(row[column] ?? '')].length)),
        )
        starts.forEach((found, index) => {
          const expected = (rows[index] ?? []).map((_, column) =>
            widths.slice(0, column).reduce((sum, width) => sum + width + 2, 0),
          )
          expect(found.map((match) => match.index - 2)).toEqual(expected)
        })
      }),
      runs,
    )
  })
})

describe('editing', () => {
  const edits = fc
    .tuple(text, fc.array(fc.tuple(fc.nat(100), fragments), { maxLength: 8 }), fc.boolean())
    .map(([typed, cuts, backwards]) => {
      const places = cuts.map(([share]) => Math.round((share / 100) * typed.length)).sort((a, b) => a - b)
      const list: TextEdit[] = []
      for (let index = 0; index + 1 < places.length; index += 2) {
        list.push({ from: places[index] ?? 0, to: places[index + 1] ?? 0, insert: cuts[index]?.[1] ?? '' })
      }
      return { typed, list: backwards ? list.toReversed() : list }
    })

  it('[N22] undoing gives the text back to the letter, and redoing the edit', () => {
    fc.assert(
      fc.property(edits, ({ typed, list }) => {
        const edited = applyEdits(typed, list)
        const undo = invertEdits(typed, list)
        expect(applyEdits(edited, undo)).toBe(typed)
        expect(applyEdits(typed, invertEdits(edited, undo))).toBe(edited)
      }),
      runs,
    )
  })

  it('[N22] one edit leads from any text to any other', () => {
    fc.assert(
      fc.property(text, text, (before, after) => {
        const edit = diffEdit(before, after)
        expect(applyEdits(before, [edit])).toBe(after)
        expect(edit.to - edit.from + edit.insert.length).toBeLessThanOrEqual(before.length + after.length)
      }),
      runs,
    )
  })

  it('[N22] that edit is the shortest there is', () => {
    const short = fc.string({ unit: fc.constantFrom('a', 'b', '\n'), maxLength: 7 })
    fc.assert(
      fc.property(short, short, (before, after) => {
        const { from, to, insert } = diffEdit(before, after)
        expect(to - from + insert.length).toBe(shortestEdit(before, after))
      }),
      runs,
    )
  })

  const textWithLine = text
    .map((typed) => ({ typed, lines: parse(typed).netlist.lines.filter(({ tokens }) => tokens.length > 0) }))
    .filter(({ lines }) => lines.length > 0)

  it('[N21] words appended to a line are its last, and no other line changes', () => {
    fc.assert(
      fc.property(textWithLine, fc.nat(), ({ typed, lines }, pick) => {
        const line = at(lines, pick)
        const edited = parse(applyEdits(typed, appendTokens(line, 'area top'))).netlist.lines
        const before = parse(typed).netlist.lines
        expect(edited.length).toBe(before.length)
        edited.forEach((one, index) => {
          const old = before[index]
          if (!old) throw new Error('as many lines as before')
          if (old.number === line.number) {
            expect(words(one).slice(-2)).toEqual(['area', 'top'])
            expect(words(one).slice(0, -2)).toEqual(words(old))
            expect(one.comment?.text).toBe(old.comment?.text)
          } else expect(strip({ lines: [one] })).toEqual(strip({ lines: [old] }))
        })
      }),
      runs,
    )
  })

  it('[N21] a new line stands where and as deep as it should, and no other changes', () => {
    fc.assert(
      fc.property(textWithLine, fc.nat(), fc.nat(), ({ typed, lines }, pick, deeper) => {
        const { netlist } = parse(typed)
        const line = at(lines, pick)
        const below = netlist.lines.slice(line.number).find(({ tokens }) => tokens.length > 0)
        const depth = Math.min(Math.max(deeper % (line.depth + 2), (below?.depth ?? 0) - 1), DEEPEST)
        const edited = parse(applyEdits(typed, insertLineAfter(netlist, line, 'lamp NEW', depth))).netlist.lines
        const fresh = edited[line.number]
        expect(fresh && words(fresh)).toEqual(['lamp', 'NEW'])
        expect(fresh?.depth).toBe(depth)
        expect(said(edited.toSpliced(line.number, 1))).toEqual(said(netlist.lines))
      }),
      runs,
    )
  })

  it('[N21] a statement is put after another, and taken out again', () => {
    fc.assert(
      fc.property(text, fc.nat(), (typed, pick) => {
        const { netlist } = parse(typed)
        const all = flat(statements(netlist))
        if (all.length === 0) return
        const statement = at(all, pick)
        const more = parse(applyEdits(typed, insertAfterStatement(netlist, statement, 'lamp NEW'))).netlist
        const fresh = flat(statements(more)).find(({ line }) => words(line).join() === 'lamp,NEW')
        expect(fresh?.line.depth).toBe(statement.line.depth)
        expect(fresh?.children).toEqual([])
        if (!fresh) return
        expect(applyEdits(more.text, removeLines(more, spanOf(fresh)))).toBe(typed)

        const gone = flat([statement]).map(({ line }) => line)
        const less = parse(applyEdits(typed, removeLines(netlist, spanOf(statement)))).netlist
        expect(said(less.lines)).toEqual(said(netlist.lines.filter((line) => !gone.includes(line))))
      }),
      runs,
    )
  })
})

function at<T>(list: readonly T[], pick: number): T {
  const found = list[pick % list.length]
  if (found === undefined) throw new Error('the list is not empty')
  return found
}

function flat(nested: readonly Statement[]): readonly Statement[] {
  return nested.flatMap((statement) => [statement, ...flat(statement.children)])
}

/** A quote that an edit had to close reads the same. */
function words({ tokens }: Line): readonly string[] {
  return tokens.map(({ text }) => text.replaceAll('"', ''))
}

/** What lines with words say: their words and how deep they stand. */
function said(lines: readonly Line[]): unknown {
  return lines
    .filter(({ tokens }) => tokens.length > 0)
    .map((line) => [line.depth, line.tokens.map(({ kind, text }) => [kind, text])])
}

/** The fewest letters taken out and put in by one edit, found by trying every one. */
function shortestEdit(before: string, after: string): number {
  let fewest = Number.POSITIVE_INFINITY
  for (let head = 0; head <= before.length; head++) {
    for (let tail = 0; head + tail <= Math.min(before.length, after.length); tail++) {
      const same =
        before.slice(0, head) === after.slice(0, head) &&
        before.slice(before.length - tail) === after.slice(after.length - tail)
      if (same) fewest = Math.min(fewest, before.length + after.length - 2 * (head + tail))
    }
  }
  return fewest
}

const stretch = /"[^"]*(?:"|$)|[“”„][^"“”„]*(?:["“”„]|$)/u
const plainWord = new RegExp(`(?:${stretch.source}|[^\\s,=>#"“”„])+`, 'uy')

/** The scanner again, slow and in patterns. */
function plainTokens(typed: string): unknown {
  let start = 0
  return typed.split(/(\r\n|\r|\n)/).flatMap((line, index) => {
    const from = start
    start += line.length
    return index % 2 === 0 ? [plainLine(line, from)] : []
  })
}

function plainLine(line: string, from: number): unknown {
  const tokens: unknown[] = []
  let place = 0
  while (true) {
    const room = /^\s*/.exec(line.slice(place))?.[0] ?? ''
    place += room.length
    if (place === line.length) return { tokens, comment: undefined }
    if (line[place] === '#') return { tokens, comment: line.slice(place + 1) }
    const gap = tokens.length === 0 || room === '' ? 'none' : /^[^\t]$/.test(room) ? 'space' : 'column'
    plainWord.lastIndex = place
    const mark = /^[,=>]/.exec(line.slice(place))?.[0]
    const raw = (mark ?? plainWord.exec(line)?.[0] ?? '').trimEnd()
    const straight = raw.replaceAll(new RegExp(stretch.source, 'gu'), (one) =>
      /^[“”„]/.test(one) ? one.replace(/^./, '"').replace(/(?<=.)[“”„]$/, '"') : one,
    )
    const string = /^"([^"]*)"$/.exec(straight)
    const kind = mark ?? (string ? 'string' : 'word')
    tokens.push({ kind, text: string?.[1] ?? straight, gap, from: from + place, to: from + place + raw.length })
    place += raw.length
    if (place < line.length && line.slice(place).trim() === '') place = line.length
  }
}

/** How deep each line stands: for each, look back for the nearest with words that begins further left, and so on from it. */
function plainDepths(typed: string): readonly number[] {
  const lines = typed.split(/\r\n|\r|\n/).map((line) => {
    const room = /^\s*/.exec(line)?.[0] ?? ''
    let column = 0
    for (const one of room)
      column = one === '\t' ? (Math.floor(column / 8) + 1) * 8 : one === '\ufeff' ? column : column + 1
    const rest = line.slice(room.length)
    return { column, kind: rest === '' ? 'blank' : rest.startsWith('#') ? 'comment' : 'words' }
  })
  const depthAt = (index: number): number => {
    const column = lines[index]?.column ?? 0
    const above = lines.slice(0, index).findLastIndex((line) => line.kind === 'words' && line.column < column)
    return above === -1 ? 0 : depthAt(above) + 1
  }
  return lines.map(({ kind }, index) => (kind === 'blank' ? 0 : Math.min(DEEPEST, depthAt(index))))
}

const notQuoteNorEnd = fc
  .array(fc.constantFrom(...'aZ09 _-./+−Ω,=>#“”\t', '🔥', '\u00a0', '\u0000'), { maxLength: 8 })
  .map((characters) => characters.join(''))
const bare = fc.stringMatching(/^[A-Za-z0-9_./+−Ωo🔥-]{1,8}$/u)
const nowhere = { from: 0, to: 0 }
const anyToken = fc.oneof(
  {
    weight: 6,
    arbitrary: fc.oneof(bare, fc.constantFrom('chart', 'x', 'o')).map((text) => ({ kind: 'word' as const, text })),
  },
  fc.tuple(bare, notQuoteNorEnd, fc.boolean()).map(([word, quoted, first]) => ({
    kind: 'word' as const,
    text: first ? `"${quoted}"${word}` : `${word}"${quoted}"`,
  })),
  { weight: 2, arbitrary: notQuoteNorEnd.map((text) => ({ kind: 'string' as const, text })) },
  fc.constantFrom(',' as const, '=' as const, '>' as const).map((mark) => ({ kind: mark, text: mark })),
)
const anyGap = fc.constantFrom<Gap>('none', 'space', 'column')
const isMark = ({ kind }: Pick<Token, 'kind'>) => kind !== 'word' && kind !== 'string'

/** Lines as a parser could have read them, made without one. */
const anyLines = fc
  .array(
    fc.record({
      tokens: fc.oneof(
        { weight: 4, arbitrary: fc.array(fc.tuple(anyToken, anyGap), { minLength: 1, maxLength: 7 }) },
        fc.constant([]),
      ),
      comment: fc.option(notQuoteNorEnd, { freq: 3 }),
      unclosed: fc.option(notQuoteNorEnd, { freq: 8 }),
      depth: fc.nat(3),
    }),
    { minLength: 1, maxLength: 12 },
  )
  .map((drafts) => {
    let deepest = 0
    return drafts.map(({ tokens: drawn, comment: note, unclosed, depth: wanted }, index): Line => {
      const tokens: Token[] = []
      for (const [token, gap] of drawn) {
        const before = tokens.at(-1)
        const apart =
          before === undefined ? 'none' : gap === 'none' && !isMark(before) && !isMark(token) ? 'space' : gap
        tokens.push({ ...token, gap: apart, ...nowhere })
      }
      const open = drawn.length > 0 && note === null && unclosed !== null
      if (open) tokens.push({ kind: 'word', text: `"${unclosed}`.trimEnd(), gap: 'space', ...nowhere })
      const comment: Comment | undefined = note === null ? undefined : { text: note, ...nowhere }
      const depth = tokens.length > 0 || comment ? Math.min(wanted, deepest) : 0
      if (tokens.length > 0) deepest = depth + 1
      return { number: index + 1, depth, tokens, ...(comment ? { comment } : {}), ...nowhere }
    })
  })
