/** Random circuits as netlist text, the same for the same seed: what the laws are tested on. */

/** A small generator of its own (Numerical Recipes' linear congruential constants), so that a seed means the same everywhere. */
export function random(seed: number) {
  let state = (seed * 2654435761 + 12345) >>> 0
  const next = (): number => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0
    return state / 2 ** 32
  }
  for (let i = 0; i < 8; i++) next()
  return {
    next,
    below: (n: number): number => Math.floor(next() * n),
    chance: (p: number): boolean => next() < p,
    pick: <T>(from: readonly T[]): T => from[Math.floor(next() * from.length)] as T,
  }
}
export type Random = ReturnType<typeof random>

export const SHAPES = ['bridge', 'series loads', 'both legs', 'seal-in', 'plain'] as const
export type Shape = (typeof SHAPES)[number]

export interface Generated {
  readonly seed: number
  readonly text: string
  readonly shapes: ReadonlySet<Shape>
  /** A setting worth looking at. */
  readonly given: Readonly<Record<string, string>>
}

/** Terminals that wires join. */
type Node = string[]

const DIAL = ['off', 'low', 'high', 'cool']

/** A circuit of one to three stretches between the poles of a split-phase supply. */
export function generate(seed: number): Generated {
  const r = random(seed)
  const lines: string[] = []
  const chart: string[] = []
  const warmed: string[] = []
  const zoned: string[] = []
  const nodes: Node[] = []
  let count = 0
  const name = (letters: string): string => `${letters}${++count}`
  const node = (...terminals: string[]): Node => {
    nodes.push(terminals)
    return terminals
  }
  const [l1, l2, n] = ['L1', 'L2', 'N'].map((pole) => node(`supply.${pole}`)) as [Node, Node, Node]
  const shapes = new Set<Shape>()
  const somewhere = (): string => (r.chance(0.5) ? ` area ${r.pick(['front', 'back'])}` : '')
  const joinPart = (a: Node, b: Node, part: string, one = '1', two = '2'): void => {
    a.push(`${part}.${one}`)
    b.push(`${part}.${two}`)
  }

  /** One contact between two nodes, of any kind; mostly closed. */
  const contact = (a: Node, b: Node): void => {
    const kind = r.below(7)
    if (kind === 0) {
      const tag = `T${chart.length + 1}`
      chart.push(`  A${tag}-${tag}  ${DIAL.map((_, i) => (i > 0 && r.chance(0.8) ? 'x' : 'o')).join('  ')}`)
      joinPart(a, b, 'CS', `A${tag}`, tag)
    } else if (kind === 1) {
      const part = name('DS')
      lines.push(`switch ${part} when door=${r.chance(0.85) ? 'shut' : 'open'}${somewhere()}`)
      joinPart(a, b, part)
    } else if (kind === 2) {
      const part = name('SW')
      const [one, other] = r.chance(0.85) ? ['NO', 'NC'] : ['NC', 'NO']
      lines.push(`changeover ${part} C to ${one} when door=shut else ${other}${somewhere()}`)
      joinPart(a, b, part, r.chance(0.5) ? 'C' : 'NO', 'C')
      if (a.at(-1) === b.at(-1)) a[a.length - 1] = `${part}.NO`
    } else if (kind === 3) {
      const part = name('F')
      lines.push(`fuse ${part} blows ${r.pick([15, 20, 30])} A${somewhere()}`)
      joinPart(a, b, part)
    } else {
      const part = name(kind === 4 ? 'TC' : 'OT')
      const opens = 60 + r.below(80)
      zoned.push(part)
      lines.push(
        kind === 4
          ? `cutoff ${part} opens ${opens + 60} C zone box${somewhere()}`
          : `thermostat ${part} opens ${opens} C closes ${opens - 10} C zone box${somewhere()}`,
      )
      joinPart(a, b, part)
    }
  }

  const load = (a: Node, b: Node, volts: number): void => {
    const part = name('H')
    if (r.chance(0.7)) {
      lines.push(`heater ${part} "Heater ${count}" ${500 + 100 * r.below(30)} W at ${volts} V${somewhere()}`)
      warmed.push(part)
    } else lines.push(`lamp ${part} ${5 + r.below(60)} W at ${volts} V`)
    joinPart(a, b, part)
  }

  /** A random series–parallel net of contacts. */
  const contacts = (a: Node, b: Node, depth: number): void => {
    if (depth === 0 || r.chance(0.35)) contact(a, b)
    else if (r.chance(0.7)) {
      const middle = node()
      contacts(a, middle, depth - 1)
      contacts(middle, b, depth - 1)
    } else {
      contacts(a, b, depth - 1)
      contacts(a, b, depth - 1)
    }
  }

  /** Five contacts as a bridge: neither series nor parallel. */
  const bridge = (a: Node, b: Node): void => {
    const [p, q] = [node(), node()]
    contact(a, p)
    contact(a, q)
    contact(p, q)
    contact(p, b)
    contact(q, b)
  }

  const stretch = (shape: Shape): void => {
    shapes.add(shape)
    if (shape === 'both legs') {
      const [a, b] = [node(), node()]
      contacts(l1, a, 2)
      load(a, b, 240)
      contacts(b, l2, 1)
      if (r.chance(0.3)) load(a, b, 240)
      return
    }
    const leg = r.chance(0.6) ? l1 : l2
    if (shape === 'bridge') {
      const a = node()
      bridge(leg, a)
      load(a, n, 120)
    } else if (shape === 'series loads') {
      const [a, b] = [node(), node()]
      contacts(leg, a, 1)
      const part = name('TM')
      lines.push(`timer-motor ${part} 120 V 3 W advances dial`)
      joinPart(a, b, part)
      if (r.chance(0.7)) contact(a, b)
      if (r.chance(0.3)) {
        const resistor = name('R')
        const c = node()
        lines.push(`resistor ${resistor} ${1 + r.below(4)}.${r.below(9)} kohm`)
        joinPart(b, c, resistor)
        load(c, n, 120)
      } else load(b, n, 120)
    } else if (shape === 'seal-in') {
      const [a, b, c] = [node(), node(), node()]
      contacts(leg, a, 1)
      const part = name('M')
      const button = name('PB')
      lines.push(`button ${button} when start=held`)
      lines.push(`motor ${part} 120 V ${3 + r.below(4)} A start ${18 + r.below(10)} A`)
      lines.push('  winding main 4-5 2.4 ohm')
      const capacity = r.chance(0.7)
      if (capacity) {
        lines.push('  winding start 3-5 3.1 ohm', '  contact aux 4-3 closed at rest')
      }
      lines.push('  contact hold 6-4 closed at speed', '  contact work 1-2 closed at speed')
      a.push(`${part}.6`)
      b.push(`${part}.4`)
      c.push(`${part}.5`)
      joinPart(a, b, button)
      if (r.chance(0.5)) contacts(c, n, 1)
      else n.push(...c.splice(0))
      if (r.chance(0.6)) {
        const [p, q] = [node(), node()]
        contacts(leg, p, 1)
        load(p, q, leg === l1 && r.chance(0.5) ? 240 : 120)
        q.push(`${part}.1`)
        ;(r.chance(0.5) ? n : leg === l1 ? l2 : l1).push(`${part}.2`)
      }
    } else {
      const a = node()
      contacts(leg, a, 2)
      load(a, n, 120)
    }
  }
  for (let i = 1 + r.below(3); i > 0; i--) stretch(r.pick(SHAPES))

  // A cross-connection now and then: two stretches that feed each other, or a joint that goes nowhere.
  if (r.chance(0.2)) {
    const inner = nodes.slice(3).filter((x) => x.length > 0)
    if (inner.length > 1) contact(r.pick(inner), r.pick(inner))
  }
  const wires = nodes.flatMap((terminals) => {
    const joined = [...new Set(terminals)]
    if (joined.length < 2) return []
    return [`wire ${r.pick(['BK ', 'RD ', 'WH/RD ', 'BU ', ''])}${joined.join(r.chance(0.3) ? '  ' : ' ')}`]
  })
  const text = [
    `unit "Generated ${seed}"`,
    '',
    'supply split-phase 240 V 60 Hz by cord breaker 40 A',
    'area front "Front" 5 min',
    'area back "Back" 8 min after front',
    `control dial "Dial"  ${DIAL.join(', ')}`,
    'control door "Door" shut, open  # as a person leaves it',
    'control start "Start" released, held springs back',
    ...(zoned.length > 0 || warmed.length > 0
      ? [
          `zone box${warmed.length > 0 ? ` warms with ${warmed.join(', ')}` : ''}${r.chance(0.5) ? ' normal 100 C' : ''}`,
        ]
      : []),
    '',
    ...lines,
    ...(chart.length > 0 ? ['cycle-switch CS turned by dial', `  chart  ${DIAL.join('  ')}`, ...chart] : []),
    '',
    ...wires,
    'wire GNYE supply.G chassis',
    '',
  ].join('\n')
  const given: Record<string, string> = { dial: r.pick(DIAL), door: r.chance(0.8) ? 'shut' : 'open' }
  if (r.chance(0.15)) given.start = r.pick(['released', 'held'])
  return { seed, text, shapes, given }
}
