import { readFileSync } from 'node:fs'
import { type Circuit, type Reading, readCircuit } from '../../core/circuit/index.ts'
import { nearest, type Problem, place } from '../../core/netlist/index.ts'

/** A call that cannot be carried out as written: exit status 2. */
export class BadCall extends Error {}

/** Exit statuses of every verb. */
export const DONE = 0
export const HAS_ERRORS = 1
export const WRONG_CALL = 2

export interface Input {
  readonly file: string
  readonly text: string
  readonly circuit: Circuit
  readonly problems: readonly Problem[]
  readonly status: number
}

/**
 * Reads the circuit of a file; told problems go to `tell`, and decide the exit status. Unless `problemsOf` finds more,
 * they are those of its reading.
 */
export function readInput(
  file: string | undefined,
  tell: (line: string) => void,
  problemsOf: (text: string, reading: Reading) => readonly Problem[] = (_, reading) => reading.problems,
): Input {
  if (file === undefined) throw new BadCall('Name the file of a circuit.')
  let text: string
  try {
    text = new TextDecoder('utf-8', { fatal: true }).decode(readFileSync(file))
  } catch (error) {
    throw new BadCall(`${file} cannot be read: ${reasonOf(error)}.`)
  }
  const reading = readCircuit(text)
  const { circuit } = reading
  const problems = problemsOf(text, reading)
  for (const problem of problems) tell(problemLine(file, text, problem))
  return { file, text, circuit, problems, status: problems.some((p) => p.severity === 'error') ? HAS_ERRORS : DONE }
}

/** `dryer.circuit:12:5: unknown-part: No part is called “TX”. Did you mean TC?` */
export function problemLine(file: string, text: string, { from, code, message, hint }: Problem): string {
  const { line, column } = place(text, from)
  return `${file}:${line}:${column}: ${code}: ${message} ${hint}`
}

/** What went wrong outside, in words. */
export function reasonOf(error: unknown): string {
  const code = error instanceof Error && 'code' in error ? error.code : undefined
  if (code === 'ENOENT') return 'there is no such file'
  if (code === 'EISDIR') return 'it is a folder'
  if (code === 'EACCES' || code === 'EPERM') return 'it may not be opened'
  if (error instanceof TypeError) return 'it is not text in UTF-8'
  return error instanceof Error ? error.message : String(error)
}

interface Pair {
  readonly name: string
  readonly state: string
}

/** `a=b, c=d` or `a=b; c=d` as pairs. */
function pairsOf(option: string, text: string, separator: string): readonly Pair[] {
  return text
    .split(separator)
    .map((piece) => piece.trim())
    .filter((piece) => piece !== '')
    .map((piece) => {
      const [name, state, more] = piece.split('=')
      if (!name || !state || more !== undefined) throw new BadCall(`--${option} takes NAME=STATE, not “${piece}”.`)
      return { name: name.trim(), state: state.trim() }
    })
}

function checked(what: string, { name, state }: Pair, statesOf: ReadonlyMap<string, readonly string[]>): void {
  const states = statesOf.get(name)
  if (!states) throw new BadCall(`There is no ${what} “${name}”.${suggestion(name, [...statesOf.keys()])}`)
  if (!states.includes(state)) throw new BadCall(`${name} is never “${state}”.${suggestion(state, states)}`)
}

function suggestion(name: string, candidates: readonly string[]): string {
  const guess = nearest(name, candidates)
  return guess ? ` Did you mean ${guess}?` : candidates.length > 0 ? ` There are: ${candidates.join(', ')}.` : ''
}

export interface StateOptions {
  readonly set?: string
  readonly sequence?: string
  readonly when?: string
}

/** What `--set`, `--sequence` and `--when` say, every name checked. */
export function stateOf(circuit: Circuit, options: StateOptions) {
  const positions = new Map([...circuit.controls.values()].map((c) => [c.name, c.positions]))
  const states = new Map([...circuit.actors.values()].map((a) => [a.name, a.states]))
  const set = pairsOf('set', options.set ?? '', ',')
  const sequence = options.sequence === undefined ? undefined : pairsOf('sequence', options.sequence, ';')
  const when = pairsOf('when', options.when ?? '', ',')
  for (const pair of [...set, ...(sequence ?? [])]) checked('control', pair, positions)
  for (const pair of when) checked('part or drive with states', pair, states)
  return {
    given: Object.fromEntries(set.map((p) => [p.name, p.state])),
    options: {
      forced: Object.fromEntries(when.map((p) => [p.name, p.state])),
      ...(sequence && { sequence: sequence.map((p) => ({ control: p.name, position: p.state })) }),
    },
  }
}
