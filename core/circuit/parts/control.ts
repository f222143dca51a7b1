import { flagForm, wordForm } from '../forms.ts'
import { kind } from '../kind.ts'

/** Something a person or the process sets from outside, with its positions in the order they turn. */
export const controlKind = kind({
  word: 'control',
  title: 'Control',
  example: 'control dial "Cycle dial" off, timed, cool-down',
  named: 'thing',
  round: 1,
  bare: true,
  clauses: { normally: wordForm('a position'), springs: flagForm('back') },
  children: {},
  read(line, to) {
    const positions: string[] = []
    for (const token of line.bare) {
      if (token.kind === ',') continue
      if (positions.includes(token.text)) {
        to.tell(
          'position-twice',
          token,
          `${line.name} has “${token.text}” twice.`,
          'Give each position a name of its own.',
        )
      } else positions.push(token.text)
    }
    const [first] = positions
    if (first === undefined) {
      to.tell(
        'no-positions',
        line.head,
        `${line.name} has no positions.`,
        'Add them with commas between: `shut, open`.',
      )
      return
    }
    const { normally, springs } = line.clauses
    if (normally && !positions.includes(normally.value.text)) {
      to.tell(
        'unknown-position',
        normally.value.at,
        `${line.name} has no position “${normally.value.text}”.`,
        `Its positions are ${positions.join(', ')}.`,
      )
    }
    to.control({
      name: line.name,
      label: line.label,
      positions,
      normally: normally && positions.includes(normally.value.text) ? normally.value.text : first,
      springsBack: springs !== undefined,
      at: line.at,
    })
  },
})
