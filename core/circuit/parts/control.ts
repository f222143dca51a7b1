import type { Token } from '../../netlist/tree.ts'
import { flagForm, namesForm, wordForm } from '../forms.ts'
import { type Context, kind, type Said } from '../kind.ts'

/** More positions than any dial has. */
const MOST_POSITIONS = 720

const clauses = { normally: wordForm('position'), springs: flagForm('back'), momentary: namesForm('position') }

/**
 * Something a person or the process sets from outside, with its positions in the order they turn. Of a momentary position
 * it springs to the next when let go, of the last to the one before.
 */
export const controlKind = kind({
  word: 'control',
  title: 'Control',
  example:
    'control dial "Cycle dial" off, timed, cool-down\ncontrol door "Door" shut, open\ncontrol start "Start" released, held springs back\ncontrol temp "Temperature" off, 150C, 200C\ncontrol knob "Left front" off, low, high\ncontrol tub "Tub" empty, full\ncontrol laundry "Laundry" wet, dry\ncontrol pilot "Pilot" lit, out',
  named: 'shared',
  round: 1,
  bare: true,
  clauses,
  children: {},
  read(line, to) {
    const inDegrees = line.bare.some((token) => token.text === 'deg')
    const positions = inDegrees ? degrees(line, to) : words(line, to)
    const { normally, springs } = line.clauses
    const [first] = positions
    if (first === undefined) {
      if (!line.told && !inDegrees) to.tell('no-positions', line.head, line.name)
      to.lost(line.name)
      return
    }
    const known = normally === undefined || positions.includes(normally.text)
    if (normally && !known) to.tell('unknown-position', normally.at, line.name, normally.text, positions)
    const momentary = (line.clauses.momentary ?? []).flatMap(({ text, at }): (readonly [string, string])[] => {
      const place = positions.indexOf(text)
      if (place < 0) to.tell('unknown-position', at, line.name, text, positions)
      const next = positions[place + 1] ?? positions[place - 1]
      return place < 0 || next === undefined ? [] : [[text, next]]
    })
    to.control({
      name: line.name,
      label: line.label,
      positions,
      normally: normally && known ? normally.text : first,
      springsBack: springs !== undefined,
      ...(momentary.length > 0 && { momentary: Object.fromEntries(momentary) }),
      at: line.at,
    })
  },
})

type ControlLine = Said<typeof clauses, Record<never, never>>

function words(line: ControlLine, to: Context): readonly string[] {
  const positions: string[] = []
  for (const token of line.bare) {
    if (token.kind === ',') continue
    if (token.kind === '=' || token.kind === '>') {
      to.tell('stray-mark', token, token.text, 'Put commas between the positions.')
    } else if (positions.includes(token.text)) to.tell('position-twice', token, line.name, token.text)
    else positions.push(token.text)
  }
  return positions
}

/** `0..354 deg by 6`: a position for each step of a dial that is read by its degrees. */
function degrees(line: ControlLine, to: Context): readonly string[] {
  const [range, unit, by, step, ...extra] = line.bare.map((token: Token) => token.text)
  const [, first, last] = /^(\d+)\.\.(\d+)$/.exec(range ?? '') ?? []
  const [from, until, each] = [Number(first), Number(last), Number(step)]
  const count = Math.floor((until - from) / each) + 1
  const right = unit === 'deg' && by === 'by' && extra.length === 0 && each > 0 && count >= 1 && count <= MOST_POSITIONS
  if (!right) {
    to.tell('degrees-form', line.head, line.name)
    to.lost(line.name)
    return []
  }
  return Array.from({ length: count }, (_, i) => String(from + i * each))
}
