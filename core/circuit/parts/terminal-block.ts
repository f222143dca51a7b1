import { partOf } from '../common/part.ts'
import { nameForm, tagsForm } from '../forms.ts'
import { kind } from '../kind.ts'

/** Terminals that wires of the unit and of the house meet at; each joins what is wired to it. */
export const terminalBlockKind = kind({
  word: 'terminal-block',
  title: 'Terminal block',
  example: 'terminal-block TB "Cord block" tags L, N, S area top',
  named: 'shared',
  round: 2,
  clauses: { tags: tagsForm, area: nameForm('area') },
  children: {},
  read(line, to) {
    const { tags } = line.clauses
    if (!tags && !line.told) to.tell('tags-needed', line.head, line.name, 'tags L, N, S')
    const own = (tags ?? []).filter(({ text, at }, i, all) => {
      const again = all.findIndex((other) => other.text === text) < i
      if (again) to.tell('tag-twice', at, line.name, text)
      return !again
    })
    to.part(
      partOf(line, to),
      [],
      own.map(({ text }) => `${line.name}.${text}`),
    )
  },
})
