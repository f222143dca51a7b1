import { readFileSync } from 'node:fs'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { parse, statements } from '../netlist/index.ts'
import { wiringOf } from '../operate/index.ts'
import { type Circuit, catalogue, type Element, polesOf, type Reading, readCircuit } from './index.ts'
import { problem } from './messages.ts'
import type { Clause, Needs, Temperature } from './model.ts'
import { clausesIn } from './needs.ts'
import { celsius } from './temperature.ts'

const demo = (name: string): string =>
  readFileSync(new URL(`../../schematics-demo/${name}.circuit`, import.meta.url), 'utf8')
const dryer = demo('bench-dryer')
const texts = [dryer, demo('one-string-heater'), catalogue.map(({ example }) => example).join('\n')]

/** What is not consistent in a reading of `text`; empty where all is well. */
function inconsistencies(text: string, { circuit, problems }: Reading): readonly string[] {
  const wrong: string[] = []
  const claim = (holds: boolean, what: string): void => {
    if (!holds) wrong.push(what)
  }
  const { supplies, controls, areas, zones, parts, elements, actors, terminals } = circuit
  const behind = new Set(polesOf(circuit).map((pole) => pole.behind))
  const asked: (readonly [who: string, clauses: readonly Clause[]])[] = []
  const isDegrees = (t: Temperature | undefined): boolean => t === undefined || Number.isFinite(t.value)
  /** Who waits for needs waits for loads that are there, by shares that can be. */
  const checkNeeds = (who: string, needs: Needs): void => {
    for (const need of needs.flat()) {
      if ('is' in need) continue
      claim(elements.get(need.load)?.load !== undefined, `${who} waits for ${need.load}, which is no load`)
      claim(need.share > 0 && need.share <= 1, `${who} waits for ${need.share} of ${need.load}`)
    }
    asked.push([who, clausesIn(needs)])
  }
  for (const [id, e] of elements) {
    claim(id === e.id, `${id} is listed as ${e.id}`)
    claim(e.ends[0] !== e.ends[1], `${id} is joined to itself`)
    for (const end of e.ends) claim(terminals.has(end) !== behind.has(end), `${id} ends at ${end}, which is not there`)
    const first = e.throwOf === undefined ? undefined : elements.get(e.throwOf)
    claim(
      e.throwOf === undefined || (first?.part === e.part && first.ends[0] === e.ends[0] && first !== e),
      `${id} is a throw of nothing`,
    )
    if (e.coupled) {
      const { primary, ratio, amps } = e.coupled
      claim(elements.get(primary)?.role === 'load' && e.role === 'source', `${id} is fed by ${primary}`)
      claim(Number.isFinite(ratio) && ratio > 0 && Number.isFinite(amps) && amps > 0, `${id} gives ${ratio}, ${amps}`)
    }
    claim(e.at.from >= 0 && e.at.from < e.at.to && e.at.to <= text.length, `${id} stands nowhere`)
    if (e.role === 'wire') claim(e.part === '' && e.id === e.ends.join('~'), `${id} is an odd wire`)
    else claim(parts.get(e.part)?.elements.includes(id) === true, `${id} belongs to no part`)
    for (const { law, when } of e.laws) {
      const numbers = law.kind === 'path' ? [law.ohms] : law.kind === 'capacitance' ? [law.farads] : [law.re, law.dc]
      claim(
        numbers.every((n) => Number.isFinite(n) && n > 0),
        `${id} has ${numbers} ohms`,
      )
      claim(law.kind !== 'impedance' || Number.isFinite(law.im), `${id} has an odd reactance`)
      asked.push([id, when.flat()])
    }
    if (e.load) {
      const { volts, works, weak, holds = works, advances } = e.load
      claim(Number.isFinite(volts) && works > 0 && weak >= works && holds > 0 && holds <= works, `${id} works oddly`)
      claim(advances === undefined || controls.has(advances), `${id} turns ${advances}, which is not there`)
    }
  }
  const pairs = [...elements.values()].filter((e) => e.role === 'wire').map((e) => e.ends.toSorted().join('~'))
  claim(new Set(pairs).size === pairs.length, 'a wire is there twice')
  for (const [name, part] of parts) {
    claim(name === part.name, `${name} is listed as ${part.name}`)
    claim(new Set(part.elements).size === part.elements.length, `${name} has an element twice`)
    for (const id of part.elements) claim(elements.get(id)?.part === name, `${name} has ${id}, which is not there`)
    for (const t of part.terminals) claim(terminals.has(t), `${name} has ${t}, which is not there`)
    claim(part.area === undefined || areas.has(part.area), `${name} is in no area`)
    claim(!controls.has(name), `${name} is a control too`)
  }
  for (const [name, { states, sense, part }] of actors) {
    claim(part === '' || parts.has(part), `${name} belongs to no part`)
    claim(new Set(states).size === states.length && !controls.has(name), `${name} moves oddly`)
    switch (sense.by) {
      case 'needs':
        checkNeeds(name, [...sense.to, ...sense.stay])
        for (const seconds of [sense.toSeconds, sense.backSeconds]) {
          claim(seconds === undefined || (Number.isFinite(seconds) && seconds >= 0), `${name} moves after ${seconds} s`)
        }
        break
      case 'heat':
        claim(zones.has(sense.zone), `${name} senses no zone`)
        for (const { when, up, down } of sense.points) {
          checkNeeds(name, when)
          claim(isDegrees(up) && isDegrees(down), `${name} moves at no temperature`)
          const apart = down === undefined || celsius(down) < celsius(up)
          claim(apart || problems.length > 0, `${name} comes back where it left`)
        }
        break
      case 'current':
        claim(Number.isFinite(sense.amps) && sense.amps > 0, `${name} opens at ${sense.amps} A`)
        for (const id of sense.elements) claim(elements.has(id), `${name} senses ${id}, which is not there`)
        break
      case 'sequence':
        for (const [state, ways] of Object.entries(sense.ways)) {
          claim(states.includes(state), `${name} leaves ${state}, which it has not`)
          for (const { to, when, after } of ways) {
            claim(states.includes(to), `${name} goes to ${to}, which it has not`)
            claim(Number.isFinite(after) && after >= 0, `${name} goes on after ${after} s`)
            checkNeeds(name, when)
          }
        }
    }
  }
  const names = supplies.map((supply) => supply.name)
  claim(new Set(names).size === names.length, 'two supplies have one name')
  for (const { name, hertz, poles, breaker } of supplies) {
    claim(parts.has(name) && poles.length > 1 && hertz >= 0 && breaker !== 0, `${name} supplies oddly`)
    for (const { terminal, re, im } of poles) {
      claim(terminals.has(terminal) && Number.isFinite(re) && Number.isFinite(im), `${terminal} is an odd pole`)
    }
  }
  claim(behind.size === polesOf(circuit).length, 'two poles have one source')
  for (const [name, { positions, normally, momentary = {} }] of controls) {
    claim(positions.includes(normally) && new Set(positions).size === positions.length, `${name} has odd positions`)
    const lets = Object.entries(momentary).flat()
    claim(
      lets.every((p) => positions.includes(p)),
      `${name} springs from or to ${lets}`,
    )
  }
  for (const [name, { warmsWith, airflow, normal, blocked }] of zones) {
    claim(isDegrees(normal) && isDegrees(blocked), `${name} settles at no temperature`)
    checkNeeds(name, warmsWith)
    claim(airflow === undefined || actors.has(airflow), `${name} has no such airflow`)
  }
  for (const [name, area] of areas) {
    let outer: string | undefined = name
    for (let steps = 0; outer !== undefined && steps <= areas.size; steps++) outer = areas.get(outer)?.after
    claim(outer === undefined && (area.after === undefined || areas.has(area.after)), `${name} is never opened`)
  }
  // A condition speaks of what is there, or something has been told: of it, or of the line that should have brought it.
  for (const [who, clauses] of asked) {
    for (const { of, in: states } of clauses) {
      const known = controls.get(of)?.positions ?? actors.get(of)?.states
      claim(known !== undefined || problems.length > 0, `${who} waits for ${of}, and nobody knows`)
      const odd = states.filter((state) => known?.includes(state) === false)
      claim(odd.length === 0 || problems.length > 0, `${who} waits for ${of}=${odd}`)
    }
  }
  for (const { code, from, to, message, hint } of problems) {
    claim(from >= 0 && from <= to && to <= text.length, `${code} is told of ${from}…${to}`)
    claim(/[.?]$/.test(message) && /[.?]$/.test(hint), `${code} says “${message}” “${hint}”`)
  }
  claim(
    problems.every((p, i) => (problems[i - 1]?.from ?? 0) <= p.from),
    'problems are not in the order of the text',
  )
  return wrong
}

/** Reads, and throws with what is inconsistent. */
function check(text: string): Reading {
  const reading = readCircuit(text)
  const wrong = inconsistencies(text, reading)
  if (wrong.length > 0) throw new Error(`${wrong.join('; ')} in\n${text}`)
  return reading
}

/** And builds the network, which refuses what it could not be solved with. */
const checkWired = (text: string): void => void wiringOf(check(text).circuit)

/** Words of the language and what people type between them. */
const fragment = fc.oneof(
  { weight: 4, arbitrary: fc.constantFrom(...catalogue.map(({ word }) => word)) },
  { weight: 4, arbitrary: fc.constantFrom(...catalogue.flatMap((kind) => Object.keys(kind.clauses))) },
  {
    weight: 3,
    arbitrary: fc.constantFrom(
      ...catalogue.flatMap(({ children }) =>
        Object.entries(children).flatMap(([word, { clauses }]) => [word, ...Object.keys(clauses)]),
      ),
    ),
  },
  {
    weight: 6,
    arbitrary: fc.constantFrom(
      ...'H1 M S1 X1 CS DS T supply breaker chassis dial door drum box top constructor toString __proto__ valueOf'.split(
        ' ',
      ),
      ...'A-B 1-2 C-NO DS.C-2 1-S1 S1-S1 M.1 H1.2 supply.L1 supply.N chassis .1 M. A.B.C 1- "−"-2 S1.'.split(' '),
      ...'chart winding contact main start x o off low high shut by with to else when and at from speed rest back'.split(
        ' ',
      ),
      ...'15 A|240 V|3600 W|0 ohm|-5 ohm|91 C|196 °F|60 %|900 %|99999999999999999999 W|0.00000000001 V|15|5,4 W|3 kw'.split(
        '|',
      ),
      ...'BK WH/RD RDD / "a label" "open > , = # " “curly” split-phase dial=off door=shut, = , > #'.split(' '),
    ),
  },
  { weight: 1, arbitrary: fc.string({ maxLength: 6 }) },
)
const gap = fc.constantFrom(' ', ' ', ' ', ' ', '  ', '\n', '\n', '\n  ', '\n    ', ',', '=', ' > ', '\t')
const babble = fc
  .array(fc.tuple(fragment, gap), { maxLength: 60 })
  .map((pieces) => pieces.map(([word, space]) => word + space).join(''))

/** A text with a few stretches of it cut out, doubled or replaced. */
const mutated = fc
  .tuple(
    fc.constantFrom(...texts),
    fc.array(fc.tuple(fc.nat(), fc.nat({ max: 40 }), fc.option(fragment), fc.boolean()), {
      minLength: 1,
      maxLength: 8,
    }),
  )
  .map(([text, changes]) =>
    changes.reduce((now, [place, length, word, twice]) => {
      const from = place % (now.length + 1)
      const cut = now.slice(from, from + length)
      return now.slice(0, from) + (word ?? '') + (twice ? cut : '') + now.slice(from + length)
    }, text),
  )

/** A text with some of its words exchanged for others of the language. */
const exchanged = fc
  .tuple(fc.constantFrom(...texts), fc.array(fc.tuple(fc.nat(), fc.nat()), { minLength: 1, maxLength: 30 }))
  .map(([text, changes]) => {
    const tokens = parse(text).netlist.lines.flatMap((line) => line.tokens)
    const words = tokens.map(({ from, to }) => text.slice(from, to))
    const now = [...words]
    for (const [at, other] of changes) now[at % now.length] = words[other % words.length] ?? ''
    let kept = 0
    let result = ''
    for (const [i, { from, to }] of tokens.entries()) {
      result += text.slice(kept, from) + now[i]
      kept = to
    }
    return result + text.slice(kept)
  })

describe('any text is a circuit', { timeout: 120_000 }, () => {
  it('[C1] holds together in every text of words of the language', () => {
    fc.assert(fc.property(babble, checkWired), { seed: 20, numRuns: 3000 })
  })

  it('[C1] holds together in every text that was changed', () => {
    fc.assert(fc.property(mutated, checkWired), { seed: 21, numRuns: 2000 })
  })

  it('[C1] holds together in every text with words exchanged', () => {
    fc.assert(fc.property(exchanged, checkWired), { seed: 24, numRuns: 2000 })
  })

  it('[C1] holds together at every letter that is typed', () => {
    let most = 0
    for (let to = 0; to <= dryer.length; to++) most = Math.max(most, check(dryer.slice(0, to)).problems.length)
    expect(most).toBeGreaterThan(0)
    expect(check(dryer).problems).toEqual([])
  })

  it('[C1] keeps every part above the place of typing', () => {
    const partLines = statements(parse(dryer).netlist).filter(({ line }) =>
      /^(heater|cutoff|lamp)/.test(line.tokens[0]?.text ?? ''),
    )
    expect(partLines.length).toBeGreaterThan(4)
    for (const { line } of partLines) {
      const name = line.tokens[1]
      if (!name) throw new Error('a part has a name')
      // From its name on, the part and its element are there, however far its line has come.
      for (let to = name.to; to <= line.to; to++) {
        const { circuit } = check(dryer.slice(0, to))
        expect(circuit.parts.get(name.text)?.elements.length, dryer.slice(line.from, to)).toBe(1)
      }
    }
  })

  it('[C1] holds together without any one line, and without any one word', () => {
    const { lines } = parse(dryer).netlist
    const without = ({ from, to }: { readonly from: number; readonly to: number }) =>
      dryer.slice(0, from) + dryer.slice(to)
    for (const line of lines) {
      check(without({ from: line.from, to: Math.min(line.to + 1, dryer.length) }))
      for (const token of line.tokens) check(without(token))
    }
  })

  it('[C1] takes time in proportion to the text', () => {
    const text = (n: number) =>
      Array.from({ length: n }, (_, i) => `lamp L${i} 10 W at 120 V\nwire L${i}.1 L${i === 0 ? 0 : i - 1}.2 “x`).join(
        '\n',
      )
    const timeOf = (n: number): number => {
      const typed = text(n)
      const begin = performance.now()
      readCircuit(typed)
      return performance.now() - begin
    }
    const small = Math.min(...[1, 2, 3].map(() => timeOf(500)))
    const large = Math.min(...[1, 2, 3].map(() => timeOf(4000)))
    // Eight times the text, with room for a busy machine; a square would be 64 times.
    expect(large).toBeLessThan(30 * small + 50)
  })
})

describe('order', { timeout: 120_000 }, () => {
  const blocks = (text: string): readonly string[] => {
    const { netlist } = parse(text)
    const heads = netlist.lines.filter(({ depth, tokens }) => depth === 0 && tokens.length > 0).map(({ from }) => from)
    return heads.map((from, i) => text.slice(from, heads[i + 1]).trimEnd())
  }

  it.each(texts.map((text, i) => [i, text] as const))(
    '[C2] lines of text %i in any order are the same circuit',
    (_, text) => {
      const lines = blocks(text)
      const expected = inOneOrder(readCircuit(text).circuit)
      fc.assert(
        fc.property(fc.shuffledSubarray([...lines], { minLength: lines.length }), (shuffled) => {
          const { circuit, problems } = readCircuit(shuffled.join('\n'))
          expect(problems).toEqual([])
          expect(inOneOrder(circuit)).toEqual(expected)
        }),
        { seed: 22, numRuns: 100 },
      )
    },
  )

  it('[C2] lines in any order have the same problems', () => {
    const faulty = [
      ...blocks(dryer),
      'fuse F9 blows',
      'wire BK F9.1 F8.2',
      'switch D9 when lid=shut',
      'cutoff T9 opens 91 C zone bx',
      'control knob',
      'cycle-switch C9 turned by knob',
      'zone Z9 warms with DS',
    ]
    const told = (text: string) =>
      readCircuit(text).problems.map((p) => `${p.code} ${p.message} ${text.slice(p.from, p.to)}`)
    const expected = told(faulty.join('\n')).toSorted()
    expect(expected.length).toBeGreaterThan(5)
    fc.assert(
      fc.property(fc.shuffledSubarray(faulty, { minLength: faulty.length }), (shuffled) => {
        expect(told(shuffled.join('\n')).toSorted()).toEqual(expected)
      }),
      { seed: 23, numRuns: 100 },
    )
  })
})

/** A circuit without its places in the text, and with everything in one order. */
function inOneOrder(circuit: Circuit): unknown {
  const elementOf = ({ at: _, ...e }: Element) => e
  const sorted = <T>(map: ReadonlyMap<string, T>) => [...map].toSorted(([a], [b]) => (a < b ? -1 : 1))
  return {
    ...circuit,
    controls: sorted(circuit.controls).map(([, { at: _, ...control }]) => control),
    areas: sorted(circuit.areas),
    zones: sorted(circuit.zones),
    parts: sorted(circuit.parts).map(([, { at: _, ...part }]) => part),
    elements: sorted(circuit.elements).map(([, e]) => elementOf(e)),
    actors: sorted(circuit.actors),
    terminals: [...circuit.terminals].toSorted(),
  }
}

describe('problems', () => {
  it('carry their code, place and severity', () => {
    const at = { from: 3, to: 9 }
    expect(problem('wired-twice', at, 'A.1', 'B.1')).toMatchObject({ ...at, code: 'wired-twice', severity: 'warning' })
    expect(problem('no-positions', at, 'dial')).toMatchObject({ ...at, code: 'no-positions', severity: 'error' })
  })
})
