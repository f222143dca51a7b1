import { createHash, randomBytes } from 'node:crypto'
import { mkdir, open, readdir, readFile, realpath, rename, rm, stat } from 'node:fs/promises'
import path from 'node:path'
import {
  DiskFailure,
  EXTENSION,
  type FileRead,
  isStem,
  MAX_TEXT_BYTES,
  type ShelfFolder,
} from '../core/requests/index.ts'

/** Circuits as `*.circuit` files of one folder. Names are checked here again: no request reaches beyond the folder. */
export function createFileStore(folder: string, title: string): ShelfFolder {
  const at = (stem: string): string => {
    if (!isStem(stem)) throw new Error(`refused as a file name: ${JSON.stringify(stem)}`)
    return path.join(folder, stem + EXTENSION)
  }
  return {
    title,

    async list() {
      try {
        const stems = (await readdir(folder))
          .filter((name) => name.endsWith(EXTENSION))
          .map((name) => name.slice(0, -EXTENSION.length))
          .filter(isStem)
        const files = await Promise.all(
          stems.map(async (stem) => {
            const found = await unlessMissing(stat(at(stem)))
            return found?.isFile() ? [{ stem, modified: found.mtime.toISOString() }] : []
          }),
        )
        return files.flat()
      } catch (error) {
        if (codeOf(error) === 'ENOENT') return []
        throw failure(`The folder “${folder}” could not be read`, error)
      }
    },

    async read(stem) {
      try {
        return await readText(at(stem))
      } catch (error) {
        throw failure(`“${stem + EXTENSION}” could not be read`, error)
      }
    },

    async write(stem, text) {
      const bytes = Buffer.from(text, 'utf8')
      try {
        await mkdir(folder, { recursive: true })
        // A link stays a link: what it points at is what is replaced.
        const target = (await unlessMissing(realpath(at(stem)))) ?? at(stem)
        await replace(target, bytes)
      } catch (error) {
        throw failure(`“${stem + EXTENSION}” could not be saved`, error)
      }
      return revisionOf(bytes)
    },
  }
}

async function readText(file: string): Promise<FileRead> {
  const found = await unlessMissing(stat(file))
  if (!found?.isFile()) return { kind: 'missing' }
  if (found.size > MAX_TEXT_BYTES) return { kind: 'too-large' }
  const bytes = await readFile(file)
  if (bytes.length > MAX_TEXT_BYTES) return { kind: 'too-large' }
  try {
    // ignoreBOM keeps a byte order mark in the text, so that saving it again gives the same bytes.
    const text = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes)
    return { kind: 'text', text, revision: revisionOf(bytes) }
  } catch {
    return { kind: 'not-text' }
  }
}

/** Atomic: whoever reads sees the old bytes or the new ones, also after a crash. */
async function replace(target: string, bytes: Buffer): Promise<void> {
  const standing = await unlessMissing(stat(target))
  const temporary = path.join(path.dirname(target), `.halfsplit-${randomBytes(8).toString('hex')}.tmp`)
  try {
    const handle = await open(temporary, 'wx', standing ? standing.mode & 0o777 : 0o666)
    try {
      await handle.writeFile(bytes)
      await handle.sync()
    } finally {
      await handle.close()
    }
    await rename(temporary, target)
  } catch (error) {
    await rm(temporary, { force: true })
    throw error
  }
}

const revisionOf = (bytes: Buffer): string => createHash('sha256').update(bytes).digest('hex')

const codeOf = (error: unknown): string | undefined =>
  error instanceof Error && 'code' in error && typeof error.code === 'string' ? error.code : undefined

const unlessMissing = async <T>(job: Promise<T>): Promise<T | undefined> => {
  try {
    return await job
  } catch (error) {
    if (codeOf(error) === 'ENOENT') return undefined
    throw error
  }
}

const REASONS: Readonly<Record<string, string>> = {
  EACCES: 'there is no permission',
  EPERM: 'there is no permission',
  EROFS: 'the disk is read-only',
  ENOSPC: 'the disk is full',
  EDQUOT: 'the disk is full',
  EBUSY: 'another program holds it',
  ENOTDIR: 'a file stands where the folder should be',
  EEXIST: 'a file stands where the folder should be',
  EISDIR: 'a folder stands in its place',
}

/** A system's refusal as a sentence; anything else is a bug and stays what it is. */
function failure(what: string, error: unknown): unknown {
  const code = codeOf(error)
  if (code === undefined || code.startsWith('ERR_')) return error
  return new DiskFailure(`${what}: ${REASONS[code] ?? code}.`, { cause: error })
}
