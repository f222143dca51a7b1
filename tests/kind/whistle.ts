import { loadClauses, loadElement, loadRatings } from '../../core/circuit/common/load.ts'
import { addPart, element } from '../../core/circuit/common/part.ts'
import { bodyFigure, contactFigure } from '../../core/circuit/figures.ts'
import { phraseForm } from '../../core/circuit/forms.ts'
import { kind } from '../../core/circuit/kind.ts'
import { CONTACT, lawWhen } from '../../core/circuit/laws.ts'
import { anyLoad } from '../../core/circuit/needs.ts'
import { is } from '../../core/circuit/test.ts'

/** The mouth of a whistle: no other kind is drawn so. */
export const whistleFigure = bodyFigure(20, { d: 'M-20 -8H20V8H-4A12 12 0 1 1 -20 8z', style: 'paper' })

/**
 * A kind that exists only here: a load that sounds from half of its rated current, and contacts that close or open with
 * its sound. Nothing outside this file knows of it.
 */
export const whistleKind = kind({
  word: 'whistle',
  title: 'Whistle',
  example: 'whistle W1 "Steam whistle" 120 V 12 W\n  contact alarm 3-4 closed while sounding',
  named: 'shared',
  round: 2,
  tags: true,
  ratings: loadRatings,
  clauses: loadClauses,
  children: { contact: { named: true, tags: true, clauses: { closed: phraseForm('while sounding', 'while silent') } } },
  read(line, to) {
    const body = loadElement(line, to, { figure: whistleFigure, works: 0.5, weak: 0.8 })
    const contacts = line.children.flatMap((c) => {
      const [tags] = c.tags
      const { closed } = c.clauses
      if (!tags) to.tell('no-tags', c.head, `${line.name}:${c.name}`, `contact ${c.name}`)
      if (!tags || !closed) return []
      return element(line, to, tags, {
        name: c.name,
        role: 'contact',
        laws: lawWhen(is(line.name, [closed === 'while silent' ? 'silent' : 'sounding']), CONTACT),
        figure: contactFigure('hand'),
        note: closed,
      })
    })
    const loads = addPart(line, to, [body, ...contacts]).filter((e) => e.role === 'load')
    const sounds = anyLoad(
      loads.map((e) => e.id),
      body.load?.works ?? 1,
    )
    to.actor({
      name: line.name,
      part: line.name,
      states: ['silent', 'sounding'],
      sense: { by: 'needs', to: sounds, stay: sounds },
    })
  },
})
