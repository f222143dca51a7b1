import type { Sent } from './clerk.ts'

/** Answers the jobs a worker is sent, in order. A bug in one of them is told, and does not end the worker. */
export function serve<Job, Answer>(work: (job: Job) => Answer | Promise<Answer>): void {
  const send = (sent: Sent<Answer>) => self.postMessage(sent)
  self.onmessage = async ({ data }: MessageEvent<Job>) => {
    try {
      send({ ok: true, value: await work(data) })
    } catch (error) {
      console.error(error)
      send({ ok: false, message: error instanceof Error ? error.message : String(error) })
    }
  }
}
