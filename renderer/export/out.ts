/** `bench-dryer-electric.svg`; `drawing.svg` where the unit has no name in letters. */
export function fileName(title: string, ending: string): string {
  const stem = title
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-|-$/g, '')
    .slice(0, 60)
  return `${stem || 'drawing'}.${ending}`
}

/** Hands a file to the user, as a download. */
export function download(file: Blob, name: string): void {
  const link = document.createElement('a')
  link.href = URL.createObjectURL(file)
  link.download = name
  link.click()
  // The browser reads it after the click.
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000)
}

/** Puts a picture on the clipboard. It may still be in the making: the click that asked for it must not go stale. */
export async function copyPicture(picture: Promise<Blob>): Promise<void> {
  await navigator.clipboard.write([new ClipboardItem({ 'image/png': picture })])
}
