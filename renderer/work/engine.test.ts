import { expect, test, vi } from 'vitest'
import { createStore, type StoreApi } from 'zustand/vanilla'
import { invariant } from '../../core/netlist/index.ts'
import { twoHeaters } from '../store/bench.fixture.ts'
import { opened, put } from '../store/reduce.ts'
import { type Bench, emptyBench } from '../store/state.ts'
import type { Clerk, Outcome } from './clerk.ts'
import { type Drawer, type Reader, startEngine } from './engine.ts'
import { createReader, type ReaderAnswer, type ReaderJob } from './reader.ts'

interface Asked<Job, Answer> {
  readonly lane: string
  readonly job: Job
  readonly settle: (outcome: Outcome<Answer>) => void
}

/** A clerk whose jobs wait until the test lets them be answered. */
function slowClerk<Job, Answer>(): Clerk<Job, Answer> & { readonly asked: Asked<Job, Answer>[] } {
  const asked: Asked<Job, Answer>[] = []
  return {
    asked,
    ask: (lane, job) => new Promise((settle) => asked.push({ lane, job, settle })),
    cancel: () => undefined,
    close: () => undefined,
  }
}

function engine() {
  const store = createStore<Bench>(() => emptyBench('light'))
  const reader: Reader & { asked: Asked<ReaderJob, ReaderAnswer>[] } = slowClerk()
  const drawer: Drawer & { asked: Asked<unknown, never>[] } = slowClerk()
  const read = createReader()
  return {
    store,
    reader,
    drawer,
    stop: startEngine(store, reader, drawer),
    /** Answers all that was asked of the reader, and what follows from it, until nothing is left. */
    async readAll() {
      for (;;) {
        const next = reader.asked.shift()
        if (!next) return
        next.settle({ kind: 'answer', value: read(next.job) })
        await vi.advanceTimersByTimeAsync(0)
      }
    },
  }
}

const open = (store: StoreApi<Bench>, text: string) => store.setState(opened(store.getState(), { kind: 'new' }, text))

vi.useFakeTimers()

test('a text that is opened is read, drawn, and worked out in every position of its dial', async () => {
  const { store, drawer, readAll } = engine()
  open(store, twoHeaters)
  await vi.advanceTimersByTimeAsync(0)
  await readAll()
  const { shown, traces, trace, given } = store.getState()
  expect(shown?.text).toBe(twoHeaters)
  expect(traces.size).toBe(3)
  expect(trace?.setting.dial).toBe('both')
  expect(given).toEqual({ dial: 'both' })
  expect(drawer.asked).toHaveLength(1)
})

test('a burst of typing is read once, and an answer about older text is not shown', async () => {
  const { store, reader } = engine()
  await vi.advanceTimersByTimeAsync(200)
  reader.asked.length = 0
  for (const text of ['u', 'un', 'unit']) store.setState({ text })
  await vi.advanceTimersByTimeAsync(200)
  expect(reader.asked.map(({ job }) => job.text)).toEqual(['unit'])
  store.setState({ text: 'unit "A"' })
  reader.asked[0]?.settle({ kind: 'answer', value: createReader()({ kind: 'read', text: 'unit' }) })
  await vi.advanceTimersByTimeAsync(0)
  expect(store.getState().read?.text).not.toBe('unit')
})

test('a comment is read, and neither drawn nor worked out again', async () => {
  const { store, reader, drawer, readAll } = engine()
  open(store, twoHeaters)
  await vi.advanceTimersByTimeAsync(0)
  await readAll()
  store.setState({ text: `# typed\n${twoHeaters}` })
  await vi.advanceTimersByTimeAsync(200)
  expect(reader.asked.map(({ lane }) => lane)).toEqual(['read'])
  await readAll()
  expect(reader.asked).toEqual([])
  expect(drawer.asked).toHaveLength(1)
})

test('a position that was worked out already is on show at once', async () => {
  const { store, readAll } = engine()
  open(store, twoHeaters)
  await vi.advanceTimersByTimeAsync(0)
  await readAll()
  const dial = store.getState().shown?.circuit.controls.get('dial')
  invariant(dial, 'there is a dial')
  store.setState(put(store.getState(), dial, 'one'))
  expect(store.getState().trace?.setting.dial).toBe('one')
})

test('a crash is said, and the setting that caused it is not asked again and again', async () => {
  const { store, reader } = engine()
  open(store, twoHeaters)
  await vi.advanceTimersByTimeAsync(0)
  const read = createReader()
  let traces = 0
  for (let next = reader.asked.shift(); next; next = reader.asked.shift()) {
    if (next.job.kind === 'read') next.settle({ kind: 'answer', value: read(next.job) })
    else {
      traces++
      next.settle({ kind: 'crash', message: 'broken promise' })
    }
    await vi.advanceTimersByTimeAsync(0)
  }
  expect(traces).toBeLessThanOrEqual(4)
  expect(store.getState().note).toMatchObject({ kind: 'trouble' })
  expect(store.getState().note?.text).toContain('Working out this setting stopped unexpectedly (broken promise).')
})
