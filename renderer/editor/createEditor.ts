import {
  defaultKeymap,
  history,
  historyKeymap,
  indentWithTab,
  redo,
  redoDepth,
  undo,
  undoDepth,
} from '@codemirror/commands'
import { lintGutter, lintKeymap, nextDiagnostic, setDiagnostics } from '@codemirror/lint'
import { EditorState, Transaction } from '@codemirror/state'
import { drawSelection, EditorView, keymap, lineNumbers } from '@codemirror/view'
import type { Problem, Span } from '../../core/netlist/index.ts'
import { netlistLanguage } from './language.ts'
import { lineMarks, type Marked, markLines } from './marks.ts'
import { diagnostics } from './problems.ts'

export interface EditorEvents {
  readonly onText: (text: string) => void
  readonly onPast: (canUndo: boolean, canRedo: boolean) => void
  /** The user moved the cursor, by hand or by typing. */
  readonly onCursor: (at: number) => void
}

/** The text pane, without React. */
export interface Editor {
  /** Another text. Undoable: as a change of the one before; else as a fresh one without a past. */
  hold(text: string, undoable: boolean): void
  text(): string
  tell(problems: readonly Problem[]): void
  mark(marked: Marked): void
  /** Brings a place into view without moving cursor or focus. */
  reveal(span: Span): void
  undo(): void
  redo(): void
  nextProblem(): void
  focus(): void
  close(): void
}

/** CodeMirror puts a <style> into the page; the security policy lets it with this. */
const nonce = () => document.querySelector<HTMLMetaElement>('meta[property=csp-nonce]')?.nonce ?? ''

export function createEditor(parent: HTMLElement, events: EditorEvents): Editor {
  const extensions = [
    EditorView.cspNonce.of(nonce()),
    EditorView.contentAttributes.of({
      'aria-label': 'Netlist',
      spellcheck: 'false',
      autocapitalize: 'off',
      tabindex: '0',
    }),
    lineNumbers(),
    lintGutter(),
    history(),
    drawSelection(),
    netlistLanguage,
    lineMarks,
    // Tab indents, as a netlist needs it; Escape then Tab leaves the pane.
    keymap.of([...lintKeymap, ...defaultKeymap, ...historyKeymap, indentWithTab]),
    EditorView.updateListener.of((update) => {
      if (update.docChanged) {
        events.onText(update.state.doc.toString())
        events.onPast(undoDepth(update.state) > 0, redoDepth(update.state) > 0)
      }
      const moved = update.transactions.some((t) => t.isUserEvent('select') || t.isUserEvent('input'))
      if (moved) events.onCursor(update.state.selection.main.head)
    }),
  ]
  const fresh = (doc: string) => EditorState.create({ doc, extensions })
  const view = new EditorView({ parent, state: fresh('') })

  return {
    hold(text, undoable) {
      if (undoable) {
        view.dispatch({
          changes: { from: 0, to: view.state.doc.length, insert: text },
          annotations: Transaction.userEvent.of('replace'),
        })
      } else {
        view.setState(fresh(text))
        events.onPast(false, false)
      }
    },
    text: () => view.state.doc.toString(),
    tell: (problems) => view.dispatch(setDiagnostics(view.state, diagnostics(problems, view.state.doc.length))),
    mark: (marked) => view.dispatch({ effects: markLines(marked) }),
    reveal({ from }) {
      const { scrollDOM, state } = view
      const { top, bottom } = view.lineBlockAt(Math.min(from, state.doc.length))
      const { scrollTop, clientHeight } = scrollDOM
      // Only the pane is scrolled: on a phone the page around it must stay where the finger is.
      if (top < scrollTop || bottom > scrollTop + clientHeight) scrollDOM.scrollTop = top - clientHeight / 2
    },
    undo: () => void undo(view),
    redo: () => void redo(view),
    nextProblem: () => {
      view.focus()
      nextDiagnostic(view)
    },
    focus: () => view.focus(),
    close: () => view.destroy(),
  }
}
