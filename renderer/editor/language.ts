import { HighlightStyle, StreamLanguage, syntaxHighlighting } from '@codemirror/language'
import { tags } from '@lezer/highlight'

interface Place {
  /** Nothing but white space stands before on this line. */
  first: boolean
}

/** Colours of the netlist: the word a line begins with, quoted words, comments; the rest is plain. */
const netlist = StreamLanguage.define<Place>({
  name: 'netlist',
  startState: () => ({ first: true }),
  token(stream, place) {
    if (stream.sol()) place.first = true
    if (stream.eatSpace()) return null
    const { first } = place
    place.first = false
    if (stream.match(/^#.*/)) return 'comment'
    if (stream.match(/^"[^"]*"?/)) return 'string'
    // Words of the language are lower case; a chart's rows begin with tags.
    if (first && stream.match(/^[a-z][a-z-]*(?=\s|$)/)) return 'keyword'
    if (!stream.match(/^[^\s"#]+/)) stream.next()
    return null
  },
  languageData: { commentTokens: { line: '#' } },
})

/** Classes, styled in netlist.css. */
const style = HighlightStyle.define([
  { tag: tags.keyword, class: 'word-first' },
  { tag: tags.string, class: 'word-quoted' },
  { tag: tags.comment, class: 'word-comment' },
])

export const netlistLanguage = [netlist, syntaxHighlighting(style)]
