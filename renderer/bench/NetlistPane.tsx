import { useEffect, useMemo, useRef } from 'react'
import type { ElementId } from '../../core/circuit/index.ts'
import type { Span } from '../../core/netlist/index.ts'
import { createEditor } from '../editor/createEditor.ts'
import { useActions, useBench } from '../store/context.ts'
import type { Read } from '../store/state.ts'
import { useHandles } from './handles.ts'

/** The text of the circuit. */
export function NetlistPane() {
  const { editor } = useHandles()
  const box = useRef<HTMLDivElement>(null)
  const handed = useBench((b) => b.handed)
  const text = useBench((b) => b.text)
  const read = useBench((b) => b.read)
  const selected = useBench((b) => b.selected)
  const trace = useBench((b) => b.trace)
  const load = useBench((b) => b.load)
  const { type, past, select } = useActions()
  const latest = useRef(read)
  latest.current = read
  const held = useRef({ serial: handed.serial, text })
  if (held.current.serial === handed.serial) held.current = { serial: handed.serial, text }
  /** What the cursor selected last: to it the pane must not scroll. */
  const own = useRef<ElementId | null>(null)

  useEffect(() => {
    if (!box.current) return
    const made = createEditor(box.current, {
      onText: type,
      onPast: past,
      onCursor(at) {
        const now = latest.current
        if (!now || now.text !== made.text()) return
        const found = elementAt(now, at)
        if (!found) return
        own.current = found
        select(found)
      },
    })
    made.hold(held.current.text, false)
    editor.current = made
    return () => {
      made.close()
      editor.current = null
    }
  }, [editor, type, past, select])

  useEffect(() => {
    if (held.current.serial === handed.serial) return
    held.current = handed
    editor.current?.hold(handed.text, handed.undoable)
  }, [editor, handed])

  // An answer about an earlier text would put its marks beside the words they mean.
  const fits = () => read !== null && editor.current?.text() === read.text
  const string = useMemo(() => trace?.loads.find((l) => l.load === load)?.path.flat() ?? [], [trace, load])

  // biome-ignore lint/correctness/useExhaustiveDependencies: `fits` reads what is listed
  useEffect(() => {
    if (read && fits()) editor.current?.tell(read.problems)
  }, [editor, read])

  // biome-ignore lint/correctness/useExhaustiveDependencies: `fits` reads what is listed
  useEffect(() => {
    if (!read || !fits()) return
    const spans = (ids: readonly ElementId[]) => ids.flatMap((id) => read.circuit.elements.get(id)?.at ?? [])
    editor.current?.mark({ selected: spans(selected === null ? [] : [selected]), string: spans(string) })
  }, [editor, read, selected, string])

  // biome-ignore lint/correctness/useExhaustiveDependencies: scrolls on a new selection, not on new text
  useEffect(() => {
    if (selected === null || selected === own.current) return
    own.current = null
    const at = latest.current?.circuit.elements.get(selected)?.at
    if (at && fits()) editor.current?.reveal(at)
  }, [editor, selected])

  return (
    <section className="netlist" aria-label="Netlist">
      <header>
        <h2>Netlist</h2>
        <Verdict onNext={() => editor.current?.nextProblem()} />
      </header>
      <div className="editor" ref={box} />
    </section>
  )
}

/** `50 lines, nothing wrong`, or how many problems there are: a button that goes to the next. */
function Verdict({ onNext }: { readonly onNext: () => void }) {
  const text = useBench((b) => b.text)
  const problems = useBench((b) => b.read?.problems)
  const lines = useMemo(() => text.trimEnd().split('\n').length, [text])
  if (!problems || problems.length === 0) {
    return (
      <p role="status">
        {lines} {lines === 1 ? 'line' : 'lines'}
        {problems ? ', nothing wrong' : ''}
      </p>
    )
  }
  const count = problems.length === 1 ? '1 problem' : `${problems.length} problems`
  return (
    <button type="button" className="problems" title="Go to the next, F8" onClick={onNext}>
      {count}
    </button>
  )
}

/** What the line of an offset describes: the element there, else the first on the line, else the first of the part. */
export function elementAt({ circuit, text }: Pick<Read, 'circuit' | 'text'>, at: number): ElementId | undefined {
  const line = { from: text.lastIndexOf('\n', at - 1) + 1, to: text.indexOf('\n', at) }
  const elements = [...circuit.elements.values()]
  const under = elements.filter((element) => element.at.from <= at && at <= element.at.to)
  const long = ({ from, to }: Span) => to - from
  const [closest] = under.sort((a, b) => long(a.at) - long(b.at))
  const beside = elements.find(({ at: { from } }) => line.from <= from && (line.to < 0 || from < line.to))
  if (closest ?? beside) return (closest ?? beside)?.id
  return [...circuit.parts.values()].find((part) => part.at.from <= at && at <= part.at.to)?.elements[0]
}
