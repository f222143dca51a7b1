import { useEffect } from 'react'
import { useActions, useBench } from '../store/context.ts'
import { Icon } from './Icon.tsx'

/** How long a note about something done stays, ms. */
const SHOWN = 6000

/** What went wrong or takes long, with what can be done about it. */
export function StatusLine({ cancel }: { readonly cancel: () => void }) {
  const note = useBench((b) => b.note)
  const busy = useBench((b) => b.busy)
  const { closeNote } = useActions()

  // What was done need not be put away by hand; what went wrong stays until it was read.
  useEffect(() => {
    if (note?.kind !== 'done') return
    const timer = setTimeout(closeNote, SHOWN)
    return () => clearTimeout(timer)
  }, [note, closeNote])

  return (
    <footer className="status" data-shown={note !== null || busy !== null}>
      <p role="status" className={note?.kind}>
        {busy !== null ? `${busy[0]?.toUpperCase()}${busy.slice(1)} …` : note?.text}
      </p>
      {busy !== null && (
        <>
          <progress aria-label={busy} />
          <button type="button" className="button" onClick={cancel}>
            Cancel
          </button>
        </>
      )}
      {busy === null && note && (
        <button type="button" className="card-close" aria-label="Close this message" onClick={closeNote}>
          <Icon name="close" />
        </button>
      )}
    </footer>
  )
}
