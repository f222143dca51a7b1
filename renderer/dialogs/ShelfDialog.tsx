import { useEffect, useRef, useState } from 'react'
import type { Entry } from '../../core/requests/index.ts'
import { readTextFile } from '../openText.ts'
import { useActions, useBench } from '../store/context.ts'
import { blankSheet, minimalSheet } from '../store/sheets.ts'
import { Sheet } from './Sheet.tsx'

/** The circuit shelf: one's own circuits, the demos, and beginnings. */
export function ShelfDialog() {
  const entries = useBench((b) => b.entries)
  const [wanted, setWanted] = useState('')
  const { openDialog, refreshShelf, open } = useActions()
  useEffect(() => void refreshShelf(), [refreshShelf])
  const fits = ({ title, id }: Entry) => `${title} ${id}`.toLowerCase().includes(wanted.trim().toLowerCase())
  const own = entries.filter((entry) => entry.origin === 'shelf')
  const demos = entries.filter((entry) => entry.origin === 'demo')
  return (
    <Sheet title="Circuit shelf" className="shelf" onClose={() => openDialog(null)}>
      <div className="shelf-columns">
        <Beginnings />
        <div className="shelf-lists">
          {entries.length > 7 && (
            <label className="field">
              <span className="hidden-words">Find on the shelf</span>
              <input value={wanted} placeholder="name" onChange={(event) => setWanted(event.target.value)} />
            </label>
          )}
          <h3>Yours</h3>
          {own.length === 0 && <p className="small">Nothing yet. What you save comes here.</p>}
          <Entries entries={own.filter(fits)} onOpen={(id) => open('shelf', id)} />
          <h3>Demos</h3>
          <Entries entries={demos.filter(fits)} onOpen={(id) => open('demo', id)} />
        </div>
      </div>
    </Sheet>
  )
}

function Beginnings() {
  const { openNew, openFile, trouble } = useActions()
  const input = useRef<HTMLInputElement>(null)
  return (
    <div className="beginnings">
      <button type="button" className="button solid" onClick={() => openNew(blankSheet)}>
        Blank sheet
      </button>
      <button type="button" className="button" onClick={() => openNew(minimalSheet)}>
        One heater
      </button>
      <button type="button" className="button" onClick={() => input.current?.click()}>
        Open a file
      </button>
      <input
        ref={input}
        className="hidden-words"
        type="file"
        accept=".circuit,.txt,text/plain"
        tabIndex={-1}
        aria-label="A file with a netlist"
        onChange={async (event) => {
          const [file] = event.target.files ?? []
          if (!file) return
          const got = await readTextFile(file)
          if (got.ok) openFile(file.name, got.text)
          else trouble(got.message)
        }}
      />
      <p className="small">
        Or drop a <code>.circuit</code> file anywhere.
      </p>
    </div>
  )
}

function Entries({ entries, onOpen }: { readonly entries: readonly Entry[]; readonly onOpen: (id: string) => void }) {
  return (
    <ul className="entries">
      {entries.map(({ id, title, origin, modified }) => (
        <li key={id}>
          <button type="button" onClick={() => onOpen(id)}>
            <b>{title}</b>
            {origin === 'shelf' && title !== id && <span>{id}</span>}
            {origin === 'shelf' && <time dateTime={modified}>{when.format(new Date(modified))}</time>}
          </button>
        </li>
      ))}
    </ul>
  )
}

const when = new Intl.DateTimeFormat('en', {
  day: 'numeric',
  month: 'long',
  hour: '2-digit',
  minute: '2-digit',
  hourCycle: 'h23',
})
