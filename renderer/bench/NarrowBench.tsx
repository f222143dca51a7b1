import { useBench } from '../store/context.ts'
import { Controls } from './Controls.tsx'
import { DrawingPane } from './DrawingPane.tsx'
import { ElementCard } from './ElementCard.tsx'
import { NarrowHeader } from './NarrowHeader.tsx'
import { NetlistPane } from './NetlistPane.tsx'
import { Recovered } from './Recovered.tsx'
import { Story } from './Story.tsx'
import { StringPane } from './StringPane.tsx'

/** The bench of a phone: one column, led by the string. */
export function NarrowBench() {
  const problems = useBench((b) => b.read?.problems.length ?? 0)
  return (
    <div className="bench one-column">
      <NarrowHeader />
      <main>
        <Recovered />
        <StringPane upright />
        <section className="controls" aria-label="Controls">
          <Controls />
          <Story />
        </section>
        <details>
          <summary>Drawing</summary>
          <DrawingPane />
        </details>
        <details>
          <summary>Netlist{problems > 0 && `, ${problems === 1 ? '1 problem' : `${problems} problems`}`}</summary>
          <NetlistPane />
        </details>
      </main>
      <ElementCard />
    </div>
  )
}
