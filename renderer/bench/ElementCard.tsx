import { elementName, placeOf } from '../store/circuit.ts'
import { useActions, useBench } from '../store/context.ts'
import { ownerOf, stepOf } from '../store/reduce.ts'
import { labelWords, stateWords } from '../store/words.ts'
import { Icon } from './Icon.tsx'

/** The selected element in words: what it is, how it stands, where it sits. */
export function ElementCard() {
  const circuit = useBench((b) => b.shown?.circuit)
  const selected = useBench((b) => b.selected)
  const frame = useBench((b) => b.trace?.story[stepOf(b)]?.frame)
  const trace = useBench((b) => b.trace?.loads.find((l) => l.load === b.selected))
  const owner = useBench((b) => (b.selected === null ? undefined : ownerOf(b, b.selected)))
  const isShown = useBench((b) => b.load === owner)
  const known = useBench((b) => b.trace !== null)
  const { choose, select } = useActions()
  const element = selected === null ? undefined : circuit?.elements.get(selected)
  if (!circuit || !element) return null
  const state = stateWords(element, frame, trace)
  const place = placeOf(circuit, element)
  return (
    <aside className="card" aria-label="Selected">
      <p className="card-name">
        <b>{elementName(circuit, element.id)}</b> {labelWords(circuit, element)}
      </p>
      <p className="card-state">
        {[state, element.note, place, known && owner === undefined && 'in no string in this setting']
          .filter(Boolean)
          .join(' · ')}
      </p>
      {owner !== undefined && !isShown && (
        <button type="button" className="button" onClick={() => choose(element.id)}>
          {owner === element.id ? 'Show its string' : `Show string of ${elementName(circuit, owner)}`}
        </button>
      )}
      <button type="button" className="card-close" aria-label="Select nothing" onClick={() => select(null)}>
        <Icon name="close" />
      </button>
    </aside>
  )
}
