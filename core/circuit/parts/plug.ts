import { addPart, element } from '../common/part.ts'
import { pinFigure } from '../figures.ts'
import { nameForm, tagsForm } from '../forms.ts'
import { kind } from '../kind.ts'
import { LINK, lawAlways } from '../laws.ts'

/** A plug and its socket: each pin passes through, from `P1.1` on one half to `P1.1b` on the other. */
export const plugKind = kind({
  word: 'plug',
  title: 'Plug',
  example: 'plug P1 "Motor plug" pins 1, 2, 3 area top',
  named: 'shared',
  round: 2,
  clauses: { pins: tagsForm, area: nameForm('area') },
  children: {},
  read(line, to) {
    const { pins } = line.clauses
    if (!pins && !line.told) to.tell('tags-needed', line.head, line.name, 'pins 1, 2, 3')
    const elements = (pins ?? []).flatMap(({ text, at }, i, all) => {
      if (all.findIndex((other) => other.text === text) < i) {
        to.tell('tag-twice', at, line.name, text)
        return []
      }
      const halves = { pair: [text, `${text}b`] as const, at }
      return [
        element(line, to, halves, {
          name: text,
          role: 'link',
          laws: lawAlways(LINK),
          figure: pinFigure,
          passes: true,
        }),
      ]
    })
    addPart({ ...line, tags: [] }, to, elements)
  },
})
