import { type Asked, type Check, found } from './asked.ts'
import { movesOf } from './heat.ts'
import { swappedIn } from './swappedTemperatures.ts'

/**
 * A load that no step of any row turns on. It is told only where its string is all there, from pole to pole: what would
 * move its contacts may still have to be typed, and then nothing is known. Where rows were left out, neither.
 */
export const neverFed: Check = (asked) => {
  const { loads, element, name, liesBetweenPoles, allRows } = asked
  if (!allRows) return []
  const wired = loads.filter((i) => liesBetweenPoles(element(i).id))
  const off = wired.filter((i) => !onInSome(asked, i))
  if (off.length === 0) return []
  const explained = new Set(swappedIn(asked).map(({ load }) => load))
  return off
    .filter((i) => !explained.has(i) && !waitsForMore(asked, i))
    .map((i) => found('never-fed', element(i).at, name(element(i))))
}

/** A row with a short says nothing of what its loads would do. */
const onInSome = ({ rows, onIn, shortsIn }: Asked, load: number): boolean =>
  rows.some(
    ({ steps, phases }) =>
      [...steps, ...phases].some((state) => onIn(state).has(load)) || steps.some((step) => shortsIn(step).length > 0),
  )

/**
 * Whether the load would be on if something had moved: an actor that nothing typed so far moves, or one that waits for
 * heat which does not come in use, such as that of an alarm.
 */
function waitsForMore({ circuit, isUnwired, forced, onIn }: Asked, load: number): boolean {
  const actors = [...circuit.actors.values()]
  const untyped = actors.filter(isUnwired)
  const hot = actors.filter((a) => a.sense.by === 'heat' && movesOf(circuit, a).closes)
  return [untyped, ...hot.map((a) => [a])].some((moved) => {
    if (moved.length === 0) return false
    const conditions = Object.fromEntries(moved.map((a) => [a.name, a.states[1]]))
    return forced(conditions).some(({ phases }) => phases.some((phase) => onIn(phase).has(load)))
  })
}
