import { writeFileSync } from 'node:fs'
import { parseArgs } from 'node:util'
import Elk from 'elkjs/lib/elk.bundled.js'
import { drawCircuit, positions, renderSvg } from '../../core/drawing/index.ts'
import { place } from '../../core/netlist/index.ts'
import { allProblems } from '../../core/review/index.ts'
import { rowCount, stringTable, tableControls, traceSetting } from '../../core/strings/index.ts'
import { fontFaces } from './fonts.ts'
import { BadCall, DONE, readInput, reasonOf, stateOf, WRONG_CALL } from './input.ts'
import { tableText, traceText } from './words.ts'

/** A verb of the command line: takes what follows its name, returns the exit status. */
export interface Verb {
  readonly summary: string
  readonly usage: string
  readonly run: (args: readonly string[], io: Io) => Promise<number>
}

export interface Io {
  /** A line to standard output. */
  readonly say: (text: string) => void
  /** A line to standard error. */
  readonly tell: (text: string) => void
}

/** Rows that a table makes without being asked for fewer controls. */
const MOST_ROWS = 2000

const text = { type: 'string' } as const
const flag = { type: 'boolean' } as const
const stateOptions = { set: text, sequence: text, when: text }

/** Arguments by the options a verb takes; one file besides. */
function argumentsOf<O extends Record<string, { readonly type: 'string' | 'boolean'; readonly short?: string }>>(
  args: readonly string[],
  options: O,
) {
  try {
    const { values, positionals } = parseArgs({ args: [...args], options, allowPositionals: true })
    const [file, extra] = positionals
    if (extra !== undefined) throw new BadCall(`One file at a time; “${extra}” is one too many.`)
    return { values, file }
  } catch (error) {
    if (error instanceof BadCall) throw error
    throw new BadCall(error instanceof Error ? error.message : String(error))
  }
}

const json = (value: unknown): string => JSON.stringify(value, null, 2)

const check: Verb = {
  summary: 'form and meaning of a circuit',
  usage: 'check FILE [--json]',
  async run(args, { say, tell }) {
    const { values, file } = argumentsOf(args, { json: flag })
    const input = readInput(file, values.json ? () => {} : tell, allProblems)
    const { problems } = input
    if (values.json) {
      const listed = problems.map(({ code, severity, from, to, message, hint }) => {
        const { line, column } = place(input.text, from)
        return { code, severity, line, column, length: to - from, message, hint }
      })
      say(json({ ok: input.status === DONE, problems: listed }))
    } else if (problems.length === 0) {
      say(`${input.file}: ${input.text.split(/\r\n?|\n/).length} lines, nothing wrong`)
    }
    return input.status
  },
}

const trace: Verb = {
  summary: 'one setting: the story, and what every load needs closed',
  usage: 'trace FILE [--set A=B,…] [--sequence "A=B; …"] [--when X=Y,…] [--json]',
  async run(args, { say, tell }) {
    const { values, file } = argumentsOf(args, { ...stateOptions, json: flag })
    const { circuit, status } = readInput(file, tell)
    const { given, options } = stateOf(circuit, values)
    const result = traceSetting(circuit, given, options)
    if (values.json) {
      // Frames are for drawings; `path` and `poles` come on top of what is agreed.
      say(json({ ...result, story: result.story.map(({ step, text }) => ({ step, text })) }))
    } else say(traceText(circuit, result))
    return status
  },
}

const table: Verb = {
  summary: 'every row: which loads are on, and the strings that must be closed',
  usage: 'table FILE [--controls A,B] [--json]',
  async run(args, { say, tell }) {
    const { values, file } = argumentsOf(args, { controls: text, json: flag })
    const { circuit, status } = readInput(file, tell)
    const names = values.controls?.split(',').map((name) => name.trim())
    const known = tableControls(circuit)
    for (const name of names ?? []) {
      if (!known.some((c) => c.name === name)) {
        throw new BadCall(
          `There is no maintained control “${name}”. There are: ${known.map((c) => c.name).join(', ')}.`,
        )
      }
    }
    const rows = rowCount(tableControls(circuit, names))
    if (rows > MOST_ROWS) {
      throw new BadCall(`That makes ${rows} rows. Name the controls to turn: --controls ${known[0]?.name ?? ''}.`)
    }
    const result = stringTable(circuit, names)
    say(values.json ? json(result) : tableText(circuit, result))
    return status
  },
}

const draw: Verb = {
  summary: 'the drawing, as SVG or as positions',
  usage: 'draw FILE [-o out.svg] [--symbols iec|ieee] [--set A=B,…] [--sequence "A=B; …"] [--when X=Y,…] [--json]',
  async run(args, { say, tell }) {
    const { values, file } = argumentsOf(args, {
      ...stateOptions,
      symbols: text,
      output: { type: 'string', short: 'o' },
      json: flag,
    })
    const { symbols = 'iec' } = values
    if (symbols !== 'iec' && symbols !== 'ieee') throw new BadCall(`Symbols are iec or ieee, not “${symbols}”.`)
    const { circuit, status } = readInput(file, tell)
    const { given, options } = stateOf(circuit, values)
    const elk = new Elk()
    const plan = await drawCircuit(circuit, (graph) => elk.layout(graph))
    if (values.output !== undefined) {
      // Marks belong to a state that somebody asked for; otherwise the sheet is drawn at rest.
      const asked = values.set !== undefined || values.sequence !== undefined || values.when !== undefined
      const frame = traceSetting(circuit, given, options).story.at(-1)?.frame
      const svg = renderSvg(plan, {
        standalone: true,
        legend: true,
        symbols,
        fontFaces,
        ...(asked && frame && { frame }),
      })
      try {
        writeFileSync(values.output, svg)
      } catch (error) {
        throw new BadCall(`${values.output} cannot be written: ${reasonOf(error)}.`)
      }
      tell(`drawn to ${values.output}`)
      if (values.json) say(json(positions(plan)))
    } else say(json(positions(plan)))
    return status
  },
}

const verbs: Readonly<Record<string, Verb>> = { check, trace, table, draw }

const usage = (): string =>
  ['usage: halfsplit VERB FILE …', ...Object.values(verbs).map((v) => `  ${v.usage}\n      ${v.summary}`)].join('\n')

/** Carries out one call; returns its exit status: 0 done, 1 the circuit has errors, 2 the call itself was wrong. */
export async function command(args: readonly string[], io: Io): Promise<number> {
  const [name = '', ...rest] = args
  if (name === '--help' || name === 'help') {
    io.say(usage())
    return DONE
  }
  const verb = Object.hasOwn(verbs, name) ? verbs[name] : undefined
  if (!verb) {
    io.tell(name === '' ? usage() : `halfsplit: there is no verb “${name}”.\n${usage()}`)
    return WRONG_CALL
  }
  try {
    return await verb.run(rest, io)
  } catch (error) {
    if (!(error instanceof BadCall)) throw error
    io.tell(`halfsplit ${name}: ${error.message}`)
    io.tell(`usage: halfsplit ${verb.usage}`)
    return WRONG_CALL
  }
}
