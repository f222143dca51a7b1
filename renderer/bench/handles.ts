import { createContext, type RefObject, useContext } from 'react'
import { invariant } from '../../core/netlist/index.ts'
import type { Editor } from '../editor/createEditor.ts'

/** Panes that others reach into: the header undoes text, keys move the drawing. Null while the pane is not there. */
export interface Handles {
  readonly editor: RefObject<Editor | null>
  readonly drawing: RefObject<{ fit(): void; closer(): void; farther(): void } | null>
}

export const HandlesContext = createContext<Handles | null>(null)

export function useHandles(): Handles {
  const handles = useContext(HandlesContext)
  invariant(handles, 'every pane stands inside HandlesContext')
  return handles
}
