/** The part of a Worker that a clerk needs. */
export interface WorkerLike {
  postMessage(message: unknown): void
  terminate(): void
  onmessage: ((event: MessageEvent) => void) | null
  onerror: ((event: ErrorEvent) => void) | null
  onmessageerror: ((event: MessageEvent) => void) | null
}

/** What a worker sends back: the answer, or the words of a bug of ours. */
export type Sent<Answer> =
  | { readonly ok: true; readonly value: Answer }
  | { readonly ok: false; readonly message: string }

export type Outcome<Answer> =
  | { readonly kind: 'answer'; readonly value: Answer }
  /** A later job of the same lane took its place, or it was cancelled. */
  | { readonly kind: 'dropped' }
  /** The worker died, or the job met a bug of ours. The next job finds a worker again. */
  | { readonly kind: 'crash'; readonly message: string }

/** Hands jobs to a worker, one at a time. Of each lane only the latest waits; earlier lanes go first. */
export interface Clerk<Job, Answer> {
  ask(lane: string, job: Job): Promise<Outcome<Answer>>
  /** Drops what waits and stops what runs, by ending the worker. */
  cancel(): void
  close(): void
}

interface Waiting<Job, Answer> {
  readonly job: Job
  readonly settle: (outcome: Outcome<Answer>) => void
}

export interface ClerkOptions {
  /** Most urgent first. */
  readonly lanes: readonly string[]
  /** Told the lane of a job that has run for `after` ms, and null when it ends. */
  readonly onSlow?: (lane: string | null) => void
  readonly after?: number
}

export function createClerk<Job, Answer>(
  spawn: () => WorkerLike,
  { lanes, onSlow, after = 500 }: ClerkOptions,
): Clerk<Job, Answer> {
  const waiting = new Map<string, Waiting<Job, Answer>>()
  let running: Waiting<Job, Answer> | undefined
  let timer: ReturnType<typeof setTimeout> | undefined
  let slow = false
  let worker: WorkerLike | undefined = hire()

  function hire(): WorkerLike {
    const hired = spawn()
    hired.onmessage = ({ data }: MessageEvent<Sent<Answer>>) => {
      finish(data.ok ? { kind: 'answer', value: data.value } : { kind: 'crash', message: data.message })
    }
    hired.onerror = (event) => {
      event.preventDefault?.()
      hired.terminate()
      // The next job hires another: one that cannot even start must not be started over and over.
      worker = undefined
      finish({ kind: 'crash', message: event.message ?? '' })
    }
    hired.onmessageerror = () => finish({ kind: 'crash', message: 'an answer could not be carried over' })
    return hired
  }

  function finish(outcome: Outcome<Answer>) {
    clearTimeout(timer)
    if (slow) onSlow?.(null)
    slow = false
    const done = running
    running = undefined
    done?.settle(outcome)
    next()
  }

  function next() {
    if (running) return
    for (const lane of lanes) {
      const first = waiting.get(lane)
      if (!first) continue
      waiting.delete(lane)
      running = first
      timer = setTimeout(() => {
        slow = true
        onSlow?.(lane)
      }, after)
      worker ??= hire()
      worker.postMessage(first.job)
      return
    }
  }

  function dropWaiting() {
    for (const { settle } of waiting.values()) settle({ kind: 'dropped' })
    waiting.clear()
  }

  return {
    ask: (lane, job) =>
      new Promise((settle) => {
        waiting.get(lane)?.settle({ kind: 'dropped' })
        waiting.set(lane, { job, settle })
        next()
      }),
    cancel() {
      dropWaiting()
      if (!running) return
      worker?.terminate()
      worker = undefined
      finish({ kind: 'dropped' })
    },
    close() {
      dropWaiting()
      clearTimeout(timer)
      worker?.terminate()
      running?.settle({ kind: 'dropped' })
      running = undefined
    },
  }
}
