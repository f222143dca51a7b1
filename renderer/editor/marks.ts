import { type Extension, RangeSet, StateEffect, StateField, type Text } from '@codemirror/state'
import { Decoration, type DecorationSet, EditorView, GutterMarker, gutterLineClass } from '@codemirror/view'
import type { Span } from '../../core/netlist/index.ts'

/** Which stretches of the text belong to what is selected, and to the string on show. */
export interface Marked {
  readonly selected: readonly Span[]
  readonly string: readonly Span[]
}

const mark = StateEffect.define<Marked>()

const wash = Decoration.line({ class: 'line-selected' })
class Bar extends GutterMarker {
  override elementClass = 'bar'
}
const bar = new Bar()

interface Lines {
  /** Washed: of what is selected. */
  readonly washed: DecorationSet
  /** With a bar in the margin: selected, or in the string. */
  readonly barred: RangeSet<GutterMarker>
}

const marks = StateField.define<Lines>({
  create: () => ({ washed: Decoration.none, barred: RangeSet.empty }),
  update({ washed, barred }, { changes, effects, state }) {
    let lines = { washed: washed.map(changes), barred: barred.map(changes) }
    for (const effect of effects) {
      if (!effect.is(mark)) continue
      const { selected, string } = effect.value
      lines = {
        washed: RangeSet.of(starts(state.doc, selected).map((at) => wash.range(at))),
        barred: RangeSet.of(starts(state.doc, [...selected, ...string]).map((at) => bar.range(at))),
      }
    }
    return lines
  },
  provide: (field) => [
    EditorView.decorations.from(field, ({ washed }) => washed),
    gutterLineClass.from(field, ({ barred }) => barred),
  ],
})

/** Where the lines that the spans touch begin, in order. */
function starts(doc: Text, spans: readonly Span[]): readonly number[] {
  const found = new Set<number>()
  for (const { from, to } of spans) {
    if (from > doc.length) continue
    const last = doc.lineAt(Math.min(Math.max(from, to - 1), doc.length)).number
    for (let n = doc.lineAt(from).number; n <= last; n++) found.add(doc.line(n).from)
  }
  return [...found].sort((a, b) => a - b)
}

export const lineMarks: Extension = marks

/** Marks lines; the spans speak of the text the editor holds now. */
export const markLines = (marked: Marked): StateEffect<Marked> => mark.of(marked)
