import { isProblem, type Problem, type QuantityName, quantity, type Statement } from '../netlist/index.ts'
import { found } from './asked.ts'
import { placesIn } from './places.ts'

/**
 * Fuses with a temperature and cutoffs with amps: both are called fuses in the trade. Asked of the text, since neither
 * line can be read.
 */
export function slipsIn(text: string): readonly Problem[] {
  return placesIn(text).statements.flatMap((statement) => {
    const [word, name] = statement.line.tokens
    if (word?.text !== 'fuse' && word?.text !== 'cutoff') return []
    const at = firstOf(statement, word.text === 'fuse' ? 'celsius' : 'amps')
    if (!at) return []
    return [found(word.text === 'fuse' ? 'fuse-in-degrees' : 'cutoff-in-amps', at, name?.text ?? '')]
  })
}

function firstOf({ line: { tokens } }: Statement, wanted: QuantityName) {
  for (let i = 2; i < tokens.length; i++) {
    const read = quantity(tokens, i)
    if (read && !isProblem(read) && read.quantity === wanted) return { from: read.from, to: read.to }
  }
  return undefined
}
