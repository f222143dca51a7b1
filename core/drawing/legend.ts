import { at, circle, line, rect, text } from './ink.ts'
import { anyOf, cleared, dimension, flag, found, hatch, nextWash, pennant, probe, seat } from './marks.ts'
import type { Plan } from './plan.ts'
import type { Marks, View, WireState } from './svg.ts'
import { fills, hot } from './symbols.ts'
import { textWidth } from './text-width.ts'

/** What the weights and marks on this sheet mean; nothing that is not on it. Laid out in rows about (0, 0). */
export function legendOf(
  plan: Plan,
  marks: Marks,
  states: readonly WireState[],
  view: View,
): { svg: string; width: number; height: number } {
  const has = (state: WireState) => states.includes(state)
  const items: { ink: string; words: string; width: number }[] = []
  const wire = (state: string, words: string) =>
    items.push({ ink: line(0, 0, 40, 0, `wire ${state}`), words, width: 40 })
  if (has('live')) wire('live', 'carries current')
  if (has('fed')) wire('fed', 'fed, no current')
  if (has('dead')) wire('dead', 'dead')
  if (has('grounded') || plan.loose.some((l) => l.kind === 'ground'))
    items.push({ ink: hatch(0, 0, 40), words: 'ground', width: 40 })
  if (marks.mustBeClosed.size > 0)
    items.push({ ink: rect(0, -10, 40, 20, 'collar', 10), words: 'must be closed', width: 40 })
  if (marks.groups.length > 0 || marks.anyOfAlone.size > 0)
    items.push({ ink: anyOf(0, -10, 40, 10, 10), words: 'any of', width: 40 })
  if (marks.load !== undefined) items.push({ ink: seat(20, 0, 40, 20), words: 'the load', width: 40 })
  if (marks.flags.size > 0)
    items.push({ ink: flag(2, -12, 12, [...marks.flags.values()][0] ?? ''), words: 'has to work first', width: 44 })
  if (view.frame && marks.reasons.size > 0) {
    items.push({
      ink: text(0, 4, 'reason', 'reason', 'start') + line(0, 9, 42, 9, 'leader'),
      words: 'why it is open',
      width: 44,
    })
  }
  const shown = new Set([...plan.elements.map((e) => e.id), ...plan.nets.flatMap((net) => net.wires)])
  const verdicts = [...(view.verdicts ?? [])].filter(([id]) => shown.has(id)).map(([, verdict]) => verdict.kind)
  if (verdicts.includes('suspect'))
    items.push({ ink: pennant(2, -9, 1, 30), words: 'suspect: rank, how likely', width: 92 })
  if (verdicts.includes('cleared'))
    items.push({ ink: cleared(10, 0, ''), words: 'cleared, by which reading', width: 22 })
  if (verdicts.includes('found')) items.push({ ink: found(20, 0, '', 40, 20), words: 'found bad', width: 40 })
  const readings = plan.elements.flatMap((e) => view.readings?.get(e.id) ?? [])
  if (readings.some((r) => r.agrees))
    items.push({ ink: dimension(0, 64, -4, 6, { says: 'Ω', agrees: true }), words: 'reading, as expected', width: 64 })
  if (readings.some((r) => !r.agrees))
    items.push({
      ink: dimension(0, 64, -4, 6, { says: 'Ω', agrees: false }),
      words: 'reading, not as expected',
      width: 64,
    })
  if (view.next) {
    items.push({
      ink: nextWash(13, -14, 26, 30) + probe(13, -10, 'parked') + nextWash(43, -14, 26, 30) + probe(43, -10, 'moving'),
      words: 'next test: parked probe, moving probe',
      width: 56,
    })
  }
  const { frame } = view
  if (frame && plan.elements.some((e) => frame.on.has(e.id) && e.figure.kind === 'body'))
    items.push({ ink: `<g class="on">${rect(2, -7, 30, 14, 's paper')}</g>`, words: 'at work', width: 34 })
  const moved = plan.elements.flatMap(({ id, figure }) =>
    frame && figure.kind === 'contact' && frame.conducts.has(id) !== (figure.rest === 'closed') ? [figure.by] : [],
  )
  if (moved.some((by) => fills.has(by)))
    items.push({ ink: circle(8, 0, 5, 'fill'), words: 'moved from its rest', width: 16 })
  if (moved.some((by) => by === 'heat' || by === 'heat-reset'))
    items.push({ ink: hot(7, 7), words: 'above its point', width: 14 })
  const room = Math.max(plan.size.width - 48, 320)
  let x = 24
  let y = 14
  let widest = 0
  const ink = items.map((item) => {
    const width = item.width + 10 + textWidth(item.words, 13) + 28
    if (x > 24 && x + width > room) {
      x = 24
      y += 32
    }
    const drawn = at(x, y, item.ink) + text(x + item.width + 10, y + 4.5, item.words, 'note', 'start')
    x += width
    widest = Math.max(widest, x)
    return drawn
  })
  return items.length === 0 ? { svg: '', width: 0, height: 0 } : { svg: ink.join(''), width: widest, height: y + 34 }
}
