/** What a page may ask its host. Names only, with no dependency, so that the sandboxed preload stays a few lines. */
export const METHODS = ['shelf.list', 'shelf.open', 'shelf.save', 'shelf.saveAs'] as const
export type Method = (typeof METHODS)[number]

/** What a host tells its page unasked. */
export const EVENTS = ['shelf.changed'] as const
export type EventName = (typeof EVENTS)[number]

/** Why a request was not done: a code for programs, a sentence for people. */
export type Refusal =
  | {
      readonly code:
        | 'bad-request'
        | 'unknown-method'
        | 'forbidden'
        | 'not-found'
        | 'bad-name'
        | 'not-text'
        | 'too-large'
        | 'disk'
        | 'internal'
      readonly message: string
    }
  /** The file is not what it was when opened; `current` is what it holds now, null where it is gone or no longer text. */
  | {
      readonly code: 'conflict'
      readonly message: string
      readonly data: { readonly current: { readonly text: string; readonly revision: string } | null }
    }
  /** The name is taken; `free` is one that is not. */
  | { readonly code: 'exists'; readonly message: string; readonly data: { readonly free: string } }

export type Reply<T = unknown> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly error: Refusal }

/** What a host gives its page: `window.host` in the desktop window, made from fetch in a browser. */
export interface Bridge {
  call(method: Method, input: unknown): Promise<Reply>
  /** Returns the function that ends listening. */
  on(name: EventName, listener: (data: unknown) => void): () => void
}
