import { useActions, useBench } from '../store/context.ts'

/** Offers what an earlier visit left unsaved. */
export function Recovered() {
  const recovered = useBench((b) => b.recovered)
  const { takeRecovered, dropRecovered } = useActions()
  if (!recovered) return null
  const lines = recovered.text.trimEnd().split('\n').length
  return (
    <section className="recovered" aria-label="Recovered">
      <p>
        <b>Recovered.</b> {lines} {lines === 1 ? 'line' : 'lines'} of {when.format(recovered.at)} were not saved.
      </p>
      <button type="button" className="button solid" onClick={takeRecovered}>
        Open them
      </button>
      <button type="button" className="button" onClick={dropRecovered}>
        Throw away
      </button>
    </section>
  )
}

const when = new Intl.DateTimeFormat('en', { weekday: 'long', hour: '2-digit', minute: '2-digit', hourCycle: 'h23' })
