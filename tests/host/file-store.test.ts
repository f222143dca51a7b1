import { chmod, mkdir, mkdtemp, readdir, readFile, rm, stat, symlink, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { createFileStore } from '../../electron/file-store.ts'

let dir: string
let shelf: string
beforeEach(async () => {
  dir = await mkdtemp(path.join(tmpdir(), 'halfsplit-'))
  shelf = path.join(dir, 'My circuits')
})
afterEach(() => rm(dir, { recursive: true, force: true }))
const store = () => createFileStore(shelf, 'My circuits')
const file = (name: string) => path.join(shelf, name)
const put = async (name: string, content: string | Uint8Array) => {
  await mkdir(shelf, { recursive: true })
  await writeFile(file(name), content)
}

describe('list', () => {
  it('is empty where there is no folder yet', async () => {
    expect(await store().list()).toEqual([])
  })

  it('names the circuits and leaves the rest alone', async () => {
    for (const name of ['b.circuit', 'Bench dryer (old).circuit', 'Wäsche.circuit', 'notes.txt', 'a.circuit.bak'])
      await put(name, '')
    for (const name of ['.circuit', '.hidden.circuit', 'con.circuit', '.halfsplit-00.tmp']) await put(name, '')
    await mkdir(file('folder.circuit'))
    await symlink(file('gone'), file('dangling.circuit'))
    const entries = await store().list()
    expect(entries.map((entry) => entry.stem).sort()).toEqual(['Bench dryer (old)', 'Wäsche', 'b'])
    expect(entries[0]?.modified).toMatch(/^\d{4}-\d\d-\d\dT.*Z$/)
  })

  it('says so where a file stands in place of the folder', async () => {
    await writeFile(shelf, '')
    await expect(store().list()).rejects.toThrow('a file stands where the folder should be')
    await expect(store().write('x', '')).rejects.toThrow('a file stands where the folder should be')
  })
})

describe('read', () => {
  // FIPS 180-4, example B.1: SHA-256 of "abc".
  it('gives the text with the SHA-256 of its bytes', async () => {
    await put('x.circuit', 'abc')
    expect(await store().read('x')).toEqual({
      kind: 'text',
      text: 'abc',
      revision: 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad',
    })
  })

  // RFC 3629, section 3: C0 AF is an overlong form, ED A0 80 half of a surrogate pair, F5 beyond the last character.
  it.each([
    ['overlong', [0xc0, 0xaf]],
    ['half a pair', [0xed, 0xa0, 0x80]],
    ['beyond', [0xf5, 0x80, 0x80, 0x80]],
    ['cut off', [0x61, 0xe2, 0x82]],
    ['another encoding', [0xff, 0xfe, 0x61, 0x00]],
  ])('takes no bytes for text that are %s', async (_what, bytes) => {
    await put('x.circuit', Uint8Array.from(bytes))
    expect(await store().read('x')).toEqual({ kind: 'not-text' })
  })

  it.each(['\uFEFFunit "x"\r\n', '', '\n\n', 'no newline at the end', 'tab\t \u0000 😀'])(
    'keeps %j to the byte',
    async (text) => {
      const revision = await store().write('x', text)
      expect(await store().read('x')).toEqual({ kind: 'text', text, revision })
      expect(await readFile(file('x.circuit'), 'utf8')).toBe(text)
    },
  )

  it('knows what is missing, what is too large and what is no file', async () => {
    await put('large.circuit', 'x'.repeat(2_000_001))
    await put('just.circuit', 'x'.repeat(2_000_000))
    await mkdir(file('folder.circuit'))
    expect(await store().read('nothing')).toEqual({ kind: 'missing' })
    expect(await store().read('large')).toEqual({ kind: 'too-large' })
    expect(await store().read('just')).toMatchObject({ kind: 'text' })
    expect(await store().read('folder')).toEqual({ kind: 'missing' })
  })

  it.each(['../outside', '..', 'a/b', 'a\\b', '/etc/passwd', 'a\u0000', ''])('refuses the name %j', async (stem) => {
    await writeFile(path.join(dir, 'outside.circuit'), 'x')
    await expect(store().read(stem)).rejects.toThrow('refused as a file name')
    await expect(store().write(stem, '')).rejects.toThrow('refused as a file name')
  })
})

describe('write', () => {
  it('shows a reader the old text or the new one, never a part', async () => {
    const texts = ['a', 'b'].map((letter) => letter.repeat(500_000))
    await store().write('x', texts[0] ?? '')
    const seen = new Set<string>()
    let writing = true
    const reading = (async () => {
      while (writing) seen.add(await readFile(file('x.circuit'), 'utf8'))
    })()
    for (let n = 0; n < 20; n++) await store().write('x', texts[n % 2] ?? '')
    writing = false
    await reading
    expect([...seen].filter((text) => !texts.includes(text))).toEqual([])
    expect(await readdir(shelf)).toEqual(['x.circuit'])
  })

  it('leaves the old text and nothing else behind when it fails', async () => {
    await mkdir(file('x.circuit'), { recursive: true })
    await expect(store().write('x', 'new')).rejects.toThrow('“x.circuit” could not be saved')
    expect(await readdir(shelf)).toEqual(['x.circuit'])
  })

  it('writes through a link and keeps the file’s permissions', async () => {
    await mkdir(shelf)
    const elsewhere = path.join(dir, 'elsewhere.circuit')
    await writeFile(elsewhere, 'old')
    await chmod(elsewhere, 0o640)
    await symlink(elsewhere, file('x.circuit'))
    await store().write('x', 'new')
    expect(await readFile(elsewhere, 'utf8')).toBe('new')
    expect((await stat(elsewhere)).mode & 0o777).toBe(0o640)
  })
})
