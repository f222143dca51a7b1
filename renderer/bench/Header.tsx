import { useActions, useBench } from '../store/context.ts'
import { isChanged } from '../store/reduce.ts'
import type { Bench } from '../store/state.ts'
import { useHandles } from './handles.ts'
import { Icon, Mark } from './Icon.tsx'

/** What is on the bench, where it lies, and what can be done with the whole of it. */
export function Header() {
  const { editor } = useHandles()
  const title = useBench((b) => b.shown?.circuit.unit.title || 'No name yet')
  const words = useBench(unitWords)
  const place = useBench(placeWords)
  const changed = useBench(isChanged)
  const canUndo = useBench((b) => b.canUndo)
  const canRedo = useBench((b) => b.canRedo)
  const theme = useBench((b) => b.theme)
  const { openDialog, save, askName, switchTheme } = useActions()
  return (
    <header className="top">
      <button
        type="button"
        className="home"
        aria-label="Circuit shelf"
        title="Circuit shelf, Ctrl O"
        onClick={() => openDialog({ kind: 'shelf' })}
      >
        <Mark />
      </button>
      <div className="unit">
        <h1>{title}</h1>
        <p>{words}</p>
      </div>
      <div className="place">
        <p>{place}</p>
        <p className={changed ? 'unsaved' : 'saved'} role="status">
          {changed ? 'not saved' : 'no changes'}
        </p>
      </div>
      <div className="tools">
        <button type="button" className="word" onClick={() => openDialog({ kind: 'shelf' })}>
          Shelf <kbd>Ctrl O</kbd>
        </button>
        <button type="button" className="word" onClick={() => void save()}>
          Save <kbd>Ctrl S</kbd>
        </button>
        <button type="button" className="word" onClick={askName}>
          Save as
        </button>
        <button
          type="button"
          aria-label="Undo"
          title="Undo, Ctrl Z"
          disabled={!canUndo}
          onClick={() => editor.current?.undo()}
        >
          <Icon name="undo" />
        </button>
        <button
          type="button"
          aria-label="Redo"
          title="Redo, Ctrl Shift Z"
          disabled={!canRedo}
          onClick={() => editor.current?.redo()}
        >
          <Icon name="redo" />
        </button>
        <button
          type="button"
          aria-label={theme === 'light' ? 'Dark' : 'Light'}
          title={theme === 'light' ? 'Dark' : 'Light'}
          onClick={switchTheme}
        >
          <Icon name="shade" />
        </button>
        <button type="button" className="word" title="Keys, ?" onClick={() => openDialog({ kind: 'keys' })}>
          Keys <kbd>?</kbd>
        </button>
      </div>
    </header>
  )
}

/** `240 V split-phase · sheet inside the rear panel`. */
export function unitWords({ shown }: Bench): string {
  if (!shown) return ''
  const { supplies, unit } = shown.circuit
  return [supplies[0]?.title ?? 'no supply yet', unit.sheet && `sheet ${unit.sheet}`].filter(Boolean).join(' · ')
}

export function placeWords({ source }: Bench): string {
  switch (source.kind) {
    case 'shelf':
      return source.id
    case 'demo':
      return 'Demo'
    case 'file':
      return source.name
    case 'new':
      return 'New sheet'
  }
}
