import type { StoreApi } from 'zustand/vanilla'
import type { Bench } from '../store/state.ts'
import { createClerk } from './clerk.ts'
import type { DrawerAnswer, DrawerJob } from './drawer.ts'
import { busyWith, DRAWER_LANES, READER_LANES, startEngine } from './engine.ts'
import type { ReaderAnswer, ReaderJob } from './reader.ts'

export interface Workers {
  /** Stops what takes too long. */
  cancel(): void
  close(): void
}

/** Puts workers behind the bench. */
export function startWorkers(store: StoreApi<Bench>): Workers {
  const onSlow = (lane: string | null) => {
    // Looking at the other positions of the dial keeps nobody waiting once there is something on show.
    const idle = lane === 'survey' && store.getState().trace !== null
    store.setState({ busy: idle ? null : busyWith(lane) })
  }
  const reader = createClerk<ReaderJob, ReaderAnswer>(
    () => new Worker(new URL('./reader.worker.ts', import.meta.url), { type: 'module' }),
    { lanes: READER_LANES, onSlow },
  )
  const drawer = createClerk<DrawerJob, DrawerAnswer>(
    () => new Worker(new URL('./drawer.worker.ts', import.meta.url), { type: 'module' }),
    { lanes: DRAWER_LANES, onSlow },
  )
  const stop = startEngine(store, reader, drawer)
  return {
    cancel() {
      reader.cancel()
      drawer.cancel()
    },
    close() {
      stop()
      reader.close()
      drawer.close()
    },
  }
}
