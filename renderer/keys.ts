import type { Handles } from './bench/handles.ts'
import type { Actions } from './store/actions.ts'

/** Keys that act anywhere on the bench. Letters and signs act outside text only. Returns the function that ends it. */
export function listenToKeys(actions: Actions, { editor, drawing }: Handles): () => void {
  const undo = () => editor.current?.undo()
  const redo = () => editor.current?.redo()
  const withCtrl = new Map<string, () => void>([
    ['s', () => void actions.save()],
    ['S', actions.askName],
    ['o', () => actions.openDialog({ kind: 'shelf' })],
    ['z', undo],
    ['Z', redo],
    ['y', redo],
  ])
  const alone = new Map<string, () => void>([
    ['[', () => actions.step(-1)],
    [']', () => actions.step(1)],
    ['?', () => actions.openDialog({ kind: 'keys' })],
    ['Escape', () => actions.select(null)],
    ['+', () => drawing.current?.closer()],
    ['=', () => drawing.current?.closer()],
    ['-', () => drawing.current?.farther()],
    ['0', () => drawing.current?.fit()],
    ['d', () => document.querySelector<HTMLElement>('[data-main] [aria-pressed=true]')?.focus()],
  ])

  const press = (event: KeyboardEvent) => {
    if (event.defaultPrevented || event.altKey || document.querySelector('[role=dialog]')) return
    const ctrl = event.ctrlKey || event.metaKey
    const act = ctrl ? withCtrl.get(event.key) : isText(event.target) ? undefined : alone.get(event.key)
    if (!act) return
    event.preventDefault()
    act()
  }
  document.addEventListener('keydown', press)
  return () => document.removeEventListener('keydown', press)
}

const isText = (target: EventTarget | null): boolean =>
  target instanceof HTMLElement && (target.isContentEditable || target.matches('input, textarea, select'))
