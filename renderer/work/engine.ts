import type { StoreApi } from 'zustand/vanilla'
import type { Setting } from '../../core/circuit/index.ts'
import { mainControl, moved, settingKey } from '../store/circuit.ts'
import { onShow, wasDrawn, wasRead, wasTraced } from '../store/reduce.ts'
import type { Bench, Busy, Read } from '../store/state.ts'
import type { Clerk, Outcome } from './clerk.ts'
import type { DrawerAnswer, DrawerJob } from './drawer.ts'
import type { ReaderAnswer, ReaderJob } from './reader.ts'

/** A pause in typing, ms, after which the text is read. */
const PAUSE = 120

export type Reader = Clerk<ReaderJob, ReaderAnswer>
export type Drawer = Clerk<DrawerJob, DrawerAnswer>

/** Lanes of the reader, most urgent first: the text, the present setting, the other positions of the dial. */
export const READER_LANES = ['read', 'trace', 'survey'] as const
export const DRAWER_LANES = ['draw'] as const

export const busyWith = (lane: string | null): Busy | null =>
  lane === null ? null : lane === 'read' ? 'reading' : lane === 'draw' ? 'drawing' : 'working out'

/**
 * Keeps what the bench shows in step with its text and its setting: reads, draws, works out, in workers. Returns the
 * function that ends it; the clerks stay their owner's.
 */
export function startEngine(store: StoreApi<Bench>, reader: Reader, drawer: Drawer): () => void {
  let pause: ReturnType<typeof setTimeout> | undefined
  let surveying = false
  /** Settings of the present circuit that crashed their worker: asked once. */
  let hopeless = new Set<string>()
  let drawnFor: string | undefined

  const tellCrash = (what: string, outcome: Extract<Outcome<unknown>, { kind: 'crash' }>) => {
    const why = outcome.message ? ` (${outcome.message})` : ''
    store.setState({
      note: {
        kind: 'trouble',
        text: `${what} stopped unexpectedly${why}. It was started again; your text is safe. Change a line to try again.`,
      },
    })
  }

  async function read() {
    const { text } = store.getState()
    const outcome = await reader.ask('read', { kind: 'read', text })
    if (outcome.kind === 'crash') return tellCrash('Reading the netlist', outcome)
    if (outcome.kind === 'dropped' || outcome.value.kind !== 'read') return
    if (outcome.value.read.text === store.getState().text) store.setState(wasRead(store.getState(), outcome.value.read))
  }

  async function draw({ text, print }: Read) {
    drawnFor = print
    const { plan } = store.getState()
    const outcome = await drawer.ask('draw', { text, ...(plan && { previous: plan.plan }) })
    if (outcome.kind === 'crash') return tellCrash('Drawing', outcome)
    if (outcome.kind === 'answer' && store.getState().shown?.print === print) {
      store.setState(wasDrawn(print, outcome.value))
    }
  }

  async function trace(lane: 'trace' | 'survey', { text, print, circuit }: Read, given: Setting): Promise<void> {
    const outcome = await reader.ask(lane, { kind: 'trace', text, given })
    if (outcome.kind === 'crash') {
      hopeless.add(settingKey(circuit, given))
      return tellCrash('Working out this setting', outcome)
    }
    if (outcome.kind === 'answer' && outcome.value.kind === 'trace') {
      store.setState(wasTraced(store.getState(), print, given, outcome.value.trace))
    }
  }

  /** One position of the dial after another, so that whatever is more urgent gets in between. */
  async function survey() {
    if (surveying) return
    surveying = true
    for (;;) {
      const { shown, given, traces } = store.getState()
      if (!shown) break
      const main = mainControl(shown.circuit)
      const next = main?.positions
        .map((position) => moved(given, main, position))
        .find((setting) => {
          const key = settingKey(shown.circuit, setting)
          return !traces.has(key) && !hopeless.has(key)
        })
      if (!next) break
      const before = store.getState()
      await trace('survey', shown, next)
      const after = store.getState()
      // Cancelled: leave it until something changes.
      if (after.traces === before.traces && after.shown === before.shown && after.given === before.given) break
    }
    surveying = false
  }

  function follow(now: Bench, before: Bench | undefined) {
    if (now.text !== before?.text) {
      clearTimeout(pause)
      pause = setTimeout(read, now.handed === before?.handed ? PAUSE : 0)
    }
    const { shown } = now
    if (!shown) return
    const changed = shown.print !== before?.shown?.print
    if (changed) {
      hopeless = new Set()
      if (drawnFor !== shown.print || now.plan?.print !== shown.print) void draw(shown)
    }
    if (changed || now.given !== before?.given) {
      const key = settingKey(shown.circuit, now.given)
      if (now.traces.has(key)) {
        const shows = onShow(now)
        if (shows.trace) store.setState(shows)
      } else if (!hopeless.has(key)) {
        void trace('trace', shown, now.given)
      }
      void survey()
    }
  }

  const stop = store.subscribe(follow)
  follow(store.getState(), undefined)
  return () => {
    clearTimeout(pause)
    stop()
  }
}
