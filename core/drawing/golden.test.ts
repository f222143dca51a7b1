import ELK from 'elkjs/lib/elk.bundled.js'
import { expect, test } from 'vitest'
import { dryer, dryerCooling, dryerRunning, heaterOff, heaterOn, motorStarting } from './fixtures.ts'
import { drawCircuit, renderSvg, stringSvg } from './index.ts'

// Drawings to be looked at: a change here is a change that people see. `vitest -u` writes them anew.

const engine = new ELK()
const circuit = dryer()
const plan = drawCircuit(circuit, (graph) => engine.layout(graph))
const running = dryerRunning(circuit)
const cooling = dryerCooling(circuit)

const sheets = {
  'dryer at rest': {},
  'dryer, heater on': { frame: running, trace: heaterOn },
  'dryer, heater held open': { frame: cooling, trace: heaterOff },
  'dryer, any of': { frame: running, trace: motorStarting },
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
  'string of the heater, upright': [running, heaterOn, { width: 390, upright: true }],
} as const

test.each(Object.entries(strings))('%s', async (name, [frame, trace, options]) => {
  await expect(stringSvg(circuit, frame, trace, { ...options, standalone: true })).toMatchFileSnapshot(
    `golden/${name}.svg`,
  )
})
