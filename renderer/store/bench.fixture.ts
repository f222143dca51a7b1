import type { Setting } from '../../core/circuit/index.ts'
import { createReader } from '../work/reader.ts'
import { settingKey } from './circuit.ts'
import { wasRead, wasTraced } from './reduce.ts'
import { type Bench, emptyBench, type Read } from './state.ts'

/** A dial with two heaters: `both` runs them, `one` runs H1 alone; a button springs back. */
export const twoHeaters = `unit "Two heaters"
supply split-phase 240 V 60 Hz
control dial "Dial" off, one, both
control start "Start" released, held springs back
cycle-switch CS "Switch" turned by dial
  chart off one both
  A-B   o   x   x
  A-C   o   o   x
cutoff TC opens 110 C
heater H1 "Low" 1000 W at 240 V
heater H2 "High" 2000 W at 240 V
run supply.L1 > TC
wire TC.2 CS.A
run CS.B > H1 > supply.L2
run CS.C > H2 > supply.L2
`

export function readText(text: string): Read {
  const answer = createReader()({ kind: 'read', text })
  if (answer.kind !== 'read') throw new Error('a read is answered by a read')
  return answer.read
}

export function traceText(text: string, given: Setting) {
  const answer = createReader()({ kind: 'trace', text, given })
  if (answer.kind !== 'trace') throw new Error('a trace is answered by a trace')
  return answer.trace
}

/** A bench on which `text` was read. */
export function benchOf(text: string): Bench {
  const bench = { ...emptyBench('light'), text, savedText: text }
  return { ...bench, ...wasRead(bench, readText(text)) }
}

/** `bench`, after these settings were worked out. */
export function traced(bench: Bench, ...settings: readonly Setting[]): Bench {
  let now = bench
  for (const given of settings) {
    if (!now.shown) throw new Error('nothing was read')
    const { print, circuit, text } = now.shown
    now = { ...now, ...wasTraced(now, print, given, traceText(text, given)) }
    if (!now.traces.has(settingKey(circuit, given))) throw new Error('the trace was not kept')
  }
  return now
}
