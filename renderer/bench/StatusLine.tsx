import { useActions, useBench } from '../store/context.ts'
import { Icon } from './Icon.tsx'

/** What went wrong or takes long, with what can be done about it. */
export function StatusLine({ cancel }: { readonly cancel: () => void }) {
  const note = useBench((b) => b.note)
  const busy = useBench((b) => b.busy)
  const { closeNote } = useActions()
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
