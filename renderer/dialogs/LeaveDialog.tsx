import { useActions } from '../store/context.ts'
import type { Dialog } from '../store/state.ts'
import { Sheet } from './Sheet.tsx'

/** Another circuit is about to be opened over text that is not saved. */
export function LeaveDialog({ leave }: { readonly leave: Extract<Dialog, { kind: 'leave' }> }) {
  const { openDialog, save } = useActions()
  return (
    <Sheet
      title="Not saved"
      says="This circuit has changes that are not saved. They are kept in this browser and offered when it is opened again."
      className="narrow"
      onClose={() => openDialog(null)}
    >
      <div className="answers">
        <button type="button" className="button" onClick={leave.then}>
          Go on
        </button>
        <button
          type="button"
          className="button solid"
          onClick={() => {
            openDialog(null)
            void save()
          }}
        >
          Save first
        </button>
      </div>
    </Sheet>
  )
}
