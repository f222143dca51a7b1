import { expect, it } from 'vitest'
import { readCircuit } from '../../core/circuit/index.ts'
import { minimalCuts, minimalHittingSets } from '../../core/infer/index.ts'
import { operate } from '../../core/operate/index.ts'
import { traceSetting } from '../../core/strings/index.ts'

/**
 * D. Poole and A. Mackworth, Artificial Intelligence: Foundations of Computational Agents, 2nd edition (2017), section
 * 5.5.3, example 5.23: house wiring with two-way switches; all switches up, both lights dark. The book prints the two
 * conflicts; the seven minimal diagnoses follow from them.
 */
const { circuit, problems } = readCircuit(`
supply split-phase 240 V 60 Hz
control h1 "First handle"  up, down
control h2 "Second handle" up, down
control h3 "Third handle"  up, down
fuse cb1 "First breaker"  blows 15 A
fuse cb2 "Second breaker" blows 15 A
changeover s1 C to UP when h1=up else DOWN
changeover s2 C to UP when h2=up else DOWN
switch s3 1-2 when h3=up
lamp l1 60 W at 120 V
lamp l2 60 W at 120 V
splice w5
splice w3
wire supply.L1 w5
wire w5 cb1.1
wire w5 cb2.1
wire cb1.2 w3
wire w3 s1.C
wire w3 s3.1
wire s1.UP s2.UP
wire s1.DOWN s2.DOWN
wire s2.C l1.1
wire s3.2 l2.1
wire l1.2 l2.2 supply.N
wire supply.G chassis
`)
const parts = ['cb1', 'cb2', 's1', 's2', 's3', 'l1', 'l2']
const lit = (removed: readonly string[]): readonly string[] => {
  const opened = new Set(removed.flatMap((part) => circuit.parts.get(part)?.elements ?? []))
  const [phase] = operate(circuit, {}, { opened }).phases
  const on = (id: string) => (phase?.solved.ampsThrough([...circuit.elements.keys()].indexOf(id)).re ?? 0) !== 0
  return ['l1', 'l2'].filter((lamp) => on(`${lamp}:1-2`))
}
const sorted = (sets: readonly (readonly string[])[]) => sets.map((set) => set.toSorted().join(' ')).toSorted()
const conflicts = [
  ['cb1', 's1', 's2', 'l1'],
  ['cb1', 's3', 'l2'],
]
const diagnoses = [['cb1'], ['s1', 's3'], ['s1', 'l2'], ['s2', 's3'], ['s2', 'l2'], ['l1', 's3'], ['l1', 'l2']]

it('is understood without a problem', () => {
  expect(problems).toEqual([])
  expect(lit([])).toEqual(['l1', 'l2'])
})

it.each([
  ['l1', conflicts[0]],
  ['l2', conflicts[1]],
])('the string of %s, with the lamp itself, is the published conflict', (lamp, conflict) => {
  const load = traceSetting(circuit, {}).loads.find((l) => l.load === `${lamp}:1-2`)
  const inString = load?.mustBeClosed.map((id) => id.split(':')[0] ?? '') ?? []
  expect([...inString, lamp].toSorted()).toEqual(conflict?.toSorted())
})

it('single cuts of each lamp are the published conflict', () => {
  for (const [lamp, conflict] of [
    ['l1', conflicts[0]],
    ['l2', conflicts[1]],
  ] as const) {
    const { sets, complete } = minimalCuts((removed) => lit(removed).includes(lamp), parts)
    expect(complete).toBe(true)
    expect(sorted(sets)).toEqual(conflict?.toSorted())
  }
})

it('what darkens both lamps are the seven minimal diagnoses, and the hitting sets of the conflicts', () => {
  const { sets, complete } = minimalCuts((removed) => lit(removed).length > 0, parts)
  expect(complete).toBe(true)
  expect(sorted(sets)).toEqual(sorted(diagnoses))
  expect(sorted(minimalHittingSets(conflicts).sets)).toEqual(sorted(diagnoses))
})
