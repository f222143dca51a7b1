import { useEffect, useState } from 'react'
import type { Entry } from '../core/requests/index.ts'
import type { Client } from './bridge.ts'

/** The circuit shelf. */
export function App({ client }: { readonly client: Client }) {
  const [entries, setEntries] = useState<readonly Entry[]>([])
  const [note, setNote] = useState('')

  useEffect(() => {
    const refresh = async () => {
      const reply = await client.call('shelf.list', {})
      if (reply.ok) setEntries(reply.value)
      setNote(reply.ok ? '' : reply.error.message)
    }
    void refresh()
    return client.on('shelf.changed', () => void refresh())
  }, [client])

  return (
    <main>
      <h1>Halfsplit</h1>
      <ul aria-label="Circuits">
        {entries.map(({ id, origin, title }) => (
          <li key={`${origin} ${id}`}>{title}</li>
        ))}
      </ul>
      <p role="status">{note}</p>
    </main>
  )
}
