import { readTextFile } from './openText.ts'
import type { Actions } from './store/actions.ts'

/** Opens a file dropped anywhere on the window. Returns the function that ends it. */
export function listenToDrops({ openFile, trouble }: Actions): () => void {
  const carriesFiles = (event: DragEvent) => event.dataTransfer?.types.includes('Files') ?? false
  const over = (event: DragEvent) => {
    if (carriesFiles(event)) event.preventDefault()
  }
  const drop = async (event: DragEvent) => {
    if (!carriesFiles(event)) return
    event.preventDefault()
    event.stopPropagation()
    const [file] = event.dataTransfer?.files ?? []
    if (!file) return
    const got = await readTextFile(file)
    if (got.ok) openFile(file.name, got.text)
    else trouble(got.message)
  }
  // Before the editor, which would put the file's text where it was dropped.
  document.addEventListener('dragover', over, { capture: true })
  document.addEventListener('drop', drop, { capture: true })
  return () => {
    document.removeEventListener('dragover', over, { capture: true })
    document.removeEventListener('drop', drop, { capture: true })
  }
}
