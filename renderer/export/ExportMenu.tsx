import { DropdownMenu } from 'radix-ui'
import { Icon } from '../bench/Icon.tsx'
import { useActions, useBench } from '../store/context.ts'
import { stepOf } from '../store/reduce.ts'
import { copyPicture, download, fileName } from './out.ts'
import { pictureOf } from './picture.ts'
import { drawingFile } from './sheet.ts'

/** The drawing as it stands, out of the app. */
export function ExportMenu() {
  const plan = useBench((b) => b.plan?.plan)
  const frame = useBench((b) => b.trace?.story[stepOf(b)]?.frame)
  const trace = useBench((b) => b.trace?.loads.find((l) => l.load === b.load))
  const symbols = useBench((b) => b.symbols)
  const title = useBench((b) => b.shown?.circuit.unit.title ?? '')
  const { tell } = useActions()
  const svg = () => {
    if (!plan) throw new Error('the menu opens only over a drawing')
    return drawingFile(plan, { ...(frame && { frame }), ...(trace && { trace }), symbols })
  }
  const carryOut = (what: string, work: () => Promise<string | undefined>) => async () => {
    try {
      const done = await work()
      if (done !== undefined) tell({ kind: 'done', text: done })
    } catch (error) {
      const why = error instanceof Error ? error.message : String(error)
      tell({ kind: 'trouble', text: `The drawing could not be ${what}: ${why}` })
    }
  }
  const save = async (ending: string, file: Blob) => {
    const name = fileName(title, ending)
    download(file, name)
    return `Exported ${name}, ${Math.ceil(file.size / 1000)} kB.`
  }
  const items: readonly (readonly [string, string, () => Promise<void>])[] = [
    [
      'SVG',
      'scales, with its fonts',
      carryOut('exported', async () => save('svg', new Blob([await svg()], { type: 'image/svg+xml' }))),
    ],
    ['PNG', 'a picture', carryOut('exported', async () => save('png', await pictureOf(await svg())))],
    [
      'Copy',
      'a picture to paste',
      carryOut('copied', async () => {
        await copyPicture(svg().then((text) => pictureOf(text)))
        return 'The drawing is copied.'
      }),
    ],
    [
      'Print or PDF',
      'one page, drawing and string',
      carryOut('printed', async () => {
        window.print()
        return undefined
      }),
    ],
  ]
  return (
    <DropdownMenu.Root modal={false}>
      <DropdownMenu.Trigger aria-label="Export" title="Export" disabled={!plan}>
        <Icon name="export" />
      </DropdownMenu.Trigger>
      <DropdownMenu.Portal>
        <DropdownMenu.Content className="menu" side="left" align="start" sideOffset={4}>
          {items.map(([name, says, act]) => (
            <DropdownMenu.Item key={name} className="menu-item" onSelect={() => void act()}>
              <b>{name}</b>
              <span>{says}</span>
            </DropdownMenu.Item>
          ))}
        </DropdownMenu.Content>
      </DropdownMenu.Portal>
    </DropdownMenu.Root>
  )
}
