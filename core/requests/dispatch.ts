import { DiskFailure } from './files.ts'
import type { Method, Refusal, Reply } from './methods.ts'
import { type Handlers, table } from './table.ts'

/**
 * Answers one request of a page: checks what comes in, runs its handler, checks what goes out. Never throws; every host
 * sends the reply as it is. `onInternal` hears of our own bugs, whose details stay with the host.
 */
export async function dispatch(
  handlers: Handlers,
  method: unknown,
  raw: unknown,
  onInternal: (error: unknown) => void,
): Promise<Reply> {
  if (!isMethod(method)) return refuse('unknown-method', 'There is no such request.')
  try {
    const input = table[method].input.safeParse(raw)
    if (!input.success) {
      const issue = input.error.issues[0]
      return refuse('bad-request', `${issue?.path.join('.') || 'input'}: ${issue?.message ?? 'not valid'}`)
    }
    // One handler out of a union of four takes no argument that fits all of them; the table pairs them.
    const handler = handlers[method] as (input: unknown) => Promise<Reply>
    const reply = await handler(input.data)
    return reply.ok ? { ok: true, value: table[method].output.parse(reply.value) } : reply
  } catch (error) {
    if (error instanceof DiskFailure) return refuse('disk', error.message)
    onInternal(error)
    return refuse('internal', 'Something went wrong inside Halfsplit. Your text is still in the editor.')
  }
}

const isMethod = (method: unknown): method is Method => typeof method === 'string' && Object.hasOwn(table, method)

const refuse = (code: Exclude<Refusal['code'], 'conflict' | 'exists'>, message: string): Reply => ({
  ok: false,
  error: { code, message },
})
