import * as z from 'zod'
import { isStem } from './fileName.ts'
import type { EventName, Method, Reply } from './methods.ts'

// The page's content security policy forbids eval: without this zod probes `new Function`, and the browser reports a
// violation. It must stand before the first schema.
z.config({ jitless: true })

/** The largest text of a circuit, in bytes of UTF-8. */
export const MAX_TEXT_BYTES = 2_000_000

const Id = z.string().refine(isStem, 'That is not the name of a circuit.')
const Revision = z.string().regex(/^[0-9a-f]{64}$/, 'That is not a revision.')
const Origin = z.enum(['shelf', 'demo'])
const Text = z
  .string()
  .refine((text) => !/\p{Surrogate}/u.test(text), 'The text holds half a character and cannot be saved.')
  .refine((text) => utf8Bytes(text) <= MAX_TEXT_BYTES, 'The text is larger than 2 MB.')

/** One circuit of the shelf or of the demos, as listed. */
const Entry = z.strictObject({
  id: Id,
  origin: Origin,
  /** What its `unit` line says, else its file name. */
  title: z.string(),
  /** ISO 8601, UTC. */
  modified: z.iso.datetime(),
  /** Words for where it lies. */
  folder: z.string(),
})
export type Entry = z.infer<typeof Entry>

/** Every request: checked on its way in and on its way out, by every host. */
export const table = {
  'shelf.list': { input: z.strictObject({}), output: z.array(Entry) },
  'shelf.open': {
    input: z.strictObject({ id: Id, origin: Origin }),
    /** `name` is the name of the file; `revision` the SHA-256 of its bytes. */
    output: z.strictObject({ id: Id, origin: Origin, name: z.string(), text: z.string(), revision: Revision }),
  },
  'shelf.save': {
    /** `revision` is the one it was opened at; null where it is new. */
    input: z.strictObject({ id: Id, text: Text, revision: Revision.nullable() }),
    output: z.strictObject({ id: Id, revision: Revision }),
  },
  'shelf.saveAs': {
    /** `name` is a title; the file's name is made from it. */
    input: z.strictObject({ name: z.string().max(200, 'The name is longer than 200 characters.'), text: Text }),
    output: z.strictObject({ id: Id, revision: Revision }),
  },
} as const satisfies Record<Method, { input: z.ZodType; output: z.ZodType }>

export const events = {
  'shelf.changed': z.strictObject({}),
} as const satisfies Record<EventName, z.ZodType>

export type Input<M extends Method> = z.infer<(typeof table)[M]['input']>
export type Output<M extends Method> = z.infer<(typeof table)[M]['output']>
export type EventData<E extends EventName> = z.infer<(typeof events)[E]>

/** What answers the requests; every host is given the same. */
export type Handlers = { readonly [M in Method]: (input: Input<M>) => Promise<Reply<Output<M>>> }

function utf8Bytes(text: string): number {
  let bytes = 0
  for (const character of text) {
    const point = character.codePointAt(0) ?? 0
    bytes += point < 0x80 ? 1 : point < 0x800 ? 2 : point < 0x10000 ? 3 : 4
  }
  return bytes
}
