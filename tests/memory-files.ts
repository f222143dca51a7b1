import { createHash } from 'node:crypto'
import type { ShelfFolder } from '../core/requests/index.ts'

/** A folder in memory. `files` may be changed behind its back; a file's time is the count of writes before it. */
export function memoryFiles(title = 'memory'): ShelfFolder & { readonly files: Map<string, string> } {
  const files = new Map<string, string>()
  const times = new Map<string, number>()
  let writes = 0
  const revision = (text: string) => createHash('sha256').update(text).digest('hex')
  return {
    title,
    files,
    list: async () =>
      [...files.keys()].map((stem) => ({ stem, modified: new Date((times.get(stem) ?? 0) * 1000).toISOString() })),
    read: async (stem) => {
      const text = files.get(stem)
      return text === undefined ? { kind: 'missing' } : { kind: 'text', text, revision: revision(text) }
    },
    write: async (stem, text) => {
      files.set(stem, text)
      times.set(stem, ++writes)
      return revision(text)
    },
  }
}
