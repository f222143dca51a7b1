import type { ElkNode } from 'elkjs/lib/elk-api'
import type { Circuit } from '../circuit/model.ts'
import { finish } from './finish.ts'
import { graphOf, type LayOut, sheetOf, starts } from './layout.ts'
import type { Plan } from './plan.ts'
import { type Group, groupsOf, inOrder, type LaidGroup, stack } from './split.ts'

export interface DrawOptions {
  /** How many ways to try, 1 to 5. Default 4; the best is kept. */
  readonly starts?: number
}

/**
 * Lay a circuit out. The answer depends on the circuit alone, never on a setting: marks and states are drawn into room
 * that is kept for them. `elk` is ELK's `layout`, handed in so that a host can run it in a worker.
 */
export function drawCircuit(circuit: Circuit, elk: LayOut): Promise<Plan> {
  return planWith(circuit, elk, {})
}

/** `drawCircuit` with a say in how long to look for a better drawing. */
export async function planWith(circuit: Circuit, elk: LayOut, options: DrawOptions): Promise<Plan> {
  const sheet = sheetOf(circuit)
  const tries = starts.slice(0, Math.max(1, options.starts ?? 4))
  const best = async <G extends Group>(group: G): Promise<G & LaidGroup> => {
    const part = { ...sheet, members: new Set(group.units) }
    let found: { laid: ElkNode; worth: number } | undefined
    for (const start of tries) {
      const laid = await layOut(elk, graphOf(part, start))
      const next = worth(finish(part, laid))
      if (!found || next < found.worth) found = { laid, worth: next }
    }
    if (!found) throw new Error('there is at least one start')
    return { ...group, laid: found.laid }
  }
  const laid: LaidGroup[] = []
  for (const group of groupsOf(sheet)) laid.push(await best(group))
  return finish(sheet, stack(sheet, inOrder(sheet, laid)))
}

/** ELK has nothing to say about an empty sheet. */
async function layOut(elk: LayOut, graph: ElkNode): Promise<ElkNode> {
  return graph.children?.length ? elk(graph) : graph
}

/** Crossings outweigh bends, bends outweigh returns in an unusual order. */
function worth(plan: Plan): number {
  const rights = plan.rails.filter((rail) => rail.side === 'right')
  const wrong = rights.filter((rail, i) => i > 0 && rail.y1 < (rights[i - 1]?.y1 ?? 0)).length
  return plan.crossings * 1e6 + wrong * 5e3 + plan.bends * 1e3 + plan.size.height / 10
}
