/** `[A-Za-z][A-Za-z0-9_]*`: the form of the name of a part, area, control, zone. */
export function isName(word: string): boolean {
  return /^[A-Za-z][A-Za-z0-9_]*$/.test(word)
}

/**
 * A tag as it stands on the sheet: bare, or quoted where it holds other characters. A dot would make `PART.TAG` of it.
 * Sticky, so that the pattern reads on from where the last one ended.
 */
const tag = /(?:([A-Za-z][A-Za-z0-9_]*)\.)?(?:([A-Za-z0-9_/+]+)|"([^".]+)")/y

/** The tag of `text` at `from`, without its quotes but with the part before its dot. */
function tagAt(
  text: string,
  from: number,
): { readonly part?: string; readonly id: string; readonly to: number } | undefined {
  tag.lastIndex = from
  const found = tag.exec(text)
  if (!found) return undefined
  const [whole, part, bare, quoted] = found
  const name = bare ?? quoted ?? ''
  return part === undefined
    ? { id: name, to: from + whole.length }
    : { part, id: `${part}.${name}`, to: from + whole.length }
}

/**
 * Two tags joined by a hyphen: `C-NO`, `13/14-2`, `1-"−"`. A tag may be on another part: `HL.2-2`. They come without
 * quotes, as `terminalId` gives them. Undefined for anything else.
 */
export function splitTags(text: string): readonly [string, string] | undefined {
  const first = tagAt(text, 0)
  if (!first || text[first.to] !== '-') return undefined
  const second = tagAt(text, first.to + 1)
  return second && second.to === text.length ? [first.id, second.id] : undefined
}

/** The terminal that `PART.TAG` names, without quotes: `supply."+"` and `supply.+` are the same. Undefined for other forms. */
export function terminalId(word: string): string | undefined {
  const found = tagAt(word, 0)
  return found?.part !== undefined && found.to === word.length ? found.id : undefined
}

/**
 * A string of the language that shows `text`. No `"` can stand within quotes and no line can end there: a `"` becomes
 * `”`, and a line end becomes a blank.
 */
export function quote(text: string): string {
  return `"${text.replaceAll('"', '”').replaceAll(/\r\n?|\n/g, ' ')}"`
}
