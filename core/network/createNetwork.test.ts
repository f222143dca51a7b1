import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { type Branch, type Change, type Complex, createNetwork, type Held, type Solution, solveDense } from './index.ts'

const SEED = 2024

const ohms = (re: number, im = 0): Complex => ({ re, im })
const volts = ohms

/** 1 mohm … 10 Mohm, evenly over the decades; a third of them with reactance. */
const impedance = fc
  .record({
    decade: fc.double({ min: -3, max: 7, noNaN: true }),
    angle: fc.integer({ min: -85, max: 85 }),
    bare: fc.nat(2),
  })
  .map(({ decade, angle, bare }): Complex => {
    const size = 10 ** decade
    const radians = bare ? 0 : (angle * Math.PI) / 180
    return { re: size * Math.cos(radians), im: size * Math.sin(radians) }
  })

interface Case {
  readonly nodeCount: number
  readonly branches: readonly Branch[]
  readonly held: readonly Held[]
  readonly changes: readonly Change[]
}

/** Sparse enough to fall into islands and hang by bridges, with loops, parallels and branches between held nodes. */
const anyCase: fc.Arbitrary<Case> = fc.integer({ min: 1, max: 14 }).chain((nodeCount) => {
  const node = fc.nat(nodeCount - 1)
  const branch = fc.record({ a: node, b: node, z: impedance })
  return fc.array(branch, { maxLength: 20 }).chain((branches) =>
    fc.record({
      nodeCount: fc.constant(nodeCount),
      branches: fc.constant(branches),
      held: fc.uniqueArray(
        fc.record({
          node,
          v: fc.record({ re: fc.integer({ min: -240, max: 240 }), im: fc.integer({ min: -240, max: 240 }) }),
        }),
        { maxLength: 4, selector: ({ node }) => node },
      ),
      changes: fc.array(
        fc.record(
          {
            without: fc.subarray(branches.map((_, i) => i)),
            plus: fc.array(branch, { maxLength: 3 }),
            inject: fc.array(fc.record({ node, i: fc.constantFrom(ohms(1), ohms(-1), ohms(0, 0.001)) }), {
              maxLength: 2,
            }),
          },
          { requiredKeys: [] },
        ),
        { minLength: 3, maxLength: 3 },
      ),
    }),
  )
})

const at = (values: ArrayLike<number>, i: number): number => values[i] ?? Number.NaN
const voltage = (solution: Solution, node: number): Complex => ({
  re: at(solution.re, node),
  im: at(solution.im, node),
})

function expectNear(got: Complex, expected: Complex, relative: number, absolute: number): void {
  const off = Math.hypot(got.re - expected.re, got.im - expected.im)
  const allowed = absolute + relative * Math.hypot(expected.re, expected.im)
  if (!(off <= allowed)) expect.fail(`${got.re}+${got.im}j is ${off} from ${expected.re}+${expected.im}j`)
}

describe('values worked out by hand', () => {
  const [L1, N, L2, end] = [0, 1, 2, 3]
  const supply: Held[] = [
    { node: L1, v: volts(120) },
    { node: N, v: volts(0) },
    { node: L2, v: volts(-120) },
  ]

  it('a 5400 W element across 240 V draws 22.5 A', () => {
    const solution = createNetwork(3, [{ a: L1, b: L2, z: ohms(32 / 3) }], supply).solve()
    expectNear(solution.current(0), ohms(22.5), 1e-12, 0)
  })

  it('a motor of 3 + 4j ohm on 120 V draws 14.4 − 19.2j A', () => {
    const solution = createNetwork(3, [{ a: L1, b: N, z: ohms(3, 4) }], supply).solve()
    expectNear(solution.current(0), { re: 14.4, im: -19.2 }, 1e-12, 0)
  })

  it('with L2 lost, a 10 Mohm meter from the dead end of the element to N reads 119.999872 V', () => {
    const network = createNetwork(
      4,
      [
        { a: L1, b: end, z: ohms(32 / 3) },
        { a: end, b: L2, z: ohms(0.01) },
      ],
      supply,
    )
    const meter = { a: end, b: N, z: ohms(1e7) }
    expect(at(network.solve({ without: [1], plus: [meter] }).re, end)).toBeCloseTo(119.999872, 6)
  })

  it('a dead leg fed back through the element into 3 + 4j ohm stands at 33.7315 + 25.2493j V', () => {
    const solution = createNetwork(
      4,
      [
        { a: L1, b: end, z: ohms(32 / 3) },
        { a: end, b: N, z: ohms(3, 4) },
      ],
      supply,
    ).solve()
    expectNear(voltage(solution, end), { re: 33.7315, im: 25.2493 }, 0, 1e-4)
    expect(Math.hypot(at(solution.re, end), at(solution.im, end))).toBeCloseTo(42.1348, 4)
    expect(Math.hypot(solution.current(1).re, solution.current(1).im)).toBeCloseTo(8.427, 3)
  })

  it('an inductor and a capacitor that cancel in series with 12 ohm leave 10 A, and 100 V on each', () => {
    const solution = createNetwork(
      4,
      [
        { a: L1, b: 3, z: ohms(0, 10) },
        { a: 3, b: 2, z: ohms(0, -10) },
        { a: 2, b: N, z: ohms(12) },
      ],
      [
        { node: L1, v: volts(120) },
        { node: N, v: volts(0) },
      ],
    ).solve()
    expectNear(solution.current(2), ohms(10), 1e-12, 0)
    expectNear(voltage(solution, 3), { re: 120, im: -100 }, 1e-12, 0)
  })

  it('takes a shunt between any two of forty nodes, more pairs than plans are kept for', () => {
    const last = 39
    const string = Array.from({ length: last }, (_, i) => ({ a: i, b: i + 1, z: ohms(1) }))
    const network = createNetwork(last + 1, string, [
      { node: 0, v: volts(last) },
      { node: last, v: volts(0) },
    ])
    for (let a = 0; a < last; a++) {
      for (let b = a + 1; b <= last; b++) {
        const span = b - a
        const amps = last / (last - span + (span * 5) / (span + 5))
        const solution = network.solve({ plus: [{ a: b, b: a, z: ohms(5) }] })
        expectNear(voltage(solution, a), volts(last - a * amps), 1e-12, 1e-12)
        expectNear(voltage(solution, b), volts((last - b) * amps), 1e-12, 1e-12)
      }
    }
  })

  it('reads ohms by 1 A in at one probe and out at the other, on what floats', () => {
    // 6 and 3 ohm in parallel, 10 mohm on to the probe; node 4 is nowhere near.
    const network = createNetwork(
      5,
      [
        { a: 1, b: 2, z: ohms(6) },
        { a: 1, b: 2, z: ohms(3) },
        { a: 2, b: 3, z: ohms(0.01) },
      ],
      [{ node: 0, v: volts(0) }],
    )
    const solution = network.solve({
      inject: [
        { node: 3, i: ohms(1) },
        { node: 1, i: ohms(-1) },
      ],
    })
    expect(at(solution.re, 3) - at(solution.re, 1)).toBeCloseTo(2.01, 12)
    expect([...solution.island]).toEqual([0, 1, 1, 1, 2])
    expect(at(solution.re, 1)).toBe(0)
  })
})

describe('islands', () => {
  it('numbers what floats from 1 and holds it at exactly 0 V', () => {
    const network = createNetwork(
      7,
      [
        { a: 1, b: 3, z: ohms(5) },
        { a: 4, b: 5, z: ohms(0.01) },
        { a: 5, b: 2, z: ohms(1e7) },
      ],
      [
        { node: 1, v: volts(120) },
        { node: 6, v: volts(0) },
      ],
    )
    const solution = network.solve()
    expect([...solution.island]).toEqual([1, 0, 2, 0, 2, 2, 0])
    expect([0, 2, 4, 5].map((node) => voltage(solution, node))).toEqual(Array(4).fill(volts(0)))
    expectNear(voltage(solution, 3), volts(120), 1e-12, 0)
    expect([...network.solve({ plus: [{ a: 3, b: 4, z: ohms(1) }] }).island]).toEqual([1, 0, 0, 0, 0, 0, 0])
    expect([...network.solve({ without: [0] }).island]).toEqual([1, 0, 2, 3, 2, 2, 0])
    expect([...solution.island]).toEqual([1, 0, 2, 0, 2, 2, 0])
  })

  it('makes everything float where nothing is held', () => {
    const solution = createNetwork(3, [{ a: 0, b: 2, z: ohms(1) }], []).solve()
    expect([...solution.island]).toEqual([1, 2, 1])
    expect(solution.current(0)).toEqual({ re: 0, im: 0 })
  })
})

describe('what is no network throws', () => {
  const held: Held[] = [{ node: 0, v: volts(1) }]
  it.each<[string, () => unknown, string]>([
    ['a short of 0 ohm', () => createNetwork(2, [{ a: 0, b: 1, z: ohms(0) }], held), 'branch 0: impedance 0+0j ohm'],
    [
      'an endless impedance',
      () => createNetwork(2, [{ a: 0, b: 1, z: ohms(Number.POSITIVE_INFINITY) }], held),
      'branch 0',
    ],
    ['a node that is not there', () => createNetwork(2, [{ a: 0, b: 2, z: ohms(1) }], held), 'branch 0: node 2 of 2'],
    [
      'two voltages at one node',
      () => createNetwork(2, [], [...held, { node: 0, v: volts(2) }]),
      'held at two voltages',
    ],
    ['a branch that is not there', () => createNetwork(2, [], held).solve({ without: [0] }), 'no branch 0 to take out'],
    [
      'an added short of 0 ohm',
      () => createNetwork(2, [], held).solve({ plus: [{ a: 0, b: 1, z: ohms(0) }] }),
      'added branch',
    ],
    ['a current that is not there', () => createNetwork(2, [], held).solve().current(0), 'no branch 0'],
    [
      'resonance without loss',
      () =>
        createNetwork(
          3,
          [
            { a: 0, b: 1, z: ohms(0, 10) },
            { a: 1, b: 2, z: ohms(0, -10) },
          ],
          [...held, { node: 2, v: volts(0) }],
        ).solve(),
      'resonance',
    ],
  ])('%s', (_, attempt, message) => {
    expect(attempt).toThrow(RangeError)
    expect(attempt).toThrow(message)
  })
})

describe('laws', () => {
  it('agrees with the dense twin on 2,400 networks, changed and unchanged', () => {
    let floating = 0
    fc.assert(
      fc.property(anyCase, ({ nodeCount, branches, held, changes }) => {
        const network = createNetwork(nodeCount, branches, held)
        for (const change of [{}, ...changes]) {
          const got = network.solve(change)
          const expected = solveDense(nodeCount, branches, held, change)
          expect(got.island).toEqual(expected.island)
          if (got.island.some((island) => island > 0)) floating++
          // Injected amperes make megavolts of megohms: what counts is the largest voltage about.
          const largest = Math.max(
            ...[...expected.island.keys()].map((n) => Math.abs(at(expected.re, n)) + Math.abs(at(expected.im, n))),
          )
          for (let node = 0; node < nodeCount; node++) {
            expectNear(voltage(got, node), voltage(expected, node), 1e-6, 1e-3 + (change.inject ? 1e-5 * largest : 0))
          }
        }
      }),
      { seed: SEED, numRuns: 600 },
    )
    expect(floating).toBeGreaterThan(500)
  })

  it('balances the currents at every node that is not held', () => {
    fc.assert(
      fc.property(anyCase, ({ nodeCount, branches, held, changes }) => {
        const network = createNetwork(nodeCount, branches, held)
        for (const { without = [] } of changes) {
          const solution = network.solve({ without })
          const sum = Array.from({ length: nodeCount }, () => ({ re: 0, im: 0, rounding: 0 }))
          branches.forEach(({ a, b, z }, i) => {
            const current = solution.current(i)
            const rounding = (Math.hypot(at(solution.re, a), at(solution.im, a)) * 1e-13) / Math.hypot(z.re, z.im)
            for (const [node, sign] of [
              [a, 1],
              [b, -1],
            ] as const) {
              const total = sum[node]
              if (!total) continue
              total.re += sign * current.re
              total.im += sign * current.im
              total.rounding += without.includes(i) ? 0 : rounding + 1e-12 * Math.hypot(current.re, current.im)
            }
          })
          sum.forEach((total, node) => {
            if (held.some((source) => source.node === node)) return
            expect(Math.hypot(total.re, total.im)).toBeLessThanOrEqual(total.rounding)
          })
        }
      }),
      { seed: SEED + 1, numRuns: 400 },
    )
  })

  it('gives the same voltages whatever the nodes are called and in whatever order the branches come', () => {
    fc.assert(
      fc.property(anyCase, fc.infiniteStream(fc.nat()), ({ nodeCount, branches, held, changes }, stream) => {
        const shuffled = (count: number) =>
          [...Array(count).keys()]
            .map((value) => ({ value, key: stream.next().value ?? 0 }))
            .sort((x, y) => x.key - y.key)
            .map(({ value }) => value)
        const nameOf = shuffled(nodeCount)
        const order = shuffled(branches.length)
        const rename = <B extends Branch>(branch: B) => ({
          ...branch,
          a: at(nameOf, branch.b),
          b: at(nameOf, branch.a),
        })
        const renamed = createNetwork(
          nodeCount,
          order.flatMap((i) => branches.slice(i, i + 1).map(rename)),
          held.map(({ node, v }) => ({ node: at(nameOf, node), v })),
        )
        const network = createNetwork(nodeCount, branches, held)
        for (const { without = [], plus = [] } of changes) {
          const one = network.solve({ without, plus })
          const other = renamed.solve({ without: without.map((i) => order.indexOf(i)), plus: plus.map(rename) })
          for (let node = 0; node < nodeCount; node++) {
            expectNear(voltage(other, at(nameOf, node)), voltage(one, node), 1e-9, 1e-9)
          }
        }
      }),
      { seed: SEED + 2, numRuns: 300 },
    )
  })

  it('answers the same again after any other change', () => {
    fc.assert(
      fc.property(anyCase, ({ nodeCount, branches, held, changes }) => {
        const network = createNetwork(nodeCount, branches, held)
        const first = changes.map((change) => network.solve(change))
        changes.forEach((change, i) => {
          const again = network.solve(change)
          const fresh = createNetwork(nodeCount, branches, held).solve(change)
          for (const solution of [again, fresh]) {
            expect(solution.re).toEqual(first[i]?.re)
            expect(solution.im).toEqual(first[i]?.im)
            expect(solution.island).toEqual(first[i]?.island)
          }
        })
      }),
      { seed: SEED + 3, numRuns: 200 },
    )
  })

  it('keeps twelve digits of resistors from 1 mohm to 10 Mohm, against exact fractions', () => {
    const resistor = fc
      .tuple(fc.integer({ min: 0, max: 9 }), fc.integer({ min: 1, max: 9 }))
      .map(([decade, digit]) => 10 ** decade * digit)
    const nodeCount = 7
    const node = fc.nat(nodeCount - 1)
    fc.assert(
      fc.property(
        fc.array(fc.record({ a: node, b: node, milliohms: resistor }), { minLength: 6, maxLength: 14 }),
        fc.nat(13),
        (resistors, removed) => {
          const branches = resistors.map(({ a, b, milliohms }) => ({ a, b, z: ohms(milliohms / 1000) }))
          const held = [
            { node: 0, v: volts(120) },
            { node: 1, v: volts(0) },
          ]
          const without = removed < branches.length ? [removed] : []
          const solution = createNetwork(nodeCount, branches, held).solve({ without })
          const exact = exactVolts(
            resistors.filter((_, i) => !without.includes(i)),
            solution.island,
          )
          exact.forEach((expected, n) => {
            expectNear(voltage(solution, n), volts(expected), 1e-12, 1e-12)
          })
        },
      ),
      { seed: SEED + 4, numRuns: 400 },
    )
  })
})

/** Node voltages with node 0 at 120 V and node 1 at 0 V, by elimination over fractions of whole numbers. */
function exactVolts(
  resistors: readonly { readonly a: number; readonly b: number; readonly milliohms: number }[],
  island: Int32Array,
): number[] {
  // Siemens times this are whole numbers: it is divisible by every resistance the test makes.
  const unit = 2520n * 10n ** 10n
  const unknowns = [...island.keys()].filter((n) => n > 1 && island[n] === 0)
  const matrix = unknowns.map((row) => {
    const line = [...unknowns.map(() => 0n), 0n]
    for (const { a, b, milliohms } of resistors) {
      if (a === b || (a !== row && b !== row)) continue
      const y = unit / BigInt(milliohms)
      const add = (column: number, value: bigint) => {
        line[column] = (line[column] ?? 0n) + value
      }
      add(unknowns.indexOf(row), y)
      const other = a === row ? b : a
      if (other === 0) add(unknowns.length, 120n * y)
      else if (other !== 1) add(unknowns.indexOf(other), -y)
    }
    return line
  })
  const entry = (i: number, j: number) => matrix[i]?.[j] ?? 0n
  // Cross-multiplied to the diagonal; a nodal matrix of resistors never needs another pivot.
  for (let k = 0; k < unknowns.length; k++) {
    for (let i = 0; i < unknowns.length; i++) {
      if (i === k) continue
      const [pivot, factor] = [entry(k, k), entry(i, k)]
      if (factor !== 0n) matrix[i] = (matrix[i] ?? []).map((x, j) => x * pivot - factor * entry(k, j))
    }
  }
  const values = unknowns.map((_, k) => Number((entry(k, unknowns.length) * 10n ** 24n) / entry(k, k)) / 1e24)
  return [...island.keys()].map((n) => (n === 0 ? 120 : (values[unknowns.indexOf(n)] ?? 0)))
}
