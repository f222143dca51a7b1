import { expect, test, vi } from 'vitest'
import { createClerk, type WorkerLike } from './clerk.ts'

/** A worker whose answers the test gives. */
function fakeWorkers() {
  const all: (WorkerLike & { jobs: unknown[]; ended: boolean })[] = []
  const spawn = () => {
    const worker: (typeof all)[number] = {
      jobs: [],
      ended: false,
      postMessage(job) {
        worker.jobs.push(job)
      },
      terminate() {
        worker.ended = true
      },
      onmessage: null,
      onerror: null,
      onmessageerror: null,
    }
    all.push(worker)
    return worker
  }
  const now = () => {
    const worker = all.at(-1)
    if (!worker) throw new Error('no worker was hired')
    return worker
  }
  return {
    all,
    spawn,
    now,
    answer: (value: unknown) => now().onmessage?.(new MessageEvent('message', { data: { ok: true, value } })),
  }
}

const lanes = ['urgent', 'idle']

test('a job is answered', async () => {
  const workers = fakeWorkers()
  const clerk = createClerk<string, number>(workers.spawn, { lanes })
  const answer = clerk.ask('urgent', 'one')
  workers.answer(1)
  expect(await answer).toEqual({ kind: 'answer', value: 1 })
})

test('of one lane only the latest waits; the ones it replaced are told', async () => {
  const workers = fakeWorkers()
  const clerk = createClerk<string, number>(workers.spawn, { lanes })
  const first = clerk.ask('urgent', 'one')
  const second = clerk.ask('urgent', 'two')
  const third = clerk.ask('urgent', 'three')
  expect(await second).toEqual({ kind: 'dropped' })
  workers.answer(1)
  workers.answer(3)
  expect(await first).toEqual({ kind: 'answer', value: 1 })
  expect(await third).toEqual({ kind: 'answer', value: 3 })
  expect(workers.now().jobs).toEqual(['one', 'three'])
})

test('an urgent lane goes before an idle one that waited longer', () => {
  const workers = fakeWorkers()
  const clerk = createClerk<string, number>(workers.spawn, { lanes })
  void clerk.ask('idle', 'running')
  void clerk.ask('idle', 'idle')
  void clerk.ask('urgent', 'urgent')
  workers.answer(0)
  workers.answer(0)
  expect(workers.now().jobs).toEqual(['running', 'urgent', 'idle'])
})

test('a bug in a job is told, and the worker goes on', async () => {
  const workers = fakeWorkers()
  const clerk = createClerk<string, number>(workers.spawn, { lanes })
  const bad = clerk.ask('urgent', 'bad')
  workers.now().onmessage?.(new MessageEvent('message', { data: { ok: false, message: 'broken promise' } }))
  expect(await bad).toEqual({ kind: 'crash', message: 'broken promise' })
  expect(workers.all).toHaveLength(1)
})

test('a worker that dies is told and replaced, and what waited is done', async () => {
  const workers = fakeWorkers()
  const clerk = createClerk<string, number>(workers.spawn, { lanes })
  const bad = clerk.ask('urgent', 'bad')
  const next = clerk.ask('idle', 'next')
  workers.now().onerror?.(new ErrorEvent('error', { message: 'out of memory' }))
  expect(await bad).toEqual({ kind: 'crash', message: 'out of memory' })
  expect(workers.all.map(({ ended }) => ended)).toEqual([true, false])
  workers.answer(2)
  expect(await next).toEqual({ kind: 'answer', value: 2 })
})

test('cancelling ends the worker and drops all jobs', async () => {
  const workers = fakeWorkers()
  const clerk = createClerk<string, number>(workers.spawn, { lanes })
  const jobs = [clerk.ask('urgent', 'runs'), clerk.ask('idle', 'waits')]
  clerk.cancel()
  expect(await Promise.all(jobs)).toEqual([{ kind: 'dropped' }, { kind: 'dropped' }])
  const next = clerk.ask('urgent', 'next')
  expect(workers.all.map(({ ended }) => ended)).toEqual([true, false])
  workers.answer(1)
  expect(await next).toEqual({ kind: 'answer', value: 1 })
})

test('a job that takes half a second is said to be slow until it ends', () => {
  vi.useFakeTimers()
  const workers = fakeWorkers()
  const said: (string | null)[] = []
  const clerk = createClerk<string, number>(workers.spawn, { lanes, onSlow: (lane) => said.push(lane) })
  void clerk.ask('idle', 'quick')
  vi.advanceTimersByTime(499)
  workers.answer(0)
  expect(said).toEqual([])
  void clerk.ask('idle', 'slow')
  vi.advanceTimersByTime(500)
  expect(said).toEqual(['idle'])
  workers.answer(0)
  expect(said).toEqual(['idle', null])
  vi.useRealTimers()
})

test('a worker that cannot start is not started over and over', async () => {
  const workers = fakeWorkers()
  const clerk = createClerk<string, number>(workers.spawn, { lanes })
  workers.now().onerror?.(new ErrorEvent('error', { message: 'not found' }))
  expect(workers.all).toHaveLength(1)
  const job = clerk.ask('urgent', 'one')
  expect(workers.all).toHaveLength(2)
  workers.now().onerror?.(new ErrorEvent('error', { message: 'not found' }))
  expect(await job).toEqual({ kind: 'crash', message: 'not found' })
  expect(workers.all).toHaveLength(2)
})
