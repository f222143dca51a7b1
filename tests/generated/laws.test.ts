import { describe, expect, it } from 'vitest'
import { type Circuit, type Element, readCircuit } from '../../core/circuit/index.ts'
import { parse, print, strip } from '../../core/netlist/index.ts'
import { operate } from '../../core/operate/index.ts'
import { anyOf, anyOfPlain } from '../../core/strings/anyOf.ts'
import { loadsOf } from '../../core/strings/frozen.ts'
import { firstOn } from '../../core/strings/heldOpen.ts'
import { traceSetting } from '../../core/strings/index.ts'
import { needsOf } from '../../core/strings/needs.ts'
import { generate, SHAPES } from './circuits.ts'
import { type PlainSolved, plainOn, plainSolve, plainState } from './plain.ts'

/** `CIRCUITS` and `SEED` make the run larger, or another; by default it is always the same. */
const COUNT = Number(process.env.CIRCUITS ?? 2400)
const FIRST = Number(process.env.SEED ?? 1)
const seeds = Array.from({ length: COUNT }, (_, i) => FIRST + i)

const element = (circuit: Circuit, id: string): Element => {
  const found = circuit.elements.get(id)
  if (!found) throw new Error(`no element ${id}`)
  return found
}

/** A circuit without its places in the text. */
const bare = (circuit: Circuit) =>
  JSON.parse(
    JSON.stringify(
      [
        circuit.unit,
        circuit.supplies,
        circuit.controls,
        circuit.areas,
        circuit.zones,
        circuit.parts,
        circuit.elements,
        circuit.actors,
      ].map((it) => (it instanceof Map ? [...it] : it)),
      (key, value) => (key === 'at' ? undefined : value),
    ),
  )

describe(`laws on ${COUNT} generated circuits from seed ${FIRST}`, { timeout: 600_000 }, () => {
  it('generates what it should: no errors, each shape in at least a tenth', () => {
    const met = new Map(SHAPES.map((s) => [s, 0]))
    for (const seed of seeds) {
      const { text, shapes } = generate(seed)
      const errors = readCircuit(text).problems.filter((p) => p.severity === 'error')
      if (errors.length > 0) expect(errors, `seed ${seed}\n${text}`).toEqual([])
      for (const shape of shapes) met.set(shape, (met.get(shape) ?? 0) + 1)
    }
    for (const [shape, n] of met) expect(n, shape).toBeGreaterThanOrEqual(COUNT / 10)
  })

  it('print, then parse, is the same netlist and the same circuit', () => {
    for (const seed of seeds) {
      const { text } = generate(seed)
      const { netlist } = parse(text)
      const printed = print(netlist)
      expect(strip(parse(printed).netlist), `seed ${seed}`).toEqual(strip(netlist))
      expect(print(parse(printed).netlist)).toBe(printed)
      expect(bare(readCircuit(printed).circuit), `seed ${seed}`).toEqual(bare(readCircuit(text).circuit))
    }
  })

  it('what a load needs closed stops it when opened alone, and no other conducting element does', () => {
    const wrong: string[] = []
    let asked = 0
    for (const seed of seeds) {
      const { text, given } = generate(seed)
      const { circuit } = readCircuit(text)
      const states = operate(circuit, given).phases.map((phase) => {
        const state = plainState(circuit, phase.setting, phase.conditions)
        return { state, solved: plainSolve(circuit, state) }
      })
      // Solutions with one element changed serve every load of the state.
      const changed = new Map<string, PlainSolved>()
      for (const load of traceSetting(circuit, given).loads) {
        const claim = (holds: boolean, what: string): void => {
          if (!holds) wrong.push(`seed ${seed}, ${load.load}: ${what}`)
        }
        const it = element(circuit, load.load)
        const phase = states.findIndex(({ state, solved }) => plainOn(circuit, state, solved, it))
        claim(load.on === phase >= 0, `on is ${load.on}`)
        const at = states[phase]
        if (!at) continue
        const volts = at.solved.volts(it)
        claim(Math.abs(load.volts - volts) < 1e-6 * volts, `${load.volts} V is ${volts} V`)
        const stops = (change: { open?: string; close?: string }): boolean | undefined => {
          const key = `${phase} ${change.open} ${change.close}`
          const solved = changed.get(key) ?? plainSolve(circuit, at.state, change)
          changed.set(key, solved)
          asked++
          const left = solved.volts(it)
          // On the edge itself two solvers may differ; it is no evidence either way.
          return Math.abs(left - 0.8 * volts) < 1e-6 * volts ? undefined : left < 0.8 * volts
        }
        const listed = new Set([...load.mustBeClosed, ...load.through, ...load.wires])
        for (const e of circuit.elements.values()) {
          if (e.role === 'source' || e.id === it.id) continue
          if (at.state.law.has(e.id)) {
            const does = listed.has(e.id)
            claim((stops({ open: e.id }) ?? does) === does, `${e.id} opened, listed ${does}`)
          } else if (e.laws.length > 0 && !load.shorts.includes(e.id)) {
            const does = load.mustBeOpen.includes(e.id)
            claim((stops({ close: e.id }) ?? does) === does, `${e.id} closed, listed ${does}`)
          }
        }
        const roles = (ids: readonly string[]) => ids.map((id) => element(circuit, id).role)
        claim(
          roles(load.mustBeClosed).every((r) => r === 'contact' || r === 'link'),
          'a must-be-closed that is no contact',
        )
        claim(
          roles(load.through).every((r) => r === 'load' || r === 'passive'),
          'a through that is a contact',
        )
        claim(
          roles(load.wires).every((r) => r === 'wire'),
          'a wire that is none',
        )
        claim(load.order.flat().includes(load.load), 'is not in its own order')
      }
    }
    expect(wrong).toEqual([])
    expect(asked).toBeGreaterThan(COUNT * 10)
  })

  it('any-of groups are those of the plain search', () => {
    const wrong: string[] = []
    let groups = 0
    for (const seed of seeds.slice(0, COUNT / 6)) {
      const { text, given } = generate(seed)
      const { circuit } = readCircuit(text)
      const operation = operate(circuit, given)
      for (const load of loadsOf(operation.wiring)) {
        const frozen = firstOn(operation, load)
        if (!frozen) continue
        const needs = needsOf(frozen, load)
        const clever = anyOf(frozen, load, needs).groups.filter((g) => g.length <= 3)
        const plain = anyOfPlain(frozen, load, needs, 3)
        groups += plain.length
        const text = (sets: readonly (readonly number[])[]) =>
          sets.map((set) => set.toSorted((a, b) => a - b).join('+')).toSorted()
        if (text(clever).join(' ') !== text(plain).join(' ')) {
          wrong.push(`seed ${seed}, ${frozen.element(load).id}: ${text(clever)} is ${text(plain)}`)
        }
      }
    }
    expect(wrong).toEqual([])
    expect(groups).toBeGreaterThan(20)
  })
})
