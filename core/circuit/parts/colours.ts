import { kind } from '../kind.ts'

/** The sheet's own letters for the colours of wires, where they differ from IEC 60757: `R=RD`, `T="tan"`. */
export const coloursKind = kind({
  word: 'colours',
  title: 'Colour letters',
  example: 'colours R=RD BL=BU T="tan"',
  named: 'no',
  round: 1,
  bare: true,
  clauses: {},
  children: {},
  read(line, to) {
    const letters = new Map<string, string>()
    const tokens = line.bare.filter((token) => token.kind !== ',')
    for (let i = 0; i < tokens.length; i += 3) {
      const [own, mark, meaning] = tokens.slice(i, i + 3)
      const right =
        own?.kind === 'word' && mark?.kind === '=' && (meaning?.kind === 'word' || meaning?.kind === 'string')
      if (!right) {
        to.tell('colours-form', own ?? line.head, own?.text)
        break
      }
      letters.set(own.text, meaning.text)
    }
    if (tokens.length === 0 && !line.told) to.tell('colours-form', line.head, undefined)
    to.colours(letters)
  },
})
