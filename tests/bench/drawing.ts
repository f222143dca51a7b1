import { readdirSync, readFileSync } from 'node:fs'
import path from 'node:path'
import { performance } from 'node:perf_hooks'
import Elk from 'elkjs/lib/elk.bundled.js'
import { type Circuit, readCircuit } from '../../core/circuit/index.ts'
import { drawCircuit, type Plan, planPlain } from '../../core/drawing/index.ts'
import { unitText } from '../drawing/units.ts'

const engine = new Elk()
const elk = (graph: Parameters<typeof engine.layout>[0]) => engine.layout(graph)
const demos = path.join(import.meta.dirname, '../../schematics-demo')

/** Ways to draw, the plain one first. */
const WAYS: readonly (readonly [string, (circuit: Circuit) => Promise<Plan>])[] = [
  ['plain', (circuit) => planPlain(circuit, elk)],
  ['one start', (circuit) => drawCircuit(circuit, elk, { starts: 1 })],
  ['as drawn', (circuit) => drawCircuit(circuit, elk)],
]

/** Prints crossings, bends and milliseconds over the demos and `count` generated units, and times by size. */
export async function bench(count: number): Promise<void> {
  const texts = readdirSync(demos)
    .filter((name) => name.endsWith('.circuit'))
    .map((name) => [name, readFileSync(path.join(demos, name), 'utf8')] as const)
  console.log(`${'crossings / bends'.padEnd(28)}${WAYS.map(([name]) => name.padStart(14)).join('')}`)
  for (const [name, text] of texts) await row(name, [readCircuit(text).circuit])
  await row(
    `${count} generated, 30–60 parts`,
    Array.from({ length: count }, (_, seed) => readCircuit(unitText(seed)).circuit),
  )

  console.log('\nmilliseconds, warm, one start: smallest of five')
  for (const parts of [12, 30, 60, 100, 300]) {
    const circuit = readCircuit(unitText(3, parts)).circuit
    const times: number[] = []
    for (let i = 0; i < 5; i++) {
      const start = performance.now()
      await drawCircuit(circuit, elk, { starts: 1 })
      times.push(performance.now() - start)
    }
    console.log(
      `${`${circuit.parts.size} parts`.padStart(12)}${Math.min(...times)
        .toFixed(0)
        .padStart(8)}`,
    )
  }
}

async function row(name: string, circuits: readonly Circuit[]): Promise<void> {
  const cells: string[] = []
  for (const [, draw] of WAYS) {
    let crossings = 0
    let bends = 0
    for (const circuit of circuits) {
      const plan = await draw(circuit)
      crossings += plan.crossings
      bends += plan.bends
    }
    cells.push(`${crossings} / ${bends}`.padStart(14))
  }
  console.log(`${name.padEnd(28)}${cells.join('')}`)
}
