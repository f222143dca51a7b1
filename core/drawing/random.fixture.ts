import fc from 'fast-check'
import type { Circuit } from '../circuit/model.ts'
import { bodies, type CircuitSpec, circuitOf, contactFigure, type ElementSpec } from './fixtures.ts'

const figures = [
  contactFigure('open', 'hand'),
  contactFigure('closed', 'heat'),
  contactFigure('open', 'dial'),
  contactFigure('closed', 'heat-once'),
  contactFigure('open', 'speed'),
  contactFigure('open', 'push'),
] as const
const loads = [bodies.heater, bodies.winding, bodies.lamp, bodies.motor] as const
const colours = ['BK', 'RD', 'BU', 'WH/RD', 'GNYE', ''] as const
const labels = ['', 'Fuse', 'Operating thermostat', 'A rather long label of a part nobody has heard of'] as const

/** Any circuit at all: wires where they fall, dead ends, islands, shorted parts, changeovers, doubled wires. */
export const anyCircuit: fc.Arbitrary<Circuit> = fc
  .record({
    poles: fc.constantFrom([], ['L1', 'L2', 'N', 'G'], ['L', 'N', 'G'], ['+', '−'], ['L1', 'L2', 'G']),
    parts: fc.array(
      fc.record({
        contacts: fc.integer({ min: 0, max: 3 }),
        loads: fc.integer({ min: 0, max: 2 }),
        changeover: fc.boolean(),
        figure: fc.nat(),
        label: fc.nat(),
      }),
      { minLength: 0, maxLength: 9 },
    ),
    joins: fc.array(fc.record({ a: fc.nat(), b: fc.nat(), colour: fc.nat() }), { minLength: 0, maxLength: 34 }),
    splices: fc.integer({ min: 0, max: 2 }),
  })
  .map(({ poles, parts, joins, splices }) => {
    const made = parts.map((p, n) => {
      const elements: ElementSpec[] = []
      for (let i = 0; i < p.contacts; i++) {
        elements.push({
          name: `${2 * i}-${2 * i + 1}`,
          ends: [`${2 * i}`, `${2 * i + 1}`],
          figure: figures[(p.figure + i) % figures.length] ?? figures[0],
          note: 'a note',
        })
      }
      for (let i = 0; i < p.loads; i++) {
        elements.push({
          name: `w${i}`,
          ends: [`A${i}`, 'Z'],
          role: 'load',
          figure: loads[(p.figure + i) % loads.length] ?? loads[0],
        })
      }
      if (p.changeover) {
        elements.push(
          { name: 'C-NO', ends: ['C', 'NO'], note: 'one way' },
          { name: 'C-NC', ends: ['C', 'NC'], throwOf: 'C-NO', note: 'the other' },
        )
      }
      if (elements.length === 0) elements.push({ name: '1-2', ends: ['1', '2'], role: 'link', figure: bodies.fuse })
      return { name: `P${n}`, label: labels[p.label % labels.length] ?? '', elements }
    })
    const terminals = [
      ...poles.map((p) => `supply.${p}`),
      'chassis',
      ...Array.from({ length: splices }, (_, i) => `S${i}`),
      ...made.flatMap((p) => [...new Set(p.elements.flatMap((e) => e.ends))].map((t) => `${p.name}.${t}`)),
    ]
    const spec: CircuitSpec = {
      poles,
      parts: made,
      wires: joins.flatMap(({ a, b, colour }) => {
        const ends = [
          terminals[a % terminals.length] ?? 'chassis',
          terminals[b % terminals.length] ?? 'chassis',
        ] as const
        const code = colours[colour % colours.length] ?? ''
        return ends[0] === ends[1] ? [] : [{ ends, ...(code !== '' && { colour: code }) }]
      }),
    }
    return circuitOf(spec)
  })

/** A sensible unit: rungs of contacts and a load between two poles, some of them sharing a leg or a branch. */
export const rungs: fc.Arbitrary<Circuit> = fc
  .array(
    fc.record({
      contacts: fc.integer({ min: 0, max: 5 }),
      pole: fc.nat(),
      shared: fc.boolean(),
      parallel: fc.boolean(),
    }),
    { minLength: 1, maxLength: 7 },
  )
  .map((rows) => {
    const parts: { name: string; label: string; elements: ElementSpec[] }[] = []
    const wired: { ends: readonly [string, string]; colour: string }[] = []
    let joint = 'supply.L1'
    rows.forEach((row, r) => {
      let at = row.shared ? joint : 'supply.L1'
      for (let i = 0; i < row.contacts; i++) {
        const name = `K${r}_${i}`
        parts.push({
          name,
          label: labels[(r + i) % 3] ?? '',
          elements: [{ name: '1-2', ends: ['1', '2'], figure: figures[(r + i) % figures.length] ?? figures[0] }],
        })
        wired.push({ ends: [at, `${name}.1`], colour: colours[(r + i) % 4] ?? 'BK' })
        if (row.parallel && i === 1) {
          parts.push({ name: `${name}p`, label: 'Beside', elements: [{ name: '1-2', ends: ['1', '2'] }] })
          wired.push(
            { ends: [`${name}.1`, `${name}p.1`], colour: 'YE' },
            { ends: [`${name}.2`, `${name}p.2`], colour: 'YE' },
          )
        }
        at = `${name}.2`
        if (i === 0) joint = at
      }
      parts.push({
        name: `H${r}`,
        label: 'A load',
        elements: [{ name: '1-2', ends: ['1', '2'], role: 'load', figure: bodies.heater }],
      })
      wired.push(
        { ends: [at, `H${r}.1`], colour: 'RD' },
        { ends: [`H${r}.2`, row.pole % 2 ? 'supply.N' : 'supply.L2'], colour: 'WH' },
      )
    })
    return circuitOf({ poles: ['L1', 'L2', 'N', 'G'], parts, wires: wired })
  })
