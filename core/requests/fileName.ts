/** How the file of a circuit ends. */
export const EXTENSION = '.circuit'

const MAX_STEM = 80
// What Windows keeps for devices, whatever follows a dot; and the characters it refuses in a file name.
const DEVICE = /^(con|prn|aux|nul|com[0-9¹²³]|lpt[0-9¹²³])(\.|$)/i
// biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what it must find
const FORBIDDEN = /[\u0000-\u001f\u007f<>:"/\\|?*]/

/**
 * Whether `id` can be the name of a circuit's file without its ending, on every system: no path, no device, nothing
 * hidden, at most 80 UTF-16 units (240 bytes; file systems allow 255 with the ending).
 */
export function isStem(id: string): boolean {
  return (
    id.length > 0 &&
    id.length <= MAX_STEM &&
    !FORBIDDEN.test(id) &&
    !/\p{Surrogate}/u.test(id) &&
    !DEVICE.test(id) &&
    !/^[. ]|[. ]$/.test(id)
  )
}

/** `Bench dryer, electric` → `bench-dryer-electric`; undefined where the title has no letter and no digit. */
export function stemFromTitle(title: string): string | undefined {
  const plain = title
    .normalize('NFKD')
    .toLowerCase()
    .replace(/[\u0300-\u036f]/g, '') // accents of Latin letters; marks of other scripts change the word and stay
    .normalize('NFC')
  const words = plain.match(/[\p{L}\p{M}\p{N}]+/gu)
  if (!words) return undefined
  let stem = ''
  for (const character of words.join('-')) if (stem.length + character.length <= MAX_STEM) stem += character
  stem = stem.replace(/-+$/, '')
  return isStem(stem) ? stem : `${stem}-unit`
}

/** The first of `stem-2`, `stem-3` … that `taken` does not hold. */
export function freeStem(stem: string, taken: (stem: string) => boolean): string {
  for (let n = 2; ; n++) {
    const ending = `-${n}`
    const candidate = stem.slice(0, MAX_STEM - ending.length) + ending
    if (!taken(candidate)) return candidate
  }
}

/** Names that a file system may take for one and the same fold alike. */
export const fold = (stem: string): string => stem.normalize('NFC').toLowerCase()
