import { describe, expect, it } from 'vitest'
import type { Setting } from '../../core/circuit/index.ts'
import { operate } from '../../core/operate/index.ts'
import { machineOf } from '../../core/strings/machine.fixture.ts'

/**
 * T. R. Kuphaldt, Lessons in Electric Circuits, volume IV, Digital, chapter on ladder logic: permissive and interlock
 * circuits, motor control circuits, fail-safe design. What the book says of each circuit is checked over every state of
 * its switches. Coil and lamp ratings are ours; the book gives none.
 */

const supply = 'supply single-phase 120 V 60 Hz'

/** Every setting of the controls, each of two positions. */
const allOf = (controls: Readonly<Record<string, readonly [string, string]>>): readonly Setting[] =>
  Object.entries(controls).reduce<readonly Setting[]>(
    (rows, [name, positions]) => rows.flatMap((row) => positions.map((position) => ({ ...row, [name]: position }))),
    [{}],
  )

describe('permissive chain: all four switches have to be closed before the light is green', () => {
  const controls = {
    low: ['under', 'over'],
    high: ['under', 'over'],
    air: ['low', 'enough'],
    damper: ['shut', 'open'],
  } as const
  const { set } = machineOf(
    supply,
    ...Object.entries(controls).map(([name, positions]) => `control ${name} ${positions.join(', ')}`),
    'pressure-switch PSL "Low fuel pressure"  when low=over',
    'pressure-switch PSH "High fuel pressure" when high=under',
    'sail-switch     FS  "Minimum air flow"   when air=enough',
    'switch          LS  "Damper"             when damper=open',
    'relay CR1',
    '  coil A1-A2 120 V 2 kohm',
    '  contact 1-2 closed when in',
    '  contact 3-4 closed when out',
    'lamp GREEN 5 W at 120 V',
    'lamp RED   5 W at 120 V',
    'run supply.L > PSL > PSH > FS > LS > CR1.A1',
    'wire CR1.A2 supply.N',
    'wire supply.L CR1.1 CR1.3',
    'run CR1.2 > GREEN > supply.N',
    'run CR1.4 > RED > supply.N',
  )
  const permitted = { low: 'over', high: 'under', air: 'enough', damper: 'open' }
  const rows = allOf(controls)
  it('has sixteen rows, of which one is green and all others are red', () => {
    expect(rows).toHaveLength(16)
    for (const row of rows) {
      const all = Object.entries(permitted).every(([name, position]) => row[name] === position)
      expect(set(row).on, JSON.stringify(row)).toEqual(all ? ['CR1:coil', 'GREEN:1-2'] : ['RED:1-2'])
    }
  })
  it('is one string to the coil, which the green light waits for and the red one must not have', () => {
    const { load } = set(permitted)
    expect(load('CR1:coil').mustBeClosed).toEqual(['PSL:1-2', 'PSH:1-2', 'FS:1-2', 'LS:1-2'])
    expect(load('GREEN:1-2').enablers).toEqual(['CR1:coil'])
    expect(set({ ...permitted, air: 'low' }).load('RED:1-2').mustRest).toEqual(['CR1:coil'])
  })
})

describe('reversing starter: each direction locks the other out', () => {
  const { set } = machineOf(
    supply,
    'control stop released, held springs back',
    'control fwd  released, held springs back',
    'control rev  released, held springs back',
    'button STOP when stop=released',
    'button FWD  when fwd=held',
    'button REV  when rev=held',
    ...['M1', 'M2'].flatMap((name) => [
      `contactor ${name}`,
      '  coil A1-A2 120 V 30 VA',
      '  contact 13-14 closed when in',
      '  contact 21-22 closed when out',
    ]),
    'overload OL trips 6 A',
    '  contact 95-96 closed when closed',
    'run supply.L > STOP',
    'wire STOP.2 FWD.1 REV.1 M1.13 M2.13',
    'wire FWD.2 M1.14 M2.21',
    'wire M2.22 M1.A1',
    'wire REV.2 M2.14 M1.21',
    'wire M1.22 M2.A1',
    'wire M1.A2 M2.A2 OL.95',
    'wire OL.96 supply.N',
  )
  const at = (...presses: readonly string[]) => {
    const sequence = presses.map((press) => {
      const [control = '', position = ''] = press.split(' ')
      return { control, position }
    })
    const { states } = set({}, { sequence })
    return [states('M1').at(-1), states('M2').at(-1)].map((state) => state === 'in')
  }
  it.each([
    [[], [false, false]],
    [['fwd held'], [true, false]],
    [
      ['fwd held', 'fwd released'],
      [true, false],
    ],
    [
      ['rev held', 'rev released'],
      [false, true],
    ],
    [
      ['fwd held', 'fwd released', 'rev held'],
      [true, false],
    ],
    [
      ['fwd held', 'rev held'],
      [true, false],
    ],
    [
      ['fwd held', 'fwd released', 'stop held'],
      [false, false],
    ],
    [
      ['fwd held', 'fwd released', 'stop held', 'stop released'],
      [false, false],
    ],
    [
      ['fwd held', 'fwd released', 'stop held', 'stop released', 'rev held', 'rev released'],
      [false, true],
    ],
    [
      ['stop held', 'fwd held'],
      [false, false],
    ],
  ])('%j leaves forward and reverse %j', (presses, expected) => expect(at(...presses)).toEqual(expected))
  it('an overload stops either, and neither starts', () => {
    const tripped = (control: string) =>
      set({}, { forced: { OL: 'tripped' }, sequence: [{ control, position: 'held' }] }).on
    expect([tripped('fwd'), tripped('rev')]).toEqual([[], []])
  })
  it('holds itself in: stop, seal, interlock and overload must be closed, the button only to start', () => {
    const forward = set({ rev: 'released', stop: 'released' }).load('M1:coil')
    expect(forward.mustBeClosed).toEqual(['STOP:1-2', 'M1:13-14', 'M2:21-22', 'OL:95-96'])
    expect(forward).toMatchObject({ holdsItself: true, toStart: ['FWD:1-2'], mustRest: ['M2:coil'] })
  })
})

describe('fail-safe alarm: four switches in series hold the relay, and the siren sounds when it drops out', () => {
  const controls = {
    s1: ['rest', 'actuated'],
    s2: ['rest', 'actuated'],
    s3: ['rest', 'actuated'],
    s4: ['rest', 'actuated'],
  } as const
  const names = Object.keys(controls)
  const { circuit, set } = machineOf(
    supply,
    ...names.flatMap((name) => [`control ${name} rest, actuated`, `switch ${name.toUpperCase()} when ${name}=rest`]),
    'relay CR1',
    '  coil A1-A2 120 V 2 kohm',
    '  contact 1-2 closed when out',
    'buzzer SIREN 120 V 10 W',
    'run supply.L > S1 > S2 > S3 > S4 > CR1.A1',
    'wire CR1.A2 supply.N',
    'run CR1.1 > supply.L',
    'run CR1.2 > SIREN > supply.N',
  )
  const sounds = (setting: Setting, opened: readonly string[] = []) => {
    const run = operate(circuit, setting, { opened: new Set(opened) })
    return run.phases[0]?.conditions.CR1 === 'out' && set(setting, { opened: new Set(opened) }).on.includes('SIREN:1-2')
  }
  it('sounds when any switch is actuated, and only then', () => {
    for (const row of allOf(controls)) {
      expect(sounds(row), JSON.stringify(row)).toBe(names.some((name) => row[name] === 'actuated'))
    }
  })
  it('sounds when any wire of its loop breaks, or the coil', () => {
    const loop = [...circuit.elements.values()].filter(
      (e) => e.role === 'wire' && e.ends.some((end) => /^(S[1-4]|CR1\.A)/.test(end)),
    )
    expect(loop).toHaveLength(6)
    for (const wire of loop) expect(sounds({}, [wire.id]), wire.id).toBe(true)
    expect(sounds({}, ['CR1:coil'])).toBe(true)
    expect(sounds({})).toBe(false)
  })
  it('has just those wires and switches in the string of its coil', () => {
    const coil = set().load('CR1:coil')
    expect(coil.mustBeClosed).toEqual(['S1:1-2', 'S2:1-2', 'S3:1-2', 'S4:1-2'])
    expect(coil.wires).toHaveLength(6)
  })
})
