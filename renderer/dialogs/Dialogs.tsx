import { useBench } from '../store/context.ts'
import { ConflictDialog } from './ConflictDialog.tsx'
import { KeysDialog } from './KeysDialog.tsx'
import { LeaveDialog } from './LeaveDialog.tsx'
import { SaveAsDialog } from './SaveAsDialog.tsx'
import { ShelfDialog } from './ShelfDialog.tsx'

/** The one dialog that is open, if any. */
export function Dialogs() {
  const dialog = useBench((b) => b.dialog)
  switch (dialog?.kind) {
    case undefined:
      return null
    case 'shelf':
      return <ShelfDialog />
    case 'save-as':
      return <SaveAsDialog ask={dialog} />
    case 'conflict':
      return <ConflictDialog conflict={dialog} />
    case 'leave':
      return <LeaveDialog leave={dialog} />
    case 'keys':
      return <KeysDialog />
  }
}
