import { DropdownMenu } from 'radix-ui'
import type { ReactNode } from 'react'
import { useActions, useBench } from '../store/context.ts'
import { isChanged } from '../store/reduce.ts'
import { placeWords } from './Header.tsx'
import { useHandles } from './handles.ts'
import { Icon, Mark } from './Icon.tsx'

/** The header of a phone: what is on the bench, and one menu for the whole of it. */
export function NarrowHeader() {
  const title = useBench((b) => b.shown?.circuit.unit.title || 'No name yet')
  const place = useBench(placeWords)
  const changed = useBench(isChanged)
  const { openDialog } = useActions()
  return (
    <header className="top">
      <button type="button" className="home" aria-label="Circuit shelf" onClick={() => openDialog({ kind: 'shelf' })}>
        <Mark />
      </button>
      <div className="unit">
        <h1>{title}</h1>
        <p>
          {place}
          {changed && ', not saved'}
        </p>
      </div>
      <Menu />
    </header>
  )
}

function Menu() {
  const canUndo = useBench((b) => b.canUndo)
  const canRedo = useBench((b) => b.canRedo)
  const theme = useBench((b) => b.theme)
  const { openDialog, save, askName, switchTheme } = useActions()
  const { editor } = useHandles()
  return (
    <DropdownMenu.Root modal={false}>
      <DropdownMenu.Trigger className="home more" aria-label="Menu">
        <Icon name="down" />
      </DropdownMenu.Trigger>
      <DropdownMenu.Portal>
        <DropdownMenu.Content className="menu" align="end" sideOffset={0}>
          <Item does={() => void save()}>Save</Item>
          <Item does={askName}>Save as</Item>
          <Item does={() => openDialog({ kind: 'shelf' })}>Circuit shelf</Item>
          <Item does={() => editor.current?.undo()} off={!canUndo}>
            Undo
          </Item>
          <Item does={() => editor.current?.redo()} off={!canRedo}>
            Redo
          </Item>
          <Item does={switchTheme}>{theme === 'light' ? 'Dark' : 'Light'}</Item>
        </DropdownMenu.Content>
      </DropdownMenu.Portal>
    </DropdownMenu.Root>
  )
}

interface ItemProps {
  readonly does: () => void
  readonly off?: boolean
  readonly children: ReactNode
}

function Item({ does, off = false, children }: ItemProps) {
  return (
    <DropdownMenu.Item className="menu-item" disabled={off} onSelect={does}>
      <b>{children}</b>
    </DropdownMenu.Item>
  )
}
