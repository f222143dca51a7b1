import { useActions } from '../store/context.ts'
import { Sheet } from './Sheet.tsx'

const keys: readonly (readonly [string, string])[] = [
  ['Ctrl S', 'save'],
  ['Ctrl Shift S', 'save as'],
  ['Ctrl O', 'circuit shelf'],
  ['Ctrl Z', 'undo'],
  ['Ctrl Shift Z', 'redo'],
  ['D', 'to the dial'],
  ['[  ]', 'step back and on in the story'],
  ['+  −', 'closer, farther'],
  ['0', 'fit the drawing'],
  ['← → ↑ ↓', 'from element to element along the wires'],
  ['Shift ← →', 'from wire to wire'],
  ['Enter', 'select the element'],
  ['Esc', 'select nothing'],
  ['F8', 'next problem in the netlist'],
  ['Esc Tab', 'leave the netlist'],
  ['?', 'these keys'],
]

export function KeysDialog() {
  const { openDialog } = useActions()
  return (
    <Sheet title="Keys" className="narrow" onClose={() => openDialog(null)}>
      <dl className="keys">
        {keys.map(([key, does]) => (
          <div key={key}>
            <dt>
              <kbd>{key}</kbd>
            </dt>
            <dd>{does}</dd>
          </div>
        ))}
      </dl>
      <p className="small">On a Mac, Cmd stands for Ctrl. Letters and signs act outside text only.</p>
    </Sheet>
  )
}
