import { readCircuit, type Setting } from '../../core/circuit/index.ts'
import { allProblems } from '../../core/review/index.ts'
import { traceSetting } from '../../core/strings/index.ts'
import type { Trace } from '../../core/strings/trace.ts'
import type { Read } from '../store/state.ts'
import { printOf } from './print.ts'

/** Jobs name their circuit by its text, so that a fresh worker can take any of them. */
export type ReaderJob =
  | { readonly kind: 'read'; readonly text: string }
  | { readonly kind: 'trace'; readonly text: string; readonly given: Setting }
export type ReaderAnswer =
  | { readonly kind: 'read'; readonly read: Read }
  | { readonly kind: 'trace'; readonly trace: Trace }

/** Rows reviewed while somebody types: what a large unit needs beyond them is `check`'s to look at. */
const MOST_ROWS = 64

/** Does the reader's jobs; the circuit of the last text is kept. */
export function createReader(): (job: ReaderJob) => ReaderAnswer {
  let last: Read | undefined
  const read = (text: string): Read => {
    if (last?.text !== text) {
      const reading = readCircuit(text)
      const { circuit } = reading
      last = { text, circuit, problems: allProblems(text, reading, MOST_ROWS), print: printOf(circuit) }
    }
    return last
  }
  return (job) => {
    switch (job.kind) {
      case 'read':
        return { kind: 'read', read: read(job.text) }
      case 'trace':
        return { kind: 'trace', trace: traceSetting(read(job.text).circuit, job.given) }
    }
  }
}
