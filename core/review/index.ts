import type { Reading } from '../circuit/index.ts'
import type { Circuit } from '../circuit/model.ts'
import { type Problem, parse } from '../netlist/index.ts'
import { alwaysOn } from './alwaysOn.ts'
import { ask, type Check } from './asked.ts'
import { celsiusOrFahrenheit } from './celsiusOrFahrenheit.ts'
import { deadShort } from './deadShort.ts'
import { ground } from './ground.ts'
import { inNoZone } from './inNoZone.ts'
import { looseTerminal } from './looseTerminal.ts'
import { neverFed } from './neverFed.ts'
import { nothingWarms } from './nothingWarms.ts'
import { MOST_ROWS } from './rows.ts'
import { slipsIn } from './slips.ts'
import { swappedTemperatures } from './swappedTemperatures.ts'
import { tooSmall } from './tooSmall.ts'
import { unprotected } from './unprotected.ts'
import { volts } from './volts.ts'

export type { ReviewCode } from './messages.ts'

/** Everything that is looked for, each in a file of its own. */
const checks: readonly Check[] = [
  looseTerminal,
  neverFed,
  alwaysOn,
  deadShort,
  inNoZone,
  nothingWarms,
  unprotected,
  swappedTemperatures,
  celsiusOrFahrenheit,
  volts,
  tooSmall,
  ground,
]

/**
 * What is odd about a circuit that was read without errors: everything that only the whole circuit can show, operated in
 * all of its rows. Warnings, in the order of the text. `text` is what it was read from, and gives places their exact words. Of
 * more rows than `mostRows`, it looks at some that have every position of every control.
 */
export function reviewCircuit(circuit: Circuit, text = '', mostRows = MOST_ROWS): readonly Problem[] {
  const asked = ask(circuit, text, mostRows)
  return inOrder(checks.flatMap((check) => check(asked)))
}

/**
 * All problems of a text: of its reading, and of the review. A text with errors is not reviewed, since a line that was
 * not understood adds nothing, and all that follows from that would be told of lines that are right. What the review
 * knows to say better than the reader takes its place.
 */
export function allProblems(text: string, { circuit, problems }: Reading, mostRows = MOST_ROWS): readonly Problem[] {
  const slips = slipsIn(text)
  const lines = slips.length > 0 ? parse(text).netlist.lines : []
  const better = slips.flatMap((slip) => lines.filter((line) => line.from <= slip.from && slip.to <= line.to))
  const read = problems.filter((p) => !better.some((line) => line.from <= p.from && p.to <= line.to))
  const known = [...read, ...slips]
  return inOrder(
    known.some((p) => p.severity === 'error') ? known : [...known, ...reviewCircuit(circuit, text, mostRows)],
  )
}

const inOrder = (problems: readonly Problem[]): readonly Problem[] =>
  problems.toSorted((a, b) => a.from - b.from || a.to - b.to)
