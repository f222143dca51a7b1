import { type ResultType, Simulation } from 'eecircuit-engine'
import type { Complex } from '../../core/network/index.ts'

/** The engine leaks about 0.1 MB a run, so it is started anew now and then. */
const RUNS_PER_ENGINE = 1000
const PATIENCE_MS = 15_000

let engine: Simulation | undefined
let runsOfEngine = 0
let runs = 0
/** The engine solves one circuit at a time. */
let queue: Promise<unknown> = Promise.resolve()

/** Starts the engine unless it runs. Rejects where it cannot. */
export async function startOracle(): Promise<void> {
  if (engine && runsOfEngine < RUNS_PER_ENGINE) return
  const starting = new Simulation()
  await inTime(starting.start(), 'start')
  engine = starting
  runsOfEngine = 0
}

/**
 * Steady state of a circuit by an independent general-purpose solver: `v(node)` in volts, `i(source)` in amperes, the
 * latter flowing from a source's first node through it to its second. Names come in lower case.
 *
 * `cards` are the lines of the circuit in that solver's language, the ground node being `0`. Its traps: 0 ohm is solved
 * wrongly, so a short is a 0 V source; only sources have a current, so such a source in series is the ammeter; a run
 * that failed hands back the run before it, so each carries a title of its own, which is looked for in the answer.
 */
export function acSolve(cards: readonly string[], hertz = 60): Promise<ReadonlyMap<string, Complex>> {
  const job = async () => {
    await startOracle()
    const title = `run${++runs}`
    runsOfEngine++
    engine?.setNetList([title, ...cards, '.options noopac', `.ac lin 1 ${hertz} ${hertz}`, '.end'].join('\n'))
    const result = await inTime(engine?.runSim() ?? Promise.reject(new Error('not started')), title)
    return values(result, title)
  }
  const answer = queue.then(job, job)
  queue = answer.catch(() => {
    engine = undefined // what a failed run leaves behind is not to be trusted
  })
  return answer
}

function values(result: ResultType, title: string): ReadonlyMap<string, Complex> {
  const complaint = (engine?.getError() ?? []).find((line) => /singular|too small|error/i.test(line))
  if (complaint) throw new Error(`oracle: ${short(complaint)}`)
  if (!new RegExp(`^Title: ${title}$`, 'm').test(result.header))
    throw new Error('oracle: an answer to another question')
  if (result.dataType !== 'complex') throw new Error('oracle: no steady state in the answer')
  return new Map(
    result.data.map(({ name, values: [first] }) => {
      if (!first) throw new Error(`oracle: no value for ${name}`)
      return [name, { re: first.real, im: first.img }]
    }),
  )
}

async function inTime<T>(work: Promise<T>, what: string): Promise<T> {
  let timer: ReturnType<typeof setTimeout> | undefined
  const late = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(new Error(`no answer within ${PATIENCE_MS} ms`)), PATIENCE_MS)
  })
  try {
    return await Promise.race([work, late])
  } catch (error) {
    // A crash of the engine carries its whole source text along.
    throw new Error(`oracle: ${what}: ${short(error instanceof Error ? error.message : String(error))}`)
  } finally {
    clearTimeout(timer)
  }
}

function short(text: string): string {
  return text.trim().slice(0, 200)
}
