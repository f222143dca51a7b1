import type { ElkNode } from 'elkjs/lib/elk-api'
import type { Circuit } from '../circuit/model.ts'
import { finish, type Routed, route } from './finish.ts'
import { graphOf, type LayOut, type Sheet, type Start, sheetOf, starts } from './layout.ts'
import type { Plan } from './plan.ts'
import { rowOf } from './row.ts'
import { type Group, groupsOf, inOrder, type LaidGroup, stack } from './split.ts'

export interface DrawOptions {
  /** The drawing before an edit: what is kept of it stays where it stood. Without it the sheet is laid out afresh. */
  readonly previous?: Plan
  /** How many ways to try, 1 to 5; the best is kept. Default 1 with a previous plan, else 4. */
  readonly starts?: number
}

/**
 * Lay a circuit out. The answer depends on the circuit and the drawing before alone, never on a setting: marks and states
 * are drawn into room that is kept for them. `elk` is ELK's `layout`, handed in so that a host can run it in a worker.
 */
export async function drawCircuit(circuit: Circuit, elk: LayOut, options: DrawOptions = {}): Promise<Plan> {
  const { previous } = options
  if (!previous) return layOut(sheetOf(circuit), elk, options.starts ?? 4)
  const kept = await layOut(sheetOf(circuit, previous), elk, options.starts ?? 1)
  if (kept.crossings <= previous.crossings + 1) return kept
  // Many edits, or a large one, can tangle what is held on to.
  const fresh = await layOut(sheetOf(circuit), elk, options.starts ?? 1)
  return fresh.crossings + 1 < kept.crossings ? fresh : kept
}

async function layOut(sheet: Sheet, elk: LayOut, count: number): Promise<Plan> {
  const tries = starts.slice(0, Math.max(1, count))
  const laid: LaidGroup[] = []
  for (const group of groupsOf(sheet)) laid.push({ ...group, laid: await best(sheet, group, elk, tries) })
  return finish(sheet, stack(sheet, inOrder(sheet, laid)))
}

/** Up to so many units further starts are made for the sake of bends alone. */
const small = 40

/** The best of several starts. In a large group one without crossings is good enough. */
async function best(sheet: Sheet, group: Group, elk: LayOut, tries: readonly Start[]): Promise<ElkNode> {
  const part = { ...sheet, members: new Set(group.units) }
  let found: { laid: ElkNode; worth: number } | undefined
  for (const start of tries) {
    const graph = graphOf(part, start)
    const laid = rowOf(graph) ?? (await elk(graph))
    if (tries.length === 1) return laid
    const routed = route(part, laid)
    const enough = group.units.length > small || routed.bends === 0
    if (enough && routed.crossings === 0 && inUsualOrder(routed)) return laid
    const next = worth(routed)
    if (!found || next < found.worth) found = { laid, worth: next }
  }
  if (!found) throw new Error('there is at least one start')
  return found.laid
}

/** Returns stand from the top down as sheets have them. */
function inUsualOrder({ rails }: Routed): boolean {
  const rights = rails.filter((rail) => rail.side === 'right')
  return rights.every((rail, i) => i === 0 || rail.y1 >= (rights[i - 1]?.y1 ?? 0))
}

/** Crossings outweigh bends, bends outweigh returns in an unusual order. */
function worth(routed: Routed): number {
  return routed.crossings * 1e6 + (inUsualOrder(routed) ? 0 : 5e3) + routed.bends * 1e3
}

/**
 * The plain way, that the other is measured against: all of the circuit laid out at once, from one start.
 */
export async function planPlain(circuit: Circuit, elk: LayOut): Promise<Plan> {
  const sheet = sheetOf(circuit)
  const [start] = starts
  if (!start) throw new Error('there is at least one start')
  const graph = graphOf(sheet, start)
  return finish(sheet, graph.children?.length ? await elk(graph) : graph)
}
