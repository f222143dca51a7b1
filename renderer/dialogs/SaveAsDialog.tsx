import { useState } from 'react'
import { useActions } from '../store/context.ts'
import type { Dialog } from '../store/state.ts'
import { Sheet } from './Sheet.tsx'

/** Asks for a name on the shelf. */
export function SaveAsDialog({ ask }: { readonly ask: Extract<Dialog, { kind: 'save-as' }> }) {
  const { openDialog, saveAs } = useActions()
  const [name, setName] = useState(ask.name)
  return (
    <Sheet title="Save as" className="narrow" onClose={() => openDialog(null)}>
      <form
        onSubmit={(event) => {
          event.preventDefault()
          void saveAs(name)
        }}
      >
        <label className="field">
          Name
          <input
            value={name}
            autoComplete="off"
            aria-invalid={ask.taken !== undefined}
            aria-describedby={ask.taken === undefined ? undefined : 'name-taken'}
            onFocus={(event) => event.target.select()}
            onChange={(event) => setName(event.target.value)}
          />
        </label>
        {ask.taken !== undefined && (
          <p id="name-taken" className="trouble" role="alert">
            {ask.taken}
          </p>
        )}
        <div className="answers">
          {ask.free !== undefined && (
            <button type="button" className="button" onClick={() => void saveAs(ask.free ?? name)}>
              Save as {ask.free}
            </button>
          )}
          <button type="submit" className="button solid">
            Save
          </button>
        </div>
      </form>
    </Sheet>
  )
}
