import { flagForm, wordForm } from '../forms.ts'
import { kind } from '../kind.ts'

/** Something a person or the process sets from outside, with its positions in the order they turn. */
export const controlKind = kind({
  word: 'control',
  title: 'Control',
  example:
    'control dial "Cycle dial" off, timed, cool-down\ncontrol door "Door" shut, open\ncontrol start "Start" released, held springs back',
  named: 'shared',
  round: 1,
  bare: true,
  clauses: { normally: wordForm('position'), springs: flagForm('back') },
  children: {},
  read(line, to) {
    const positions: string[] = []
    for (const token of line.bare) {
      if (token.kind === ',') continue
      if (token.kind === '=' || token.kind === '>') {
        to.tell('stray-mark', token, token.text, 'Put commas between the positions.')
      } else if (positions.includes(token.text)) to.tell('position-twice', token, line.name, token.text)
      else positions.push(token.text)
    }
    const { normally, springs } = line.clauses
    const [first] = positions
    if (first === undefined) {
      if (!line.told) to.tell('no-positions', line.head, line.name)
      to.lost(line.name)
      return
    }
    const known = normally === undefined || positions.includes(normally.text)
    if (normally && !known) to.tell('unknown-position', normally.at, line.name, normally.text, positions)
    to.control({
      name: line.name,
      label: line.label,
      positions,
      normally: normally && known ? normally.text : first,
      springsBack: springs !== undefined,
      at: line.at,
    })
  },
})
