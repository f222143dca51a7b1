import { useActions } from '../store/context.ts'
import type { Dialog } from '../store/state.ts'
import { Sheet } from './Sheet.tsx'

/** The file is not what it was when it was opened: three ways out, and none of them loses a text unasked. */
export function ConflictDialog({ conflict }: { readonly conflict: Extract<Dialog, { kind: 'conflict' }> }) {
  const { openDialog, askName, keepMine, takeTheirs } = useActions()
  return (
    <Sheet title="Changed elsewhere" says={conflict.message} className="narrow" onClose={() => openDialog(null)}>
      <div className="answers column">
        <button type="button" className="button solid" onClick={askName}>
          Save mine under another name
        </button>
        {conflict.theirs && (
          <button type="button" className="button" onClick={takeTheirs}>
            Open theirs here; undo brings mine back
          </button>
        )}
        <button type="button" className="button" onClick={() => void keepMine()}>
          {conflict.theirs ? 'Overwrite theirs with mine' : 'Put mine back where it was'}
        </button>
      </div>
    </Sheet>
  )
}
