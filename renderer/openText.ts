import { MAX_TEXT_BYTES } from '../core/requests/index.ts'

export type Got = { readonly ok: true; readonly text: string } | { readonly ok: false; readonly message: string }

/** The text of a file a person picked or dropped; refuses what cannot be a netlist. */
export async function readTextFile(file: File): Promise<Got> {
  if (file.size > MAX_TEXT_BYTES) {
    return { ok: false, message: `“${file.name}” is larger than 2 MB, too large for a circuit.` }
  }
  try {
    const text = new TextDecoder('utf-8', { fatal: true }).decode(await file.arrayBuffer())
    if (!text.includes('\0')) return { ok: true, text }
  } catch {
    // Not UTF-8: said below.
  }
  return {
    ok: false,
    message: `“${file.name}” is not text in UTF-8. Save it as UTF-8 in a text editor, then open it again.`,
  }
}
