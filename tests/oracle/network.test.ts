import fc from 'fast-check'
import { describe, expect, it, vi } from 'vitest'
import { type Branch, type Change, type Complex, createNetwork, type Held } from '../../core/network/index.ts'
import { acSolve, startOracle } from './acSolve.ts'

const HERTZ = 60
const NETWORKS = 240

interface Case {
  readonly nodeCount: number
  readonly branches: readonly Branch[]
  readonly held: readonly Held[]
  readonly change: Change
}

const real = (re: number): Complex => ({ re, im: 0 })

/** What is found in a unit: contacts, wires, heaters, motors, capacitors, meters. */
const impedance: fc.Arbitrary<Complex> = fc.oneof(
  { weight: 4, arbitrary: fc.integer({ min: 5, max: 30 }).map((milliohms) => real(milliohms / 1000)) },
  { weight: 1, arbitrary: fc.constant(real(0.001)) },
  { weight: 3, arbitrary: fc.integer({ min: 5, max: 5000 }).map(real) },
  {
    weight: 2,
    arbitrary: fc.record({ re: fc.integer({ min: 1, max: 300 }), im: fc.integer({ min: 1, max: 300 }) }),
  },
  { weight: 1, arbitrary: fc.integer({ min: 10, max: 5000 }).map((ohms) => ({ re: 0, im: -ohms })) },
  { weight: 1, arbitrary: fc.constant(real(1e7)) },
)

const anyCase: fc.Arbitrary<Case> = fc.integer({ min: 4, max: 30 }).chain((nodeCount) => {
  const node = fc.nat(nodeCount - 1)
  const branch = fc.record({ a: node, b: node, z: impedance }).filter(({ a, b }) => a !== b)
  const held = (node: number, re: number, im = 0): Held => ({ node, v: { re, im } })
  return fc.array(branch, { minLength: nodeCount - 2, maxLength: nodeCount + 8 }).chain((branches) =>
    fc.record({
      nodeCount: fc.constant(nodeCount),
      branches: fc.constant(branches),
      // Split phase, or two legs of three phases.
      held: fc.constantFrom(
        [held(0, 120), held(1, -120), held(2, 0)],
        [held(0, 120), held(1, -60, 60 * Math.sqrt(3)), held(2, 0)],
      ),
      change: fc.record({
        without: fc.uniqueArray(fc.nat(branches.length - 1), { maxLength: 4 }),
        plus: fc.array(branch, { maxLength: 2 }),
      }),
    }),
  )
})

/** The circuit as the other solver reads it, by a translation that shares nothing with ours. */
function cardsOf({ nodeCount, branches, held, change }: Case): string[] {
  const omega = 2 * Math.PI * HERTZ
  const cards: string[] = []
  const branchCards = (name: string, { a, b, z }: Branch) => {
    cards.push(`Vamp${name} n${a} x${name} DC 0 AC 0`)
    const between = z.re !== 0 && z.im !== 0 ? `y${name}` : `n${b}`
    if (z.re !== 0) cards.push(`R${name} x${name} ${between} ${z.re}`)
    const start = z.re !== 0 ? between : `x${name}`
    if (z.im > 0) cards.push(`L${name} ${start} n${b} ${z.im / omega}`)
    if (z.im < 0) cards.push(`C${name} ${start} n${b} ${-1 / (omega * z.im)}`)
  }
  branches.forEach((branch, i) => {
    if (!change.without?.includes(i)) branchCards(`${i}`, branch)
  })
  change.plus?.forEach((branch, i) => {
    branchCards(`plus${i}`, branch)
  })
  held.forEach(({ node, v }, i) => {
    const degrees = (Math.atan2(v.im, v.re) * 180) / Math.PI
    cards.push(`Vheld${i} n${node} 0 DC 0 AC ${Math.hypot(v.re, v.im)} ${degrees}`)
  })
  // A floating island has no voltage of its own; one of its nodes is tied to ground, as our solver's contract says.
  const label = [...Array(nodeCount).keys()].map((node) => (held.some((h) => h.node === node) ? -1 : node))
  const joined = [...branches.filter((_, i) => !change.without?.includes(i)), ...(change.plus ?? [])]
  for (let round = 0; round < nodeCount; round++) {
    for (const { a, b } of joined) label[a] = label[b] = Math.min(label[a] ?? 0, label[b] ?? 0)
  }
  label.forEach((lowest, node) => {
    if (lowest === node) cards.push(`Vtie${node} n${node} 0 DC 0 AC 0`)
  })
  return cards
}

const reason = await startOracle().then(
  () => undefined,
  (error: Error) => error.message,
)
if (reason !== undefined) console.log(`skipped: the independent solver does not start: ${reason}`)

describe.skipIf(reason !== undefined)('our networks against an independent solver', () => {
  it('reproduces a motor of 3 + 4j ohm on 120 V there, so that the translation is known to be right', async () => {
    const held = [
      { node: 0, v: real(120) },
      { node: 1, v: real(0) },
    ]
    const answer = await acSolve(
      cardsOf({ nodeCount: 2, branches: [{ a: 0, b: 1, z: { re: 3, im: 4 } }], held, change: {} }),
      HERTZ,
    )
    expect(answer.get('i(vamp0)')?.re).toBeCloseTo(14.4, 10)
    expect(answer.get('i(vamp0)')?.im).toBeCloseTo(-19.2, 10)
  })

  it('is told, and not handed the run before, when a circuit is impossible', async () => {
    for (const method of ['error', 'warn', 'log'] as const) vi.spyOn(console, method).mockReturnValue() // it says so itself
    await expect(acSolve(['V1 1 0 DC 0 AC 1', 'V2 1 0 DC 0 AC 2', 'R1 1 0 1'])).rejects.toThrow('oracle')
    const answer = await acSolve(['V1 1 0 DC 0 AC 7', 'R1 1 0 1'])
    expect(answer.get('v(1)')?.re).toBeCloseTo(7, 10)
  }, 30_000)

  it(`agrees on ${NETWORKS} random networks: volts to 1e-6 and 1 mV, amperes to 1e-6 of the largest`, async () => {
    let floating = 0
    for (const one of fc.sample(anyCase, { seed: 60, numRuns: NETWORKS })) {
      const { nodeCount, branches, held, change } = one
      const solution = createNetwork(nodeCount, branches, held).solve(change)
      if (solution.island.some((island) => island > 0)) floating++
      const cards = cardsOf(one)
      const answer = await acSolve(cards, HERTZ)
      const there = (name: string): Complex => answer.get(name) ?? expect.fail(`no ${name} in\n${cards.join('\n')}`)
      const compare = (what: string, here: Complex, other: Complex, absolute: number) => {
        const off = Math.hypot(here.re - other.re, here.im - other.im)
        if (off <= absolute + 1e-6 * Math.hypot(other.re, other.im)) return
        expect.fail(`${what}: here ${here.re}+${here.im}j, there ${other.re}+${other.im}j\n${cards.join('\n')}`)
      }
      for (let node = 0; node < nodeCount; node++) {
        if (!cards.some((card) => card.split(' ').includes(`n${node}`))) continue
        const here = { re: solution.re[node] ?? Number.NaN, im: solution.im[node] ?? Number.NaN }
        compare(`v(n${node})`, here, there(`v(n${node})`), 1e-3)
      }
      const kept = [...branches.keys()].filter((i) => !change.without?.includes(i))
      const amps = kept.map((i) => there(`i(vamp${i})`))
      const largest = Math.max(0, ...amps.map(({ re, im }) => Math.hypot(re, im)))
      kept.forEach((i, k) => {
        compare(`i(vamp${i})`, solution.current(i), amps[k] ?? real(Number.NaN), 1e-9 + 1e-6 * largest)
      })
      for (const i of change.without ?? []) expect(solution.current(i)).toEqual(real(0))
    }
    expect(floating).toBeGreaterThan(NETWORKS / 4)
    expect(floating).toBeLessThan(NETWORKS)
  }, 60_000)
})
