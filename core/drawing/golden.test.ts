import ELK from 'elkjs/lib/elk.bundled.js'
import { expect, test } from 'vitest'
import { dryer, dryerCooling, dryerRunning, heaterOff, heaterOn, motorStarting } from './fixtures.ts'
import { drawCircuit, renderSvg, stringSvg } from './index.ts'
import type { Reading, Verdict } from './marks.ts'

// Drawings to be looked at: a change here is a change that people see. `vitest -u` writes them anew.

const engine = new ELK()
const circuit = dryer()
const plan = drawCircuit(circuit, (graph) => engine.layout(graph))
const running = dryerRunning(circuit)
const cooling = dryerCooling(circuit)

const doubt = {
  verdicts: new Map<string, Verdict>([
    ['CS:A-C', { kind: 'cleared', by: 'r3' }],
    ['TC:link', { kind: 'suspect', rank: 1, percent: 60 }],
    ['OT:1-2', { kind: 'suspect', rank: 3, percent: 12 }],
    ['HL:1-2', { kind: 'suspect', rank: 4, percent: 12 }],
    ['TC.2~H1.1', { kind: 'suspect', rank: 2, percent: 16 }],
  ]),
  next: ['TC.1', 'TC.2'] as const,
}
const across = new Map<string, Reading>([
  ['CS:A-B', { says: '0.2 Ω', agrees: true }],
  ['TF:link', { says: 'OL', agrees: false }],
])
const readings = [
  { says: 'OL', agrees: false, between: ['CS.C', 'TC.2'] },
  { says: '0.2 Ω', agrees: true, between: ['supply.L1', 'CS.C'] },
] as const

const sheets = {
  'dryer at rest': {},
  'dryer, heater on': { frame: running, trace: heaterOn },
  'dryer, heater held open': { frame: cooling, trace: heaterOff },
  'dryer, any of': { frame: running, trace: motorStarting },
  'dryer, after IEEE 315': { frame: running, trace: heaterOn, symbols: 'ieee' },
  'dryer, in doubt': { frame: running, trace: heaterOn, ...doubt, readings: across },
  'dryer, in doubt, on paper': { frame: running, trace: heaterOn, ...doubt, readings: across, theme: 'print' },
  'dryer, dark': { frame: running, trace: heaterOn, theme: 'dark' },
} as const

test.each(Object.entries(sheets))('%s', async (name, view) => {
  const svg = renderSvg(await plan, { standalone: true, legend: true, ...view })
  await expect(svg).toMatchFileSnapshot(`golden/${name}.svg`)
})

const strings = {
  'string of the heater': [running, heaterOn, { width: 1440 }],
  'string of the heater, held open': [cooling, heaterOff, { width: 1440 }],
  'string of the motor, any of': [running, motorStarting, { width: 1440 }],
  'string of the heater, in doubt': [running, heaterOn, { width: 1440, below: 48, ...doubt, readings }],
  'string of the heater, in doubt, upright': [running, heaterOn, { width: 390, upright: true, ...doubt }],
  'string of the heater, upright': [running, heaterOn, { width: 390, upright: true }],
} as const

test.each(Object.entries(strings))('%s', async (name, [frame, trace, options]) => {
  await expect(stringSvg(circuit, frame, trace, { ...options, standalone: true })).toMatchFileSnapshot(
    `golden/${name}.svg`,
  )
})
