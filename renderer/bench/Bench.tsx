import { Group, Panel, Separator, useDefaultLayout } from 'react-resizable-panels'
import { Controls } from './Controls.tsx'
import { DrawingPane } from './DrawingPane.tsx'
import { Header } from './Header.tsx'
import { NetlistPane } from './NetlistPane.tsx'
import { Recovered } from './Recovered.tsx'
import { Story } from './Story.tsx'
import { StringPane } from './StringPane.tsx'

/** The bench of a wide screen: netlist and drawing side by side, the string below. */
export function Bench() {
  const rows = useDefaultLayout({ id: 'halfsplit.rows', storage: localStorage })
  const columns = useDefaultLayout({ id: 'halfsplit.columns', storage: localStorage })
  return (
    <div className="bench">
      <Header />
      <Recovered />
      <section className="controls" aria-label="Controls">
        <Controls />
        <Story />
      </section>
      <main>
        <Group orientation="vertical" className="rows" {...rows}>
          <Panel id="circuit" defaultSize="60%" minSize="180px">
            <Group orientation="horizontal" className="columns" {...columns}>
              <Panel id="netlist" defaultSize="352px" minSize="200px">
                <NetlistPane />
              </Panel>
              <Separator className="separator" aria-label="Width of the netlist" />
              <Panel id="drawing" minSize="240px">
                <DrawingPane carded />
              </Panel>
            </Group>
          </Panel>
          <Separator className="separator" aria-label="Height of the string" />
          <Panel id="string" minSize="236px">
            <StringPane />
          </Panel>
        </Group>
      </main>
    </div>
  )
}
