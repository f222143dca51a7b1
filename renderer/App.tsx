import './styles/fonts.css'
import './styles/tokens.css'
import './styles/base.css'
import './styles/shell.css'
import './styles/controls.css'
import './styles/netlist.css'
import './styles/drawing.css'
import './styles/string.css'
import './styles/dialogs.css'
import './styles/narrow.css'
import './styles/print.css'
import { useEffect, useLayoutEffect, useMemo, useRef, useState, useSyncExternalStore } from 'react'
import { createStore } from 'zustand/vanilla'
import { drawingCss } from '../core/drawing/index.ts'
import { Bench } from './bench/Bench.tsx'
import { type Handles, HandlesContext } from './bench/handles.ts'
import { NarrowBench } from './bench/NarrowBench.tsx'
import { StatusLine } from './bench/StatusLine.tsx'
import type { Client } from './bridge.ts'
import { Dialogs } from './dialogs/Dialogs.tsx'
import { listenToDrops } from './drops.ts'
import type { Editor } from './editor/createEditor.ts'
import { listenToKeys } from './keys.ts'
import { createActions } from './store/actions.ts'
import { BenchContext } from './store/context.ts'
import { createMemory } from './store/memory.ts'
import { isChanged } from './store/reduce.ts'
import { type Bench as BenchState, emptyBench } from './store/state.ts'
import { startWorkers, type Workers } from './work/start.ts'

// Ours from core, as the page's own sheet: the policy lets scripts add rules, and no <style> without its nonce.
const ink = new CSSStyleSheet()
ink.replaceSync(drawingCss)
document.adoptedStyleSheets.push(ink)

/** Below it the bench is one column, px. */
const NARROW = matchMedia('(max-width: 719px)')

/** The application: one store, its workers, and the bench over them. */
export function App({ client }: { readonly client: Client }) {
  const top = useMemo(() => {
    const memory = createMemory(localStorage, () => crypto.randomUUID(), Date.now)
    const dark = matchMedia('(prefers-color-scheme: dark)').matches
    const store = createStore<BenchState>(() =>
      emptyBench(memory.theme() ?? (dark ? 'dark' : 'light'), memory.symbols()),
    )
    return { store, actions: createActions(store, client, memory) }
  }, [client])
  const editor = useRef<Editor | null>(null)
  const drawing = useRef<Handles['drawing']['current']>(null)
  const handles = useMemo(() => ({ editor, drawing }), [])
  const [workers, setWorkers] = useState<Workers>()
  const narrow = useSyncExternalStore(
    (changed) => {
      NARROW.addEventListener('change', changed)
      return () => NARROW.removeEventListener('change', changed)
    },
    () => NARROW.matches,
  )

  useEffect(() => {
    const started = startWorkers(top.store)
    setWorkers(started)
    return () => started.close()
  }, [top])

  useEffect(() => {
    void top.actions.begin()
    return client.on('shelf.changed', () => void top.actions.refreshShelf())
  }, [client, top])

  useEffect(() => listenToKeys(top.actions, handles), [top, handles])
  useEffect(() => listenToDrops(top.actions), [top])

  // Before the first paint: a dark bench does not flash white.
  useLayoutEffect(() => {
    const follow = (bench: BenchState) => {
      document.documentElement.dataset.theme = bench.theme
      const title = bench.shown?.circuit.unit.title
      document.title = [isChanged(bench) && '•', title && `${title} ·`, 'Halfsplit'].filter(Boolean).join(' ')
    }
    follow(top.store.getState())
    return top.store.subscribe(follow)
  }, [top])

  return (
    <BenchContext value={top}>
      <HandlesContext value={handles}>
        {narrow ? <NarrowBench /> : <Bench />}
        <StatusLine cancel={() => workers?.cancel()} />
        <Dialogs />
      </HandlesContext>
    </BenchContext>
  )
}
