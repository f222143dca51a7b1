import { catalogue } from '../../core/circuit/index.ts'
import { type ReadStatement, study } from '../../core/circuit/study.ts'
import { type Random, random } from './circuits.ts'

/**
 * Random netlists of every kind of line: made from the example of each kind, with other names and values, further clauses
 * and indented lines. What may stand in a line is taken from the kinds themselves, so that a new kind is in at once.
 */

/** A name that lines call each other by. */
interface Name {
  readonly names: 'shared' | 'area' | 'zone'
  readonly name: string
}
/** A stretch of a template that a name stands in. */
interface Slot extends Name {
  readonly from: number
  readonly to: number
}
interface Template {
  readonly kind: string
  readonly text: string
  /** Ascending. */
  readonly slots: readonly Slot[]
  readonly owns: readonly Name[]
}

const keyOf = ({ names, name }: Name): string => `${names} ${name}`
const namesOfKind = (word: string): Name['names'] => (word === 'area' || word === 'zone' ? word : 'shared')
const isFixed = (name: string): boolean => /^(supply|chassis|breaker)\b/.test(name)

/** A line or several with their names found: what any line looks up is written down as it is read. */
function templateOf(kind: string, text: string): Template {
  const { lines } = study(text)
  const slots = new Map<number, Slot>()
  const put = (names: Name['names'], name: string, from: number) => {
    if (!isFixed(name) && text.startsWith(name, from)) slots.set(from, { names, name, from, to: from + name.length })
  }
  for (const line of lines) {
    if (line.kind.named !== 'no') put(namesOfKind(line.kind.word), line.name, line.nameAt.from)
    for (const { names, name, from } of referencesOf(line, text)) put(names, name, from)
  }
  return {
    kind,
    text,
    slots: [...slots.values()].toSorted((a, b) => a.from - b.from),
    owns: lines.flatMap((l) => (l.kind.named === 'no' ? [] : [{ names: namesOfKind(l.kind.word), name: l.name }])),
  }
}

function referencesOf(line: ReadStatement, text: string): readonly (Name & { readonly from: number })[] {
  return line.references.flatMap((ref) => {
    if (ref.kind === 'name') return [{ names: ref.names, name: ref.name, from: ref.at.from }]
    if (ref.kind === 'place')
      return [{ names: 'shared' as const, name: ref.word.split('.')[0] ?? '', from: ref.at.from }]
    if (ref.kind !== 'tag' || !ref.tag.includes('.')) return []
    const name = ref.tag.split('.')[0] ?? ''
    return [...text.slice(ref.at.from, ref.at.to).matchAll(new RegExp(`(?<![A-Za-z0-9_])${name}\\.`, 'g'))].map(
      (m) => ({
        names: 'shared' as const,
        name,
        from: ref.at.from + m.index,
      }),
    )
  })
}

/** Other lines of a kind than its example, where clauses exclude each other. */
const INSTEAD: Readonly<Record<string, readonly string[]>> = {
  control: ['control mode "Mode" off, eco, full normally eco', 'control key "Key" off, on, start momentary start'],
  selector: [
    'selector SEL "Timer" turned by cam\n  bars 6 deg = 45 s\n  A-B closed 0..240, 252..354 deg\ncontrol cam "Timer" 0..354 deg by 6',
  ],
  'cycle-switch': [
    'cycle-switch CS "Timer" turned by cam\n  bars\n  A-B closed 0..240\n  A-C closed 6..90 deg\ncontrol cam "Timer" 0..354 deg by 6',
  ],
  'level-switch': [
    'level-switch LV "Water level switch" C-F closed by duct',
    'level-switch LV C to F when tub=full else E',
  ],
  'pressure-switch': ['pressure-switch PS C to NO when door=shut else NC', 'pressure-switch PS C-NO closed by duct'],
  'sail-switch': ['sail-switch SS C to NO when door=shut else NC', 'sail-switch SS C-NO closed by duct'],
  sensor: ['sensor NT "Oven sensor" rtd 1080 ohm zone box', 'sensor NT ntc 10 kohm B 3950 zone box'],
  supply: [
    'supply single-phase 120 V 60 Hz hard-wired breaker 15 A without ground',
    'supply two-leg 208 V by four-wire cord source 0.08 ohm ground 0.2 ohm',
  ],
  transformer: ['transformer T1 40 VA\n  primary 1-2 120 V 30 ohm\n  secondary 3-4 24 V 2 ohm loaded'],
  ...Object.fromEntries(
    ['relay', 'contactor'].map((word, i) => [
      word,
      [
        `${word} K${i + 1} area rear\n  coil A1-A2 at 24 V 200 ohm in 19 V out 8 V\n  contact C to NO when in else NC`,
        `${word} K${i + 1}\n  coil A1-A2 24 V 200 ohm in after 2 s\n  contact 1-2 closed when out`,
      ],
    ]),
  ),
}
/** Clauses that exclude others, or speak of their own line; they stand in examples and in what is instead of them. */
const APART =
  /^(area after|control .*|sensor (ntc|rtd|B)|(level|pressure|sail)-switch (to|when|closed|else)|supply .*)$/

type NameIn = (name: Name) => string
/** Lines under one of a kind, where its clauses alone do not say what may stand there. */
const UNDER: Readonly<Record<string, (r: Random, door: string) => readonly string[]>> = {
  'cycle-switch': (r) => chart(r, ['off', 'timed', 'cool-down']),
  selector: (r) => chart(r, ['off', 'timed', 'cool-down']),
  'manual-reset': () => ['pole A 1-2', 'pole B 3-4'],
  'oven-thermostat': (r) => [`at off ${250 + r.below(50)} C`],
  'energy-regulator': (r) => [`cycles ${r.pick(['L1-H1', 'L2-H2'])}`, 'switches L-H', 'pilot P-N', 'heater A-B 2 kohm'],
  'door-lock': (r) => [r.pick(['contact 1-2 closed when locked', 'contact C to 1 when locked else 2'])],
  valve: () => [
    'coil hold 1-2 120 V 1300 ohm',
    'coil boost 1-3 at 120 V 500 ohm',
    'opens with hold and boost stays open with hold',
  ],
  overload: (r) => ['through 1-2', r.pick(['contact 3-4 closed when closed', 'contact C to 1 when tripped else 2'])],
  assembly: (r) => [`capacitor CX L-N 0.${1 + r.below(9)} uF`, 'resistor RX L-N 1 Mohm'],
  board: (r, door) => [
    'input TT TT-C 24 V 1 kohm',
    `output FAN R-F when ${door}=shut`,
    'output GAS R-W',
    `sequence heat when ${door}=shut${r.chance(0.3) ? ' ends with purge' : ''}`,
    `  step purge  FAN ${10 + r.below(40)} s then trial`,
    `  step trial  FAN, GAS 4 s then run if ${door}=shut else retry`,
    `  step run    FAN, GAS until ${door}=open then retry`,
    '  step retry  FAN 5 s up to 3 tries then purge else lockout',
    '  step lockout',
  ],
}
/** Lines besides those of an example that has some. */
const MORE: Readonly<Record<string, readonly string[]>> = { motor: ['capacitor 8-9 8 uF', 'overload 6-7 5 A'] }

const chart = (r: Random, positions: readonly string[]): readonly string[] => [
  `chart  ${positions.join('  ')}`,
  ...['A-B', 'A-C', 'D-H'].map((tags) => {
    const label = r.chance(0.3) ? '  "contact"' : ''
    return `${tags}  ${positions.map(() => r.pick(['x', 'o'])).join('  ')}${label}`
  }),
]

const templates: readonly Template[] = catalogue.flatMap((k) =>
  [k.example, ...(INSTEAD[k.word] ?? [])].map((text) => templateOf(k.word, text)),
)
/** The first that brings a name. */
const templateOwning = new Map(templates.toReversed().flatMap((t) => t.owns.map((name) => [keyOf(name), t] as const)))
const kindOf = new Map(catalogue.map((k) => [k.word, k]))

/** A line for a name that no template brings: its states are those that a condition asks of it. */
function definitionOf(name: Name, asked: readonly string[]): string {
  if (name.names === 'area') return `area ${name.name} "${name.name}" 5 min`
  if (name.names === 'zone') return `zone ${name.name} warms with H1`
  return `control ${name.name} ${[...new Set([...asked, 'off', 'on'])].join(', ')}`
}

/** A netlist of six to fourteen kinds and all that their lines speak of. */
export function generateKinds(seed: number): string {
  const r = random(seed)
  const taken = new Map<string, string>()
  const known = new Set<string>()
  const given = new Map<string, string>()
  /** The name in this circuit. */
  const nameOf = (name: Name): string => {
    const key = keyOf(name)
    const now = given.get(key) ?? (r.chance(0.5) ? `${name.name}${r.below(90)}` : name.name)
    given.set(key, now)
    return now
  }
  const waiting: Template[] = Array.from({ length: 6 + r.below(9) }, () => r.pick(templates))
  // Where clauses are added that speak of such things, there are some.
  for (const word of ['supply', 'area', 'control', 'motor', 'heater', 'zone']) {
    const one = templates.find((t) => t.kind === word)
    if (one) waiting.push(one)
  }
  const blocks: string[] = []
  for (let template = waiting.shift(); template; template = waiting.shift()) {
    if (taken.has(template.text) || template.owns.some((name) => known.has(keyOf(name)))) continue
    taken.set(template.text, template.kind)
    for (const name of template.owns) known.add(keyOf(name))
    blocks.push(blockOf(template, nameOf, r))
    for (const slot of template.slots) {
      const key = keyOf(slot)
      if (known.has(key)) continue
      const other = templateOwning.get(key)
      if (other && other !== template) waiting.push(other)
      else {
        const asked = study(template.text).lines.flatMap((l) =>
          l.references.flatMap((ref) => (ref.kind === 'state' && ref.of === slot.name ? [ref.state] : [])),
        )
        waiting.push(templateOf('', definitionOf(slot, asked)))
      }
    }
  }
  return `${blocks.map((block) => `${block}${r.chance(0.1) ? '  # as on the sheet' : ''}${r.chance(0.1) ? '\n' : ''}`).join('\n')}\n`
}

/** The lines of a template, with the names of this circuit, values of their own, and more clauses and lines. */
function blockOf(template: Template, nameOf: NameIn, r: Random): string {
  let text = ''
  let at = 0
  for (const slot of template.slots) {
    text += template.text.slice(at, slot.from) + nameOf(slot)
    at = slot.to
  }
  text += template.text.slice(at)
  const kind = kindOf.get(template.kind)
  if (!kind) return text
  const [head = '', ...rest] = text.split('\n')
  const indented = rest.some((line) => line.startsWith(' '))
  const words = head.replaceAll(/"[^"]*"/g, '').split(/[\s,=]+/)
  const more = Object.entries(kind.clauses).flatMap(([clause, { form }]) => {
    if (words.includes(clause) || APART.test(`${kind.word} ${clause}`) || !r.chance(0.3)) return []
    if (clause === 'at' && / \d+ m?V/.test(head)) return []
    const value = valueFor(form, nameOf, r)
    return value === undefined ? [] : [`${clause} ${value}`.trimEnd()]
  })
  const door = nameOf({ names: 'shared', name: 'door' })
  const under = indented
    ? (MORE[kind.word] ?? []).filter(() => r.chance(0.4))
    : (UNDER[kind.word]?.(r, door) ?? childrenOf(kind, nameOf, r))
  const factor = 0.8 + r.below(41) / 100
  const named = Object.hasOwn(kind.clauses, 'at') && r.chance(0.4) ? head.replace(/(?<!at) (\d+ V)/, ' at $1') : head
  const varied = [named, ...more]
    .join(' ')
    .replaceAll(
      /(?<![\w.])(\d+(?:\.\d+)?) (W|V|A|ohm|kohm|C|VA|min)(?!\w)/g,
      (_, n, unit) => `${Number((Number(n) * (unit === 'V' ? 1 : factor)).toPrecision(3))} ${unit}`,
    )
  return [varied, ...rest, ...under.map((line) => `  ${line}`)].join('\n')
}

/** Indented lines of a kind that nobody has described here: each of its forms, with tags, a rating and clauses. */
function childrenOf(kind: (typeof catalogue)[number], nameOf: NameIn, r: Random): readonly string[] {
  return Object.entries(kind.children).map(([word, form], i) =>
    [
      word,
      form.named ? `e${i}` : '',
      form.tags ? `${2 * i + 1}-${2 * i + 2}` : '',
      form.ratings?.includes('ohms') ? '10 ohm' : '',
      ...Object.entries(form.clauses).map(
        ([clause, { form: value }]) => `${clause} ${valueFor(value, nameOf, r) ?? ''}`,
      ),
    ]
      .filter((part) => part !== '')
      .join(' ')
      .trimEnd(),
  )
}

/** The name of something of a sort that there is one of in every circuit. */
const SORTS: Readonly<Record<string, Name>> = {
  area: { names: 'area', name: 'rear' },
  zone: { names: 'zone', name: 'box' },
  airflow: { names: 'shared', name: 'duct' },
  motor: { names: 'shared', name: 'M' },
  heater: { names: 'shared', name: 'H1' },
  control: { names: 'shared', name: 'door' },
}

/** Something that a clause of this form takes; undefined where that cannot be told. */
function valueFor(form: string, nameOf: NameIn, r: Random): string | undefined {
  if (form === 'door=shut') return `${nameOf({ names: 'shared', name: 'door' })}=${r.pick(['shut', 'open'])}`
  const quoted = /`([^`]*)`/.exec(form)
  if (quoted) return quoted[1]?.replace(/^after.*/, '')
  if (form === 'by a drive or airflow' || form === 'by a drive')
    return `by ${nameOf({ names: 'shared', name: 'duct' })}`
  const options = form.split(' or ')
  if (options.length > 1) return r.pick(options)
  const [, lead = '', sort] = /^(?:(.*) )?an? ([a-z]+)$/.exec(form) ?? []
  if (sort === undefined) return form
  const name = SORTS[sort]
  return name && `${lead} ${nameOf(name)}`.trim()
}
