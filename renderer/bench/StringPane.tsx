import { DropdownMenu } from 'radix-ui'
import { elementName } from '../store/circuit.ts'
import { useActions, useBench } from '../store/context.ts'
import { labelWords, onWords } from '../store/words.ts'
import { Icon } from './Icon.tsx'
import { StringFacts } from './StringFacts.tsx'
import { StringInk } from './StringInk.tsx'

/** What the chosen load needs, lifted out of the drawing into one line. */
export function StringPane({ upright = false }: { readonly upright?: boolean }) {
  const circuit = useBench((b) => b.shown?.circuit)
  const name = useBench((b) => (b.shown && b.load !== null ? elementName(b.shown.circuit, b.load) : undefined))
  const label = useBench((b) => {
    const element = b.load === null ? undefined : b.shown?.circuit.elements.get(b.load)
    return b.shown && element ? labelWords(b.shown.circuit, element) : ''
  })
  const setting = useBench((b) => Object.values(b.trace?.setting ?? {}).join(', '))
  const on = useBench((b) => b.trace?.loads.find((l) => l.load === b.load)?.on)
  const state = useBench((b) => {
    const trace = b.trace?.loads.find((l) => l.load === b.load)
    return trace && onWords(trace)
  })
  const hasLoads = useBench((b) => [...(b.shown?.circuit.elements.values() ?? [])].some(({ load }) => load))
  if (!circuit) return null
  if (!name) {
    return (
      <section className="string-pane" aria-label="String">
        {!hasLoads && <p className="nothing">No load yet. A heater, motor, lamp or coil gets its string here.</p>}
      </section>
    )
  }
  return (
    <section className="string-pane" aria-label={`String of ${name}`}>
      <header>
        <h2>String of {name}</h2>
        <p className="string-label">{label}</p>
        <p className={on ? 'on' : 'off'}>{state}</p>
        {upright && <p className="string-setting">at {setting}</p>}
        <LoadMenu />
      </header>
      <StringInk upright={upright} />
      <StringFacts />
    </section>
  )
}

/** All loads, with how they stand in this setting. */
function LoadMenu() {
  const circuit = useBench((b) => b.shown?.circuit)
  const loads = useBench((b) => b.trace?.loads)
  const load = useBench((b) => b.load)
  const { choose } = useActions()
  if (!circuit || !loads || loads.length < 2) return null
  return (
    <DropdownMenu.Root modal={false}>
      <DropdownMenu.Trigger className="button">
        Other load <Icon name="down" />
      </DropdownMenu.Trigger>
      <DropdownMenu.Portal>
        <DropdownMenu.Content className="menu" align="start" sideOffset={4}>
          <DropdownMenu.RadioGroup value={load ?? ''} onValueChange={choose}>
            {loads.map(({ load: id, on, weak }) => {
              const element = circuit.elements.get(id)
              return (
                <DropdownMenu.RadioItem key={id} value={id} className="menu-item">
                  <b>{elementName(circuit, id)}</b>
                  <span>{element && labelWords(circuit, element)}</span>
                  <i>{on ? (weak ? 'weak' : 'on') : 'off'}</i>
                </DropdownMenu.RadioItem>
              )
            })}
          </DropdownMenu.RadioGroup>
        </DropdownMenu.Content>
      </DropdownMenu.Portal>
    </DropdownMenu.Root>
  )
}
