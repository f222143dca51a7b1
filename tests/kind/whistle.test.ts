import Elk from 'elkjs/lib/elk.bundled.js'
import { describe, expect, it } from 'vitest'
import { catalogue, holds, readCircuit } from '../../core/circuit/index.ts'
import { drawCircuit, renderSvg } from '../../core/drawing/index.ts'
import { parse, print, strip } from '../../core/netlist/index.ts'
import { operate } from '../../core/operate/index.ts'
import { stringTable, traceSetting } from '../../core/strings/index.ts'
import { whistleFigure, whistleKind } from './whistle.ts'

// A kind of part is one file and one line in a catalogue: this one is read, printed, drawn, operated and traced by code
// that has never heard of it.

const kinds = [...catalogue, whistleKind]
const text = `supply split-phase 240 V 60 Hz
control valve "Steam valve"  shut, open
control lid   "Lid"          shut, open

switch  V1 "Valve switch" when valve=open
switch  D1 "Lid switch" when lid=shut
whistle W1 "Steam whistle" 120 V 12 W  # the big one
  contact alarm 3-4 closed while sounding
  contact calm  3-5 closed while silent
lamp    LP "Alarm lamp" 10 W at 120 V
lamp    LG "Calm lamp" 10 W at 120 V

run  BK supply.L1 > V1 > D1 > W1.1
wire WH W1.2 supply.N
wire BK supply.L1 W1.3
wire RD W1.4 LP.1
wire GN W1.5 LG.1
wire WH LP.2 LG.2 supply.N
`
const { circuit, problems } = readCircuit(text, kinds)

const traceOf = (load: string, setting: Readonly<Record<string, string>>) => {
  const found = traceSetting(circuit, setting).loads.find((l) => l.load === load)
  if (!found) throw new Error(`${load} is no load`)
  return found
}

describe('a kind that only this test knows', () => {
  it('is read', () => {
    expect(problems).toEqual([])
    expect(circuit.parts.get('W1')).toMatchObject({
      kind: 'whistle',
      label: 'Steam whistle',
      elements: ['W1:1-2', 'W1:alarm', 'W1:calm'],
      terminals: ['W1.1', 'W1.2', 'W1.3', 'W1.4', 'W1.5'],
    })
    expect(circuit.elements.get('W1:1-2')?.laws[0]?.law).toEqual({ kind: 'impedance', re: 1200, im: 0, dc: 1200 })
    const rests = ['W1:alarm', 'W1:calm'].map((id) => circuit.elements.get(id)?.figure)
    expect(rests).toMatchObject([{ rest: 'open' }, { rest: 'closed' }])
  })

  it('is not known elsewhere', () => {
    const told = readCircuit(text).problems
    expect(told.map(({ code }) => code)).toEqual(['unknown-kind'])
    expect(readCircuit(`${whistleKind.example}\n`, kinds).problems).toEqual([])
  })

  it('has the problems of its form told', () => {
    const told = (line: string) => readCircuit(line, kinds).problems.map(({ code }) => code)
    expect(told('whistle W2')).toEqual(['no-volts'])
    expect(told('whistle W2 120 V 12 W pitch high')).toEqual(['unknown-word'])
    expect(told('whistle W2 120 V 12 W\n  contact alarm')).toEqual(['no-tags'])
    expect(told('whistle W2 120 V 12 W\n  contact alarm 3-4 closed while loud')).toEqual(['clause-incomplete'])
    expect(told('whistle W2 120 V 12 W\nlamp L2 5 W at 120 V 1-W2.2\nwire W2.1 L2.1')).toEqual([])
    expect(told('whistle W2 120 V 12 W\nswitch S2 when W2=sounding')).toEqual([])
    expect(told('whistle W2 120 V 12 W\nswitch S2 when W2=loud')).toEqual(['unknown-position'])
  })

  it('is printed', () => {
    const { netlist } = parse(text)
    const printed = print(netlist)
    expect(strip(parse(printed).netlist)).toEqual(strip(netlist))
    expect(printed).toContain('whistle W1 "Steam whistle" 120 V 12 W  # the big one\n  contact alarm 3-4')
    const again = readCircuit(printed, kinds)
    expect(again.problems).toEqual([])
    expect([...again.circuit.elements.keys()]).toEqual([...circuit.elements.keys()])
  })

  it('is operated: it sounds, its contacts move, and a lamp lights', () => {
    const states = (valve: string) => {
      const { phases } = operate(circuit, { valve })
      return phases.map(({ setting, conditions }) => ({
        whistle: conditions.W1,
        alarm: circuit.elements.get('W1:alarm')?.laws.some(({ when }) => holds(when, setting, conditions)),
      }))
    }
    expect(states('shut')).toEqual([{ whistle: 'silent', alarm: false }])
    expect(states('open')).toEqual([{ whistle: 'sounding', alarm: true }])
    const story = traceSetting(circuit, { valve: 'open' }).story.map((step) => step.text)
    expect(story.some((step) => step.includes('W1 sounding') && step.includes('W1:alarm closes'))).toBe(true)
  })

  it('is traced: as a load, as a contact, and as what another load waits for', () => {
    const sounding = { valve: 'open', lid: 'shut' }
    expect(traceOf('W1:1-2', sounding)).toMatchObject({ on: true, mustBeClosed: ['V1:1-2', 'D1:1-2'] })
    // 120 V over 1200 ohm: Ohm's law.
    expect(traceOf('W1:1-2', sounding).amps).toBeCloseTo(0.1, 3)
    expect(traceOf('LP:1-2', sounding)).toMatchObject({ on: true, mustBeClosed: ['W1:alarm'], enablers: ['W1:1-2'] })
    expect(traceOf('LG:1-2', { valve: 'shut' })).toMatchObject({
      on: true,
      mustBeClosed: ['W1:calm'],
      mustRest: ['W1:1-2'],
    })
    const lampOff = traceOf('LP:1-2', { valve: 'shut' })
    expect(lampOff.on).toBe(false)
    expect(lampOff.heldOpen).toMatchObject([{ element: 'W1:alarm', reason: expect.stringContaining('W1 silent') }])
    const table = stringTable(circuit)
    const rowsOn = table.rows.filter((row) => row.strings['LP:1-2']).map(({ setting }) => setting)
    expect(rowsOn).toEqual([{ valve: 'open', lid: 'shut' }])
  })

  it('is drawn with its own body, and moves with its state', async () => {
    const elk = new Elk()
    const plan = await drawCircuit(circuit, (graph) => elk.layout(graph))
    const placed = plan.elements.find(({ id }) => id === 'W1:1-2')
    expect(placed?.figure).toEqual(whistleFigure)
    expect(plan.elements.map(({ id }) => id)).toEqual(expect.arrayContaining(['W1:alarm', 'W1:calm']))
    const [stroke] = whistleFigure.kind === 'body' ? whistleFigure.strokes : []
    const { story } = traceSetting(circuit, { valve: 'open' })
    const frames = [{}, { frame: story.at(-1)?.frame }]
    const [rest, sounding] = frames.map(({ frame }) => renderSvg(plan, { standalone: true, ...(frame && { frame }) }))
    expect(rest).toContain(stroke?.d)
    expect(rest).toContain('W1:alarm')
    expect(sounding).toContain(stroke?.d)
    expect(sounding).not.toBe(rest)
  })
})
