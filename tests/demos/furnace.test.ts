import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { machineOf } from '../../core/strings/machine.fixture.ts'

const text = readFileSync('schematics-demo/furnace.circuit', 'utf8')
const { set } = machineOf(text)
const heat = set({ call: 'heat' })
/** The steps of the sequence that a story tells, with the seconds before each. */
const steps = (story: readonly string[]) =>
  story.flatMap((told) => {
    const [, seconds, step] = /^(?:([\d.]+ s) later: )?(?:.*, )?CB:heat ([a-z]+(?: \d)?)(?=[:,]|$)/.exec(told) ?? []
    return step === undefined ? [] : [seconds === undefined ? step : `${step} after ${seconds}`]
  })

describe('a call for heat', () => {
  it('goes through its steps; seconds are those since the event before', () => {
    expect(steps(heat.story)).toEqual([
      'check',
      'purge',
      'ignite after 15 s',
      'trial after 2 s',
      'warm after 4 s',
      'run after 10 s',
    ])
    expect(heat.states('CB:heat')).toEqual(['run'])
    expect(heat.states('B')).toEqual(['lit'])
  })
  it('tells what happens in between in this order', () => {
    const order = ['IM at speed: PS closes', 'IG on', 'IG hot', 'GV on', 'GV open', 'B lit', 'IG off', 'BM:main on']
    const places = order.map((what) => heat.story.findIndex((told) => told.includes(what)))
    expect(places).not.toContain(-1)
    expect(places).toEqual(places.toSorted((a, b) => a - b))
  })
  it('runs the blower on for 90 seconds when the call ends', () => {
    const { story, states } = set({ call: 'heat' }, { sequence: [{ control: 'call', position: 'none' }] })
    const ended = story.slice(story.indexOf('call none') + 1)
    expect(steps(ended)).toEqual(['cool', 'idle after 90 s'])
    expect(states('B')).toEqual(['out'])
    expect(ended.slice(-2)).toEqual(['BM:main off', 'BM at rest'])
  })
})

describe('without a flame', () => {
  const none = set({ call: 'heat', gas: 'shut' })
  it('tries three times, then locks out', () => {
    const once = (n: string) => [`ignite${n} after 15 s`, `trial${n} after 2 s`, `retry${n} after 4 s`]
    expect(steps(none.story)).toEqual([
      'check',
      'purge',
      ...once(''),
      'purge 2 after 5 s',
      ...once(' 2'),
      'purge 3 after 5 s',
      ...once(' 3'),
      'lockout after 5 s',
    ])
    expect(none.states('CB:heat')).toEqual(['lockout'])
    expect(none.story.filter((told) => told === 'GV on')).toHaveLength(3)
  })
  it('stays locked out until the call ends', () => {
    const again = (...positions: readonly string[]) =>
      set(
        { call: 'heat', gas: 'shut' },
        { sequence: positions.map((p) => ({ control: p === 'open' ? 'gas' : 'call', position: p })) },
      ).states('CB:heat')
    expect(again('open')).toEqual(['lockout'])
    expect(again('open', 'none', 'heat')).toEqual(['run'])
  })
  it('counts a flame that goes out as a try', () => {
    const lost = set({ call: 'heat' }, { sequence: [{ control: 'gas', position: 'shut' }] })
    expect(lost.states('CB:heat')).toEqual(['lockout'])
    expect(steps(lost.story).filter((step) => step.startsWith('trial'))).toHaveLength(3)
  })
})

describe('strings', () => {
  it('the gas valve: fuse, limit, rollout, pressure switch and board, behind them the transformer and the inducer', () => {
    const valve = heat.load('GV:1-2')
    expect(valve.mustBeClosed).toEqual(['F1:link', 'HL:1-2', 'RO:1-2', 'PS:1-2', 'CB:GAS'])
    expect(valve.poles).toEqual(['T1.R', 'T1.C'])
    expect(valve.enablers).toEqual(expect.arrayContaining(['T1:primary', 'CB:power', 'CB:W', 'CB:LIM', 'IM:main']))
  })
  it('the igniter, which is on for 17 seconds only', () => {
    const igniter = heat.load('IG:1-2')
    expect(igniter).toMatchObject({ on: true, mustBeClosed: ['DS:1-2', 'CB:IGN'], poles: ['L', 'N'] })
  })
  it('the blower, by the fan call or the sequence', () => {
    const fan = set({ call: 'fan' })
    expect(fan.load('BM:main')).toMatchObject({ on: true, mustBeClosed: ['DS:1-2', 'CB:FAN', 'BM:overload'] })
    expect(fan.load('BM:main').enablers).toContain('CB:G')
    expect(heat.load('BM:main')).toMatchObject({ on: true, mustBeClosed: ['DS:1-2', 'CB:FAN', 'BM:overload'] })
  })
  it('with the blower door off nothing runs', () => {
    const off = set({ call: 'heat', panel: 'open' })
    expect(off.on).toEqual([])
    expect(off.load('T1:primary').heldOpen).toEqual([{ element: 'DS:1-2', reason: 'panel open' }])
  })
})

describe('what stops it', () => {
  it('a blocked vent: the inducer runs, the purge waits for its air, and that is said', () => {
    const blocked = set({ call: 'heat', vent: 'blocked' })
    expect(blocked.on).toContain('IM:main')
    expect(blocked.on).not.toContain('IG:1-2')
    expect(blocked.story.at(-1)).toBe('CB:heat waits at purge for CB:AIR on')
  })
  it('a pressure switch that is closed with the inducer standing: it does not begin', () => {
    const bridged = machineOf(text, 'wire PS.1 PS.2').set({ call: 'heat' })
    expect(bridged.on).not.toContain('IM:main')
    expect(bridged.story.at(-1)).toBe('CB:heat waits at check for CB:AIR off')
  })
  it('an open low-voltage fuse: the transformer hums on, nothing else', () => {
    expect(set({ call: 'heat' }, { forced: { F1: 'blown' } }).on).toEqual(['T1:primary'])
  })
  it('an open igniter: no flame, lockout', () => {
    expect(set({ call: 'heat' }, { opened: new Set(['IG:1-2']) }).states('CB:heat')).toEqual(['lockout'])
  })
  it('an open limit: no heat, and the blower runs', () => {
    const open = set({ call: 'heat' }, { forced: { HL: 'hot' } })
    expect(open.on).toContain('BM:main')
    expect(open.on).not.toContain('IM:main')
    expect(open.on).not.toContain('GV:1-2')
    expect(set({ call: 'none' }).on).not.toContain('BM:main')
  })
  it('a blower that stands still: the limit opens at 93 °C, closes at 71 °C, and it begins again', () => {
    const still = set({ call: 'heat' }, { opened: new Set(['BM:main']) })
    expect(heat.states('HL')).toEqual(['cold'])
    expect(still.story).toEqual(expect.arrayContaining(['93 °C: HL opens', '71 °C: HL closes']))
    expect(still.states('RO')).not.toContain('blown')
    const begins = steps(still.story).filter((step) => step.startsWith('check'))
    expect(begins.length).toBeGreaterThanOrEqual(2)
  })
  it('a blower without its capacitor hums until its overload opens, and the limit does the rest', () => {
    const hums = set({ call: 'heat' }, { opened: new Set(['C1:1-2']) })
    expect(hums.on).not.toContain('BM:main')
    expect(hums.states('BM:overload')[0]).toBe('tripped')
    expect(hums.states('breaker')[0]).toBe('on')
    expect(hums.states('HL')).toContain('hot')
  })
})
