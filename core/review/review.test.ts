import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { readCircuit } from '../circuit/index.ts'
import { allProblems, type ReviewCode, reviewCircuit } from './index.ts'
import { messages } from './messages.ts'
import { rowsOf } from './rows.ts'

/** A heater that nothing is odd about; the cases change a line of it. */
const sound = {
  unit: 'unit "Heater" model "demo only"',
  supply: 'supply split-phase 240 V 60 Hz by cord breaker 20 A',
  knob: 'control knob off, on',
  zone: 'zone box warms with H1 normal 90 C',
  switch: 'switch SW 1-2 when knob=on',
  thermostat: 'thermostat OT opens 60 C closes 50 C zone box',
  cutoff: 'cutoff TC opens 110 C zone box',
  heater: 'heater H1 2000 W at 240 V',
  feed: 'run BK supply.L1 > SW > OT > TC > H1',
  back: 'run RD H1.2 > supply.L2',
  ground: 'wire GNYE supply.G chassis',
}
/** A feed of its own: a stretch behind the heater's switch would be fed back through the heater. */
const ownSwitch = ['switch S9 when knob=on', 'wire supply.L1 S9.1']
type Lines = typeof sound
const heater = (changed: Partial<Lines>, ...more: readonly string[]): string =>
  [...Object.values({ ...sound, ...changed }), ...more].filter((line) => line !== '').join('\n')

/** A motor that a heater waits for. */
const motor = ['motor M 120 V 5 A start 22 A', '  winding main 4-5 2.4 ohm', '  contact heat 1-2 closed at speed']

/** A text in which the place of the only problem stands between « and »; and one much like it without any. */
const cases: Readonly<Record<ReviewCode, readonly (readonly [string, string, string])[]>> = {
  'loose-terminal': [
    ['a heater with one wire', heater({ heater: '«heater H1 2000 W at 240 V»', back: '' }), heater({})],
    [
      'a link that leads on to nothing, at its tags',
      heater({}, 'cutoff T2 «A-B» opens 120 C zone box', 'wire H1.1 T2.A'),
      heater({}, 'cutoff T2 A-B opens 120 C zone box'),
    ],
    [
      'a contact of a motor, where its spare side is none',
      heater(
        {},
        ...motor.slice(0, 2),
        '  contact heat «1-2» closed at speed',
        'wire H1.2 M.1',
        ...ownSwitch,
        'wire S9.2 M.4',
        'wire M.5 supply.N',
      ),
      heater({}, 'changeover DS C to NO when knob=on else NC', 'wire H1.2 DS.C', 'wire DS.NO supply.L2'),
    ],
  ],
  'never-fed': [
    [
      'contacts that are never closed together',
      heater(
        { heater: '«heater H1 2000 W at 240 V»', switch: 'switch SW when knob=on' },
        'switch S2 when knob=off',
      ).replace('> OT', '> S2 > OT'),
      heater({}, 'switch S2 when knob=on').replace('> OT', '> S2 > OT'),
    ],
    [
      'a motor that stands, where it may be that its wires are still to come',
      heater(
        { heater: '«heater H1 2000 W at 240 V»', back: 'run H1.2 > M.1' },
        ...motor,
        'wire M.2 supply.L2',
        'switch S3 when knob=off',
        'run supply.L1 > S3 > M.4',
        'wire M.5 supply.N',
      ),
      heater({ back: 'run H1.2 > M.1' }, ...motor, 'wire M.2 supply.L2'),
    ],
    [
      'a lamp that two contacts keep dark, where another waits for heat that never comes in use',
      heater(
        {},
        'switch S2 when knob=off',
        'lamp LP «A-B» 5 W at 120 V',
        ...ownSwitch,
        'run S9.2 > S2 > LP > supply.N',
      ),
      heater(
        {},
        'thermostat AT closes 105 C opens 95 C zone box',
        'lamp LP A-B 5 W at 120 V',
        ...ownSwitch,
        'run S9.2 > AT > LP > supply.N',
      ),
    ],
  ],
  'always-on': [
    [
      'a heater that goes around its switch',
      heater({ heater: '«heater H1 2000 W at 240 V»', feed: 'run BK supply.L1 > OT > TC > H1' }),
      heater({ unit: '', feed: 'run BK supply.L1 > OT > TC > H1' }),
    ],
    [
      'a lamp, where a spring-back control is all there is',
      heater({}, 'lamp LP «1-2» 10 W at 120 V', 'run supply.L1 > LP > supply.N'),
      heater({ knob: 'control knob off, on springs back', switch: 'switch SW when knob=off' }),
    ],
  ],
  'dead-short': [
    [
      'a switch from leg to leg',
      heater({}, 'switch S2 «A-B» when knob=on', 'run supply.L1 > S2 > supply.L2'),
      heater({}, 'switch S2 A-B when knob=on', 'run supply.L1 > S2 > supply.L1'),
    ],
    [
      'a wire from leg to neutral',
      heater({}, 'wire supply.L1 «supply.N»'),
      heater({}, 'splice SP', 'wire supply.L1 SP'),
    ],
  ],
  'in-no-zone': [
    [
      'a thermostat, told once for all',
      heater({ thermostat: '«thermostat OT opens 60 C closes 50 C»', cutoff: 'cutoff TC opens 110 C' }),
      heater({ unit: '', thermostat: 'thermostat OT opens 60 C closes 50 C', cutoff: 'cutoff TC opens 110 C' }),
    ],
  ],
  'nothing-warms': [
    ['a zone with devices', heater({ zone: '«zone box normal 90 C»' }), heater({}, 'zone top normal 90 C')],
  ],
  unprotected: [
    [
      'a second heater that goes around the cutoff',
      heater(
        { zone: 'zone box warms with H1, H2 normal 90 C' },
        'heater H2 «A-B» 900 W at 240 V',
        'run OT.2 > H2 > supply.L2',
      ),
      heater(
        { zone: 'zone box warms with H1, H2 normal 90 C' },
        'heater H2 A-B 900 W at 240 V',
        'run TC.2 > H2 > supply.L2',
      ),
    ],
    [
      'a cutoff beside the motor that the heater does not wait for',
      heater(
        { feed: 'run BK supply.L1 > SW > OT > H1', heater: '«heater H1 2000 W at 240 V»' },
        ...motor,
        ...ownSwitch,
        'run S9.2 > TC > M.4',
        'wire M.5 supply.N',
      ),
      heater(
        { feed: 'run BK supply.L1 > SW > OT > H1', back: 'wire H1.2 M.1' },
        ...motor,
        ...ownSwitch,
        'run S9.2 > TC > M.4',
        'wire M.5 supply.N',
        'wire M.2 supply.L2',
      ),
    ],
    [
      'a thermostat, where nothing opens for good',
      heater(
        { cutoff: '', feed: 'run BK supply.L1 > SW > H1', heater: '«heater H1 2000 W at 240 V»' },
        'lamp LP 5 W at 120 V',
        ...ownSwitch,
        'run S9.2 > OT > LP > supply.N',
      ),
      heater({ cutoff: '', feed: 'run BK supply.L1 > SW > OT > H1' }),
    ],
  ],
  'swapped-temperatures': [
    [
      'a thermostat that closes on rise before its own heater',
      heater({ thermostat: 'thermostat OT «opens 50 C» closes 60 C zone box' }),
      heater(
        {},
        'thermostat FT opens 40 C closes 55 C zone box',
        'lamp LP 5 W at 120 V',
        ...ownSwitch,
        'run S9.2 > FT > LP > supply.N',
      ),
    ],
  ],
  'celsius-or-fahrenheit': [
    [
      'a thermostat above the cutoff of its zone',
      heater({ thermostat: 'thermostat OT «opens 200 C» closes 180 C zone box' }),
      heater({ thermostat: 'thermostat OT opens 200 F closes 180 F zone box' }),
    ],
    [
      'a cutoff far above all else',
      heater({ cutoff: 'cutoff TC «opens 352 C» zone box' }),
      heater({ cutoff: 'cutoff TC opens 152 C zone box' }),
    ],
  ],
  'too-many-volts': [
    [
      'a lamp across both legs',
      heater({}, 'lamp LP «A-B» 5 W at 120 V', ...ownSwitch, 'run S9.2 > LP > supply.L2'),
      heater({}, 'lamp LP A-B 5 W at 120 V', ...ownSwitch, 'run S9.2 > LP > supply.N'),
    ],
  ],
  'too-few-volts': [
    [
      'a heater on one leg',
      heater({ back: 'run WH H1.2 > supply.N', heater: '«heater H1 2000 W at 240 V»' }),
      heater({}, 'lamp LP 5 W at 120 V', 'resistor R1 2 kohm', ...ownSwitch, 'run S9.2 > LP > R1 > supply.N'),
    ],
  ],
  'small-breaker': [
    [
      'a heater that trips it, where it may be loaded fully',
      heater({ supply: 'supply split-phase 240 V 60 Hz by cord «breaker 5 A»' }),
      heater({ supply: 'supply split-phase 240 V 60 Hz by cord breaker 8.33 A' }),
    ],
    [
      'a heater that overloads it',
      heater({ supply: 'supply split-phase 240 V 60 Hz by cord «breaker 8 A»' }),
      heater({ supply: 'supply split-phase 240 V 60 Hz by cord' }),
    ],
  ],
  'small-fuse': [
    [
      'a fuse in the string of a heater',
      heater({}, 'fuse F1 «blows 5 A»').replace('> OT', '> F1 > OT'),
      heater({}, 'fuse F1 blows 15 A').replace('> OT', '> F1 > OT'),
    ],
  ],
  'fuse-in-degrees': [
    [
      'a fuse that heat opens',
      heater({ cutoff: 'fuse TC opens «110 C» zone box' }),
      heater({ cutoff: 'cutoff TC opens 110 C zone box' }),
    ],
    ['with the word of a fuse', heater({ cutoff: 'fuse TC blows «110 C»' }), heater({ cutoff: 'fuse TC blows 110 A' })],
  ],
  'cutoff-in-amps': [
    [
      'a cutoff that current opens',
      heater({ cutoff: 'cutoff TC blows «15 A»' }),
      heater({ cutoff: 'fuse TC blows 15 A' }),
    ],
  ],
  'no-ground': [
    [
      'a unit without a ground wire',
      heater({ ground: '', supply: '«supply split-phase 240 V 60 Hz by cord breaker 20 A»' }),
      heater({ ground: '', unit: '' }),
    ],
    [
      'a unit whose chassis is wired to a switch',
      heater(
        { ground: 'switch S8 when knob=on', supply: '«supply split-phase 240 V 60 Hz by cord breaker 20 A»' },
        'run supply.G > S8 > chassis',
      ),
      heater({ ground: 'wire supply.N chassis' }),
    ],
  ],
  'strap-and-ground': [
    [
      'a strap beside a ground wire',
      heater({}, 'wire supply.N «chassis»'),
      heater({ ground: '' }, 'wire supply.N chassis'),
    ],
  ],
}

describe('a review finds', () => {
  const rows = Object.entries(cases).flatMap(([code, own]) =>
    own.map(([name, odd, sane]) => ({ code, name, odd, sane })),
  )
  it.each(rows)('$code: $name', ({ code, odd, sane }) => {
    const from = odd.indexOf('«')
    const to = odd.indexOf('»') - 1
    const text = odd.replace('«', '').replace('»', '')
    expect(from, 'a place is marked').toBeGreaterThanOrEqual(0)
    const problems = allProblems(text, readCircuit(text))
    expect(problems.map((p) => [p.code, text.slice(p.from, p.to)])).toEqual([[code, text.slice(from, to)]])
    expect(problems.map((p) => p.from)).toEqual([from])
    expect(allProblems(sane, readCircuit(sane)).map((p) => `${p.code}: ${p.message}`)).toEqual([])
  })

  it('and every code has a case', () => {
    expect(Object.keys(cases).toSorted()).toEqual(Object.keys(messages).toSorted())
  })
})

describe('a review', () => {
  const demos = readdirSync('schematics-demo').filter((f) => f.endsWith('.circuit'))
  it.each(demos)('finds nothing odd about %s', (file) => {
    const text = readFileSync(`schematics-demo/${file}`, 'utf8')
    expect(allProblems(text, readCircuit(text)).map((p) => `${p.code}: ${p.message}`)).toEqual([])
  })

  it('says nothing about a string typed alone, at any moment of typing it', () => {
    const lines = heater({
      unit: '',
      zone: '',
      ground: '',
      thermostat: 'thermostat OT opens 60 C closes 50 C',
      cutoff: 'cutoff TC opens 110 C',
    }).split('\n')
    for (let n = 0; n <= lines.length; n++) {
      const text = lines.slice(0, n).join('\n')
      const told = allProblems(text, readCircuit(text)).filter((p) => p.code !== 'loose-terminal')
      expect(told, text).toEqual([])
    }
  })

  it('is not made of a text with errors', () => {
    const text = heater({ back: 'run RD H1.2 > supply.L3', ground: '' })
    expect(allProblems(text, readCircuit(text)).map((p) => p.code)).toEqual(['unknown-terminal'])
  })

  it('gives the place of the part where it is not told the text', () => {
    const text = heater({ thermostat: 'thermostat OT opens 50 C closes 60 C zone box' })
    const [one] = reviewCircuit(readCircuit(text).circuit)
    expect(one && text.slice(one.from, one.to)).toBe('thermostat OT opens 50 C closes 60 C zone box')
  })

  it('names the poles of a short, what joins them, and the setting', () => {
    const text = heater({}, 'switch S2 when knob=on', 'run supply.L1 > S2 > supply.L2')
    expect(allProblems(text, readCircuit(text))[0]?.message).toBe(
      'With knob=on, supply.L1 and supply.L2 are joined with no load between, through S2.',
    )
  })
})

describe('rows', () => {
  const controls = (...sizes: readonly number[]) =>
    readCircuit(
      sizes.map((n, k) => `control c${k} ${Array.from({ length: n }, (_, i) => `p${i}`).join(', ')}`).join('\n'),
    ).circuit
  it('are all there are, up to the cap', () => {
    const { rows, all } = rowsOf(controls(3, 2), 6)
    expect(all).toBe(true)
    expect(new Set(rows.map((r) => JSON.stringify(r))).size).toBe(6)
  })
  it.each([[[8, 8, 8, 8]], [[2, 2, 2, 2, 2, 2, 2, 2, 2, 2, 2, 2]], [[7, 3, 11, 5, 2, 2]]])(
    'beyond it are spread over %j: each two positions of two controls meet',
    (sizes) => {
      const { rows, all } = rowsOf(controls(...sizes), 512)
      expect(all).toBe(false)
      expect(rows.length).toBeLessThanOrEqual(512)
      const met = new Set(
        rows.flatMap((row) =>
          sizes.flatMap((_, i) =>
            sizes.slice(i + 1).map((__, k) => `${i}${row[`c${i}`]} ${i + k + 1}${row[`c${i + k + 1}`]}`),
          ),
        ),
      )
      const pairs = sizes.reduce((n, a, i) => n + sizes.slice(i + 1).reduce((m, b) => m + a * b, 0), 0)
      expect(met.size).toBe(pairs)
    },
  )
})
