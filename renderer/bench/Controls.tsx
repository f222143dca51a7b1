import type { Control } from '../../core/circuit/index.ts'
import { elementName, mainControl, moved, positionOf, running, settingKey } from '../store/circuit.ts'
import { useActions, useBench } from '../store/context.ts'
import type { Bench } from '../store/state.ts'

/** One group of buttons a control; under each position of the main one, the loads it runs. */
export function Controls() {
  const circuit = useBench((b) => b.shown?.circuit)
  if (!circuit || circuit.controls.size === 0) return null
  const main = mainControl(circuit)
  return [...circuit.controls.values()].map((control) => (
    <ControlGroup key={control.name} control={control} main={control.name === main?.name} />
  ))
}

function ControlGroup({ control, main }: { readonly control: Control; readonly main: boolean }) {
  const now = useBench((b) => positionOf(control, b.given))
  const { put } = useActions()
  const heading = `control-${control.name}`
  return (
    <div className="control">
      <p className="small" id={heading}>
        {control.label}
        {control.springsBack && <em> springs back</em>}
      </p>
      {/* biome-ignore lint/a11y/useSemanticElements: a fieldset takes no part in the strip's row */}
      <div className="set" role="group" aria-labelledby={heading} data-main={main || undefined}>
        {control.positions.map((position) => (
          <button key={position} type="button" aria-pressed={position === now} onClick={() => put(control, position)}>
            <b>{position}</b>
            {main && <Runs control={control} position={position} />}
          </button>
        ))}
      </div>
    </div>
  )
}

/** More names than this would stretch the dial. */
const NAMED = 4

/** `M H1`: a dash where nothing runs, three dots while that is not known. */
function Runs({ control, position }: { readonly control: Control; readonly position: string }) {
  const runs = useBench((b) => runsAt(b, control, position))
  const names = runs?.split(' ') ?? []
  const shown =
    names.length > NAMED ? `${names.slice(0, NAMED - 1).join(' ')} +${names.length - NAMED + 1}` : runs || '–'
  return (
    <span className="runs" title={names.length > NAMED ? runs : undefined}>
      <span className="hidden-words">
        {runs === undefined ? ', working out' : runs ? `, runs ${runs}` : ', runs nothing'}
      </span>
      <span aria-hidden="true">{runs === undefined ? '…' : shown}</span>
    </span>
  )
}

/** Names of the parts that run, a space between each two; a part with several loads is named once. */
export function runsAt({ shown, given, traces }: Bench, control: Control, position: string): string | undefined {
  if (!shown) return undefined
  const { circuit } = shown
  const trace = traces.get(settingKey(circuit, moved(given, control, position)))
  if (!trace) return undefined
  return [
    ...new Set(running(trace).map(({ load }) => circuit.elements.get(load)?.part || elementName(circuit, load))),
  ].join(' ')
}
