import type { StoreApi } from 'zustand/vanilla'
import type { Control, ElementId } from '../../core/circuit/index.ts'
import { EXTENSION, type Reply } from '../../core/requests/index.ts'
import type { Client } from '../bridge.ts'
import type { Memory } from './memory.ts'
import { chosen, isChanged, opened, ownerOf, put, replaced, stepped } from './reduce.ts'
import { minimalSheet } from './sheets.ts'
import type { Bench, Dialog, Note, Source } from './state.ts'

/** The demo of a first visit. */
const FIRST_DEMO = 'bench-dryer'

/** All that a person can do at the bench. */
export type Actions = ReturnType<typeof createActions>

export function createActions(store: StoreApi<Bench>, client: Client, memory: Memory) {
  const { getState: get, setState: set } = store
  const tell = (refusal: Extract<Reply, { ok: false }>['error']) =>
    set({ note: { kind: 'trouble', text: refusal.message } })

  const show = (source: Source, text: string) => {
    memory.turnOver()
    const left = memory.leftAt(source)
    set({ ...opened(get(), source, text), ...(left && { ...left, unset: false }) })
    memory.keepLast(source)
    set({ recovered: memory.drafts(source).find((draft) => draft.text !== text) ?? null })
  }

  const openEntry = async (kind: 'shelf' | 'demo', id: string): Promise<boolean> => {
    const reply = await client.call('shelf.open', { id, origin: kind })
    if (!reply.ok) {
      tell(reply.error)
      return false
    }
    const { text, revision } = reply.value
    show(kind === 'shelf' ? { kind, id, revision } : { kind, id }, text)
    return true
  }

  const keepLeftAt = () => {
    const { source, given, load } = get()
    memory.keepLeftAt(source, { given, load })
  }

  /** `text` now lies on the shelf under `id`; the text may have gone on since. */
  const saved = (id: string, revision: string, text: string) => {
    memory.dropDraft(get().source)
    const source: Source = { kind: 'shelf', id, revision }
    memory.keepLast(source)
    set({ source, savedText: text, dialog: null, note: { kind: 'done', text: `Saved as ${id}${EXTENSION}.` } })
    if (isChanged(get())) memory.keepDraft(source, get().text)
    keepLeftAt()
  }

  const saveOver = async (id: string, revision: string | null) => {
    const { text } = get()
    const reply = await client.call('shelf.save', { id, text, revision })
    if (reply.ok) return saved(id, reply.value.revision, text)
    if (reply.error.code === 'conflict') {
      return set({
        dialog: { kind: 'conflict', message: reply.error.message, theirs: reply.error.data.current },
      })
    }
    tell(reply.error)
  }

  const openDialog = (dialog: Dialog | null) => set({ dialog })
  const askName = () => openDialog({ kind: 'save-as', name: titleOf(get()) })

  /** Runs `then`, after asking where it would leave text that lies nowhere else. */
  const leaving = (then: () => void) => {
    if (isChanged(get())) openDialog({ kind: 'leave', then })
    else then()
  }

  return {
    /** The last circuit of this browser, else the demo of a first visit. */
    async begin() {
      await refreshShelf()
      const last = memory.last()
      if (last && (last.kind === 'new' || last.kind === 'file')) {
        const [draft] = memory.drafts(last)
        show(last, '')
        if (draft) return
      }
      if (last && (last.kind === 'shelf' || last.kind === 'demo') && (await openEntry(last.kind, last.id))) return
      const { note } = get()
      if (!(await openEntry('demo', FIRST_DEMO))) show({ kind: 'new' }, minimalSheet)
      if (note) set({ note })
    },

    refreshShelf,

    open: (kind: 'shelf' | 'demo', id: string) => leaving(() => void openEntry(kind, id)),
    openFile: (name: string, text: string) => leaving(() => show({ kind: 'file', name }, text)),
    openNew: (text: string) => leaving(() => show({ kind: 'new' }, text)),

    async save() {
      const { source } = get()
      if (source.kind === 'shelf') await saveOver(source.id, source.revision)
      else askName()
    },
    askName,
    async saveAs(name: string) {
      const { text } = get()
      const reply = await client.call('shelf.saveAs', { name, text })
      if (reply.ok) return saved(reply.value.id, reply.value.revision, text)
      const { error } = reply
      openDialog({
        kind: 'save-as',
        name,
        taken: error.message,
        ...(error.code === 'exists' && { free: error.data.free }),
      })
    },
    /** Overwrites what another program wrote. */
    async keepMine() {
      const { source, dialog } = get()
      if (source.kind !== 'shelf' || dialog?.kind !== 'conflict') return
      await saveOver(source.id, dialog.theirs?.revision ?? null)
    },
    /** Takes what another program wrote; undo brings one's own text back. */
    takeTheirs() {
      const { source, dialog } = get()
      if (source.kind !== 'shelf' || dialog?.kind !== 'conflict' || !dialog.theirs) return
      const { text, revision } = dialog.theirs
      set({
        ...replaced(get(), text),
        source: { ...source, revision },
        savedText: text,
        dialog: null,
        note: { kind: 'done', text: 'The other version is open. Undo brings yours back.' },
      })
    },

    takeRecovered() {
      const { recovered } = get()
      if (!recovered) return
      set({ ...replaced(get(), recovered.text), recovered: null })
      memory.keepDraft(get().source, recovered.text)
      memory.forget(recovered)
    },
    dropRecovered() {
      const { recovered, source, text } = get()
      if (!recovered) return
      memory.forget(recovered)
      set({ recovered: memory.drafts(source).find((draft) => draft.text !== text) ?? null })
    },

    /** The editor holds another text. */
    type(text: string) {
      const { source, savedText } = get()
      set({ text })
      if (text === savedText) memory.dropDraft(source)
      else memory.keepDraft(source, text)
    },
    past: (canUndo: boolean, canRedo: boolean) => set({ canUndo, canRedo }),

    put(control: Control, position: string) {
      set(put(get(), control, position))
      keepLeftAt()
    },
    /** Shows the string of a load, or of the load that an element or a wire belongs to; says so where there is none. */
    choose(id: ElementId) {
      const bench = get()
      const owner = bench.shown?.circuit.elements.get(id)?.load ? id : ownerOf(bench, id)
      if (owner === undefined) {
        set({ selected: id, note: { kind: 'done', text: 'It is in the string of no load in this setting.' } })
        return
      }
      set(chosen(owner, id))
      keepLeftAt()
    },
    select: (selected: ElementId | null) => set({ selected }),
    toStep: (step: number) => set({ step }),
    step: (by: 1 | -1) => set(stepped(get(), by)),

    openDialog,
    tell: (note: Note) => set({ note }),
    closeNote: () => set({ note: null }),
    trouble: (text: string) => set({ note: { kind: 'trouble', text } }),
    switchSymbols() {
      const symbols = get().symbols === 'iec' ? 'ieee' : 'iec'
      set({ symbols })
      memory.keepSymbols(symbols)
    },
    switchTheme() {
      const theme = get().theme === 'light' ? 'dark' : 'light'
      set({ theme })
      memory.keepTheme(theme)
    },
  }

  async function refreshShelf() {
    const reply = await client.call('shelf.list', {})
    if (reply.ok) set({ entries: reply.value })
    else tell(reply.error)
  }
}

/** What to call the circuit when it is saved. */
function titleOf({ shown, source }: Bench): string {
  const title = shown?.circuit.unit.title
  if (title) return title
  switch (source.kind) {
    case 'shelf':
    case 'demo':
      return source.id
    case 'file':
      return source.name.replace(/\.[^.]*$/, '')
    case 'new':
      return ''
  }
}
