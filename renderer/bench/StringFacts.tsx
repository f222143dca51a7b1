import { Fragment, type ReactNode } from 'react'
import type { Circuit, ElementId } from '../../core/circuit/index.ts'
import type { LoadTrace } from '../../core/strings/trace.ts'
import { elementName } from '../store/circuit.ts'
import { useActions, useBench } from '../store/context.ts'
import { stepOf } from '../store/reduce.ts'
import { labelWords, stateWords } from '../store/words.ts'

/** The string in words: the marks of the drawing said, and the whole as an ordered list for a screen reader. */
export function StringFacts() {
  const circuit = useBench((b) => b.shown?.circuit)
  const trace = useBench((b) => b.trace?.loads.find((l) => l.load === b.load))
  if (!circuit || !trace) return null
  return (
    <>
      <dl className="facts">
        {facts(trace).map(({ says, groups, joint }) => (
          <div key={says}>
            <dt>{says}</dt>
            <dd>
              {groups.map((ids, i) => (
                <Fragment key={ids.join(' ')}>
                  {i > 0 && '; '}
                  {join(
                    ids.map((id) => <Name key={id} circuit={circuit} id={id} />),
                    joint,
                  )}
                </Fragment>
              ))}
            </dd>
          </div>
        ))}
        {trace.heldOpen.length > 0 && (
          <div>
            <dt>held open</dt>
            <dd>
              {join(
                trace.heldOpen.map(({ element, reason }) => (
                  <Fragment key={element}>
                    <Name circuit={circuit} id={element} /> <span className="reason">{reason}</span>
                  </Fragment>
                )),
                ', ',
              )}
            </dd>
          </div>
        )}
        {trace.holdsItself && (
          <div>
            <dt>holds itself</dt>
            <dd>by a contact of its own</dd>
          </div>
        )}
      </dl>
      <StringList />
    </>
  )
}

interface Fact {
  readonly says: string
  readonly groups: readonly (readonly ElementId[])[]
  readonly joint: string
}

/** What holds of a load, as rows of words and elements; rows without elements are left out. */
export function facts(trace: LoadTrace): readonly Fact[] {
  const one = (says: string, ids: readonly ElementId[]): Fact => ({
    says,
    groups: ids.length ? [ids] : [],
    joint: ', ',
  })
  return [
    one('must be closed', trace.mustBeClosed),
    { says: trace.complete ? 'any of' : 'any of, among more', groups: trace.anyOf, joint: ' or ' },
    one('must be open', trace.mustBeOpen),
    one('to start', trace.toStart),
    one('needs first', trace.enablers),
    one('must be off', trace.mustRest),
    one('current also goes through', trace.through),
  ].filter(({ groups }) => groups.length > 0)
}

function Name({ circuit, id }: { readonly circuit: Circuit; readonly id: ElementId }) {
  const selected = useBench((b) => b.selected === id)
  const { select } = useActions()
  return (
    <button type="button" className="element-name" aria-pressed={selected} onClick={() => select(id)}>
      {elementName(circuit, id)}
    </button>
  )
}

function StringList() {
  const circuit = useBench((b) => b.shown?.circuit)
  const trace = useBench((b) => b.trace?.loads.find((l) => l.load === b.load))
  const frame = useBench((b) => b.trace?.story[stepOf(b)]?.frame)
  if (!circuit || !trace) return null
  const say = (id: ElementId) => {
    const element = circuit.elements.get(id)
    if (!element) return id
    const must = trace.mustBeClosed.includes(id) ? 'must be closed' : ''
    const state = stateWords(element, frame, id === trace.load ? trace : undefined)
    return [elementName(circuit, id), labelWords(circuit, element), state, must].filter(Boolean).join(', ')
  }
  return (
    <ol
      className="hidden-words"
      aria-label={`From ${trace.poles[0] ?? 'the supply'} to ${trace.poles[1] ?? 'its return'}`}
    >
      {trace.order.map((place) => (
        <li key={place.join(' ')}>{place.map(say).join('; or ')}</li>
      ))}
    </ol>
  )
}

const join = (nodes: readonly ReactNode[], joint: string): ReactNode[] =>
  nodes.flatMap((node, i) => (i === 0 ? [node] : [joint, node]))
