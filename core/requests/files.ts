/** What a disk found under a name. */
export type FileRead =
  /** `revision` is the SHA-256 of the bytes, in hex. */
  | { readonly kind: 'text'; readonly text: string; readonly revision: string }
  | { readonly kind: 'missing' }
  | { readonly kind: 'not-text' }
  | { readonly kind: 'too-large' }

/** A folder that circuits are read from. */
export interface FolderOfCircuits {
  /** Words for where it lies. */
  readonly title: string
  /** Names without ending, that `isStem` allows; `modified` in ISO 8601. A folder that is not there is empty. */
  list(): Promise<readonly { readonly stem: string; readonly modified: string }[]>
  read(stem: string): Promise<FileRead>
}

/** A folder that circuits are saved to as well. All but the outcomes named here is thrown as a `DiskFailure`. */
export interface ShelfFolder extends FolderOfCircuits {
  /** Puts the text there whole or not at all, and makes the folder where there is none. Returns the revision. */
  write(stem: string, text: string): Promise<string>
}

/** The disk would not do it. The message is a sentence for the user. */
export class DiskFailure extends Error {
  override readonly name = 'DiskFailure'
}
