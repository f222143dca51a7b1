import { EXTENSION, fold, freeStem, stemFromTitle } from './fileName.ts'
import type { FolderOfCircuits, ShelfFolder } from './files.ts'
import type { EventName, Refusal, Reply } from './methods.ts'
import type { Entry, EventData, Handlers } from './table.ts'

/**
 * The circuit shelf: plain files in one folder, and demos that are only read.
 *
 * Saves of one host run one after the other. Another program may still change a file between the comparison and the
 * rename of a save, a few milliseconds.
 */
export function createShelf(
  shelf: ShelfFolder,
  demos: FolderOfCircuits,
  emit: <E extends EventName>(name: E, data: EventData<E>) => void,
): Handlers {
  const oneByOne = queue()

  const write = async (id: string, text: string): Promise<Reply<{ id: string; revision: string }>> => {
    const revision = await shelf.write(id, text)
    emit('shelf.changed', {})
    return done({ id, revision })
  }
  const conflict = async (id: string): Promise<Reply<never>> => {
    const now = await shelf.read(id)
    const current = now.kind === 'text' ? { text: now.text, revision: now.revision } : null
    const what = now.kind === 'missing' ? 'was removed or renamed' : 'was changed by another program'
    return refuse({
      code: 'conflict',
      message: `“${id}” ${what} since you opened it. Nothing was overwritten: save yours under another name.`,
      data: { current },
    })
  }
  /** The file that `id` would land on, on a file system that takes upper and lower case for one. */
  const standing = async (id: string): Promise<string | undefined> =>
    (await shelf.list()).find((file) => fold(file.stem) === fold(id))?.stem

  return {
    'shelf.list': async () => {
      const ofShelf = await entries(shelf, 'shelf')
      const ofDemos = await entries(demos, 'demo')
      return done([
        ...ofShelf.sort((a, b) => compare(b.modified, a.modified) || compare(a.id, b.id)),
        ...ofDemos.sort((a, b) => compare(a.title, b.title) || compare(a.id, b.id)),
      ])
    },

    'shelf.open': async ({ id, origin }) => {
      const name = id + EXTENSION
      const file = await (origin === 'shelf' ? shelf : demos).read(id)
      switch (file.kind) {
        case 'text':
          return done({ id, origin, name, text: file.text, revision: file.revision })
        case 'missing':
          return refuse({ code: 'not-found', message: `There is no “${name}” any more.` })
        case 'not-text':
          return refuse({
            code: 'not-text',
            message: `“${name}” is not text in UTF-8. Save it as UTF-8 in a text editor, then open it again.`,
          })
        case 'too-large':
          return refuse({ code: 'too-large', message: `“${name}” is larger than 2 MB, too large for a circuit.` })
      }
    },

    'shelf.save': ({ id, text, revision }) =>
      oneByOne(async () => {
        if (revision === null) {
          const other = await standing(id)
          return other === undefined ? write(id, text) : conflict(other)
        }
        const now = await shelf.read(id)
        return now.kind === 'text' && now.revision === revision ? write(id, text) : conflict(id)
      }),

    'shelf.saveAs': ({ name, text }) =>
      oneByOne(async () => {
        const id = stemFromTitle(name)
        if (id === undefined) {
          return refuse({ code: 'bad-name', message: 'A name needs a letter or a digit. Give the unit’s name.' })
        }
        const names = new Set((await shelf.list()).map((file) => fold(file.stem)))
        if (!names.has(fold(id))) return write(id, text)
        const free = freeStem(id, (stem) => names.has(fold(stem)))
        return refuse({
          code: 'exists',
          message: `There is a circuit called “${id}” already. “${free}” is free.`,
          data: { free },
        })
      }),
  }
}

async function entries(folder: FolderOfCircuits, origin: Entry['origin']): Promise<Entry[]> {
  const files = await folder.list()
  return Promise.all(
    files.map(async ({ stem, modified }) => {
      const file = await folder.read(stem)
      const title = (file.kind === 'text' ? unitTitle(file.text) : undefined) ?? stem
      return { id: stem, origin, title, modified, folder: folder.title }
    }),
  )
}

/** The words of the first `unit "…"` line: a peek for lists; what a circuit is called is for its reader to say. */
export function unitTitle(text: string): string | undefined {
  return /^\uFEFF?[ \t]*unit[ \t]+"([^"\r\n]*)"/m.exec(text)?.[1]?.trim() || undefined
}

const done = <T>(value: T): Reply<T> => ({ ok: true, value })
const refuse = (error: Refusal): Reply<never> => ({ ok: false, error })

// By code units: the same order on every machine.
const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0)

function queue(): <T>(job: () => Promise<T>) => Promise<T> {
  let last: Promise<unknown> = Promise.resolve()
  return (job) => {
    const next = last.then(job)
    last = next.catch(() => {})
    return next
  }
}
