import { random } from '../generated/circuits.ts'

/**
 * Units of 30 to 60 parts, or of as many as asked for, as netlist text, the same for the same seed: what a drawing of a
 * large machine is judged by. Feeders with switched branches to loads, both legs switched, motors that hold themselves,
 * relays, door switches that change over, a control transformer with a ladder of its own, timers in series with a
 * resistor. A feeder of a very large unit serves what stands near it.
 */
export function unitText(seed: number, asked?: number): string {
  const r = random(seed * 7919 + 17)
  const spread = r.below(31)
  const target = asked ?? 30 + spread
  const parts: string[] = []
  const lines: string[] = []
  const chart: string[] = []
  const coils: string[] = []
  let count = 0
  const name = (letters: string): string => `${letters}${++count}`
  const colour = (): string => r.pick(['BK', 'RD', 'BU', 'OG', 'GY/BK', 'WH', 'YE', ''])
  const wire = (a: string, b: string): void => {
    lines.push(`wire ${colour()} ${a} ${b}`.replace('  ', ' '))
  }

  /** One contact or link from a terminal on; answers its far terminal. */
  const contact = (from: string): string => {
    const kind = r.below(8)
    if (kind === 0) {
      const tag = `B${chart.length + 1}`
      chart.push(`  A${tag}-${tag}  o  ${r.pick(['x', 'o'])}  x  x`)
      if (chart.length === 1) count++
      wire(from, `CS.A${tag}`)
      return `CS.${tag}`
    }
    const [letters, text] = (
      [
        ['', ''],
        ['DS', 'switch # "Door switch" when door=shut'],
        ['F', 'fuse # "Line fuse" blows 15 A'],
        ['TC', 'cutoff # "Thermal cutoff" opens 180 C zone box'],
        ['OT', 'thermostat # "Operating thermostat" opens 70 C closes 60 C zone box'],
        ['HL', 'thermostat # "High-limit thermostat" opens 120 C closes 95 C zone box'],
        ['SW', 'switch # when dial=high'],
        ['PB', 'button # "Start switch" when start=held'],
      ] as const
    )[kind] as readonly [string, string]
    const part = name(letters)
    parts.push(text.replace('#', part))
    wire(from, `${part}.1`)
    return `${part}.2`
  }
  const strand = (from: string, most: number): string => {
    let at = from
    for (let i = 1 + r.below(most); i > 0; i--) {
      if (r.chance(0.12)) {
        const beside = contact(at)
        const ahead = contact(at)
        wire(beside, ahead)
        at = ahead
      } else at = contact(at)
    }
    return at
  }
  const load = (volts: number): string => {
    const kind = r.below(4)
    const part = name(kind === 0 ? 'LP' : 'H')
    parts.push(
      kind === 0
        ? `lamp ${part} "Lamp" 10 W at ${volts} V`
        : kind === 1
          ? `heater ${part} "Heating element" ${800 + 100 * r.below(20)} W at ${volts} V`
          : `heater ${part} ${800 + 100 * r.below(20)} W at ${volts} V`,
    )
    return part
  }
  const onward = (from: string, to: string): void => {
    if (coils.length > 0 && r.chance(0.3)) {
      const part = coils.pop() ?? ''
      wire(from, `${part}.3`)
      wire(`${part}.4`, to)
    } else wire(from, to)
  }

  const feeders = ['supply.L1']
  const feed = (): string => (asked === undefined || r.chance(0.5) ? r.pick(feeders.slice(asked && -3)) : 'supply.L1')
  const branch = (): void => {
    const at = strand(feed(), 4)
    if (r.chance(0.35)) feeders.push(at)
    for (let i = r.chance(0.25) ? 2 : 1; i > 0; i--) {
      const both = r.chance(0.35)
      const part = load(both ? 240 : 120)
      onward(at, `${part}.1`)
      if (both && r.chance(0.5)) wire(strand(`${part}.2`, 2), 'supply.L2')
      else wire(`${part}.2`, both ? 'supply.L2' : 'supply.N')
    }
  }
  const motor = (): void => {
    const part = name('M')
    const button = name('PB')
    parts.push(
      `button ${button} "Start switch" when start=held`,
      `motor ${part} "Drive motor" 120 V 5 A start 22 A`,
      '  winding main 4-5 2.4 ohm',
      '  winding start 3-5 3.1 ohm',
      '  contact aux 4-3 closed at rest',
      '  contact hold 6-4 closed at speed',
      '  contact heat 1-2 closed at speed',
    )
    const at = strand(feed(), 3)
    wire(at, `${button}.1`)
    wire(`${button}.1`, `${part}.6`)
    wire(`${button}.2`, `${part}.4`)
    wire(r.chance(0.4) ? contact(`${part}.5`) : `${part}.5`, 'supply.N')
    const heater = load(240)
    wire(strand(feed(), 4), `${heater}.1`)
    wire(`${heater}.2`, `${part}.1`)
    wire(`${part}.2`, 'supply.L2')
  }
  const timer = (): void => {
    const part = name('TM')
    const resistor = name('R')
    parts.push(`timer-motor ${part} "Timer motor" 120 V 3 W`, `resistor ${resistor} "Timer resistor" 4.8 kohm`)
    wire(feed(), `${part}.1`)
    wire(contact(`${part}.2`), 'supply.N')
    wire(`${part}.2`, `${resistor}.1`)
    wire(contact(`${resistor}.2`), feed())
  }
  const changeover = (): void => {
    const part = name('DS')
    parts.push(`changeover ${part} "Door switch" C to NO when door=shut else NC`)
    const [one, other] = [load(120), load(120)]
    if (r.chance(0.5)) {
      wire(feed(), `${part}.C`)
      wire(`${part}.NO`, `${one}.1`)
      wire(`${part}.NC`, `${other}.1`)
      wire(`${one}.2`, 'supply.N')
      wire(`${other}.2`, 'supply.N')
    } else {
      wire(strand(feed(), 2), `${one}.1`)
      wire(feed(), `${other}.1`)
      wire(`${one}.2`, `${part}.NO`)
      wire(`${other}.2`, `${part}.NC`)
      wire(`${part}.C`, 'supply.N')
    }
  }
  let hot: string | undefined
  const relay = (): void => {
    const part = name('K')
    const low = hot !== undefined && r.chance(0.7)
    parts.push(
      `relay ${part} "Relay"`,
      `  coil 1-2 ${low ? '24 V 100' : '120 V 2000'} ohm`,
      '  contact 3-4 closed when in',
    )
    wire(strand(low ? (hot ?? '') : feed(), 3), `${part}.1`)
    wire(`${part}.2`, low ? 'T1.C' : 'supply.N')
    coils.push(part)
  }
  const transformer = (): void => {
    if (hot !== undefined) return
    count++
    parts.push('transformer T1 "Control transformer" 40 VA', '  primary 1-2 120 V', '  secondary R-C 24 V')
    wire(feed(), 'T1.1')
    wire('T1.2', 'supply.N')
    hot = r.chance(0.6) ? contact('T1.R') : 'T1.R'
    relay()
  }
  const across = (): void => {
    const part = load(120)
    wire(strand('supply.L2', 2), `${part}.1`)
    wire(`${part}.2`, 'supply.N')
  }

  const makes = [branch, branch, branch, motor, timer, changeover, relay, transformer, across] as const
  while (count < target) r.pick(makes)()
  // A contact or two may stay unused.
  for (const part of coils.slice(r.below(2))) {
    const fed = load(120)
    wire(feed(), `${part}.3`)
    wire(`${part}.4`, `${fed}.1`)
    wire(`${fed}.2`, 'supply.N')
  }
  return [
    `unit "Unit ${seed}"`,
    'supply split-phase 240 V 60 Hz by cord breaker 40 A',
    'control dial "Dial" off, low, high, cool',
    'control door "Door" shut, open',
    'control start "Start" released, held springs back',
    'zone box normal 100 C',
    ...parts,
    ...(chart.length > 0
      ? ['cycle-switch CS "Cycle switch" turned by dial', '  chart  off  low  high  cool', ...chart]
      : []),
    ...lines,
    'wire GNYE supply.G chassis',
    '',
  ].join('\n')
}
