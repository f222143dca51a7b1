import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { blockChain, blocks, bridges, type Edge, islands } from './graph.ts'

const anyGraph = fc.integer({ min: 1, max: 7 }).chain((nodeCount) =>
  fc.record({
    nodeCount: fc.constant(nodeCount),
    edges: fc.array(fc.record({ a: fc.nat(nodeCount - 1), b: fc.nat(nodeCount - 1) }), { maxLength: 10 }),
  }),
)

/** `0-1 1-2` as edges. */
function edgesOf(sketch: string): Edge[] {
  return sketch.split(' ').map((pair) => {
    const [a = 0, b = 0] = pair.split('-').map(Number)
    return { a, b }
  })
}

/** Edge indices of every simple path from s to t; of every simple cycle through s where they are the same. */
function simplePaths(edges: readonly Edge[], s: number, t: number): number[][] {
  const found: number[][] = []
  const walk = (node: number, path: readonly number[], visited: ReadonlySet<number>) => {
    edges.forEach(({ a, b }, edge) => {
      if (path.includes(edge) || (a !== node && b !== node)) return
      const to = a === node ? b : a
      if (to === t) found.push([...path, edge])
      else if (!visited.has(to)) walk(to, [...path, edge], new Set([...visited, to]))
    })
  }
  walk(s, [], new Set([s]))
  return found
}

function reaches(nodeCount: number, edges: readonly Edge[], s: number, t: number): boolean {
  const near = Array.from({ length: nodeCount }, (_, i) => i === s)
  for (let round = 0; round < nodeCount; round++) {
    for (const { a, b } of edges) near[a] = near[b] = near[a] || near[b] || false
  }
  return near[t] ?? false
}

describe('against every path and cycle there is', () => {
  it('islands', () => {
    fc.assert(
      fc.property(anyGraph, ({ nodeCount, edges }) => {
        const island = islands(nodeCount, edges)
        for (let s = 0; s < nodeCount; s++) {
          for (let t = 0; t < nodeCount; t++) expect(island[s] === island[t]).toBe(reaches(nodeCount, edges, s, t))
        }
        expect([...new Set(island)]).toEqual([...new Set(island)].map((_, i) => i))
      }),
      { seed: 31, numRuns: 200 },
    )
  })

  it('bridges', () => {
    fc.assert(
      fc.property(anyGraph, ({ nodeCount, edges }) => {
        const parting = edges.flatMap(({ a, b }, i) =>
          reaches(
            nodeCount,
            edges.filter((_, other) => other !== i),
            a,
            b,
          )
            ? []
            : [i],
        )
        expect(bridges(nodeCount, edges)).toEqual(parting)
      }),
      { seed: 32, numRuns: 400 },
    )
  })

  it('blocks: together on a cycle or not at all', () => {
    fc.assert(
      fc.property(anyGraph, ({ nodeCount, edges }) => {
        const block = blocks(nodeCount, edges)
        const cycles = [...Array(nodeCount).keys()].flatMap((node) => simplePaths(edges, node, node))
        edges.forEach((_, e) => {
          edges.forEach((_, f) => {
            const together = e === f || cycles.some((cycle) => cycle.includes(e) && cycle.includes(f))
            expect(block[e] === block[f]).toBe(together)
          })
        })
        expect([...new Set(block)]).toEqual([...new Set(block)].map((_, i) => i))
      }),
      { seed: 33, numRuns: 400 },
    )
  })

  it('block chains: what some path uses, in the order every path meets it', () => {
    fc.assert(
      fc.property(anyGraph, fc.nat(), fc.nat(), ({ nodeCount, edges }, from, to) => {
        const [s, t] = [from % nodeCount, to % nodeCount]
        const chain = blockChain(nodeCount, edges, s, t)
        const paths = s === t ? [] : simplePaths(edges, s, t)
        expect(chain.flat().sort((x, y) => x - y)).toEqual([...new Set(paths.flat())].sort((x, y) => x - y))
        for (const path of paths) {
          const met = path.map((edge) => chain.findIndex((group) => group.includes(edge)))
          expect(met).toEqual([...met].sort((x, y) => x - y))
        }
        const block = blocks(nodeCount, edges)
        for (const group of chain) {
          expect(group).toEqual(edges.flatMap((_, i) => (block[i] === block[group[0] ?? -1] ? [i] : [])))
        }
        expect(blockChain(nodeCount, edges, t, s)).toEqual(chain.toReversed())
      }),
      { seed: 34, numRuns: 400 },
    )
  })
})

describe('blockChain', () => {
  it.each<[string, string, number, number, number[][]]>([
    ['a string', '0-1 1-2 2-3', 0, 3, [[0], [1], [2]]],
    ['two in parallel between bridges', '0-1 1-2 1-2 2-3', 0, 3, [[0], [1, 2], [3]]],
    ['a bridge circuit in one group', '0-1 0-2 1-2 1-3 2-3', 0, 3, [[0, 1, 2, 3, 4]]],
    ['a side branch left out', '0-1 1-4 1-2', 0, 2, [[0], [2]]],
    ['a loop left out', '0-1 1-1 1-2', 0, 2, [[0], [2]]],
    ['no way', '0-1 2-3', 0, 3, []],
    ['no distance', '0-1 1-2 2-0', 1, 1, []],
  ])('%s', (_, sketch, s, t, expected) => {
    expect(blockChain(5, edgesOf(sketch), s, t)).toEqual(expected)
  })

  it('walks a string of 100,000 without running out of stack', () => {
    const length = 100_000
    const edges = Array.from({ length }, (_, i) => ({ a: i, b: i + 1 }))
    expect(blockChain(length + 1, edges, 0, length).length).toBe(length)
    expect(bridges(length + 1, edges).length).toBe(length)
  })
})
