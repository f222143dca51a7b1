import type { ElkExtendedEdge, ElkNode, ElkPort } from 'elkjs/lib/elk-api'

/** Between two boxes of a row, px: as between ELK's layers. */
const between = 20

/**
 * A graph that is one row, each node joined to the next by one straight wire: placed without ELK, which takes its time
 * over the least of graphs. Nothing for any other.
 */
export function rowOf(graph: ElkNode): ElkNode | undefined {
  const nodes = [...(graph.children ?? [])].sort((a, b) => (a.x ?? 0) - (b.x ?? 0))
  const edges = graph.edges ?? []
  if (edges.length !== nodes.length - 1) return undefined
  const home = new Map(nodes.flatMap((n, i) => (n.ports ?? []).map((p) => [p.id, i] as const)))
  const joined = new Map<number, ElkExtendedEdge>()
  for (const edge of edges) {
    const from = home.get(edge.sources[0] ?? '')
    const to = home.get(edge.targets[0] ?? '')
    if (from === undefined || to !== from + 1 || joined.has(from)) return undefined
    joined.set(from, edge)
  }
  const used = edges.flatMap((e) => [...e.sources, ...e.targets])
  if (nodes.some((n) => (n.ports ?? []).length > 2) || new Set(used).size !== used.length) return undefined

  const line = Math.max(...nodes.map((n) => lineOf(n)))
  let x = 0
  const placed = nodes.map((n) => {
    const width = n.width ?? 0
    const ports = (n.ports ?? []).map((p): ElkPort => (p.y === undefined ? freePort(n, p) : p))
    const node = { ...n, x, y: line - lineOf(n), ports }
    x += width + between
    return node
  })
  const at = (id: string) => {
    const node = placed[home.get(id) ?? -1]
    const port = node?.ports.find((p) => p.id === id)
    if (!node || !port) throw new Error(`no node has the port ${id}`)
    return { x: node.x + (port.x ?? 0), y: line }
  }
  return {
    ...graph,
    children: placed,
    edges: edges.map((e) => ({
      ...e,
      sections: [{ id: `${e.id}s`, startPoint: at(e.sources[0] ?? ''), endPoint: at(e.targets[0] ?? '') }],
    })),
  }
}

/** Height of a node's wire below its top. */
function lineOf(node: ElkNode): number {
  return node.ports?.[0]?.y ?? (node.height ?? 0) / 2
}

/** A port of a rail, that ELK would place. */
function freePort(node: ElkNode, port: ElkPort): ElkPort {
  const east = port.layoutOptions?.['elk.port.side'] === 'EAST'
  return { ...port, x: east ? (node.width ?? 0) : 0, y: (node.height ?? 0) / 2 }
}
