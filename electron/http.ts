import { createHash, randomBytes, timingSafeEqual } from 'node:crypto'
import { createServer, type IncomingMessage, type ServerResponse } from 'node:http'
import type { AddressInfo } from 'node:net'
import { dispatch, type Handlers, MAX_TEXT_BYTES, type Reply } from '../core/requests/index.ts'
import { securityHeaders, serveAsset } from './assets.ts'

// JSON writes a control character as six bytes, and a request is little more than its text.
const MAX_BODY = 6 * MAX_TEXT_BYTES + 10_000
const LOST_KEY = 'This page has lost its key. Open the address that Halfsplit printed when it started.'

/** A running loopback host. */
export interface Host {
  /** With the token in its fragment, which a browser never sends anywhere. */
  readonly url: string
  readonly origin: string
  readonly token: string
  emit(name: string, data: unknown): void
  close(): Promise<void>
}

/** Serves the page and answers its requests on 127.0.0.1; `port` 0 or absent takes a free one. */
export async function startHost(opts: {
  readonly handlers: Handlers
  readonly rendererDir: string
  readonly port?: number
  readonly log?: (line: string) => void
}): Promise<Host> {
  const token = randomBytes(32).toString('base64url')
  const log = opts.log ?? (() => {})
  const streams = new Set<ServerResponse>()
  let origin = ''
  let authority = ''

  const tokenOk = (req: IncomingMessage) => {
    const given = /^Bearer ([\w-]{1,200})$/.exec(req.headers.authorization ?? '')?.[1] ?? ''
    const digest = (s: string) => createHash('sha256').update(s).digest()
    return timingSafeEqual(digest(given), digest(token))
  }
  /** DNS rebinding and cross-site requests end here, before any routing. */
  const refuse = (req: IncomingMessage): string | undefined => {
    if (req.headers.host !== authority) return 'host'
    const from = req.headers.origin
    if (from !== undefined && from !== origin) return 'origin'
    const site = req.headers['sec-fetch-site']
    if (site !== undefined && site !== 'same-origin' && site !== 'none') return 'sec-fetch-site'
    return undefined
  }

  const server = createServer((req, res) => {
    void handle(req, res).catch((error) => {
      log(`request failed: ${error instanceof Error ? error.message : String(error)}`)
      if (!res.headersSent) send(res, 500, refusal('internal', 'Something went wrong inside Halfsplit.'))
      else res.destroy()
    })
  })
  server.requestTimeout = 30_000
  server.headersTimeout = 10_000

  async function handle(req: IncomingMessage, res: ServerResponse): Promise<void> {
    const why = refuse(req)
    if (why) {
      log(`refused a request: wrong ${why}`)
      return send(res, 403, refusal('forbidden', `Refused: ${why}.`))
    }
    // not new URL(req.url, origin): '//x' would become another host with the path '/'
    const pathname = (req.url ?? '/').split(/[?#]/, 1)[0] ?? '/'
    if (!pathname.startsWith('/api/')) {
      if (req.method !== 'GET' && req.method !== 'HEAD') return send(res, 405, undefined, { allow: 'GET, HEAD' })
      const asset = await serveAsset(opts.rendererDir, pathname)
      res.writeHead(asset.status, asset.headers).end(req.method === 'HEAD' ? undefined : asset.body)
      return
    }
    if (!tokenOk(req)) {
      return send(res, 401, refusal('forbidden', LOST_KEY))
    }
    if (pathname === '/api/events' && req.method === 'GET') {
      res.writeHead(200, {
        ...securityHeaders('none'),
        'content-type': 'text/event-stream',
        'cache-control': 'no-store',
      })
      res.write(': open\n\n')
      streams.add(res)
      res.on('close', () => streams.delete(res))
      return
    }
    if (req.method !== 'POST') return send(res, 405, undefined, { allow: 'POST' })
    // application/json is no "simple" type: a foreign page cannot send it without a preflight, which nobody answers
    if (!/^application\/json\b/.test(req.headers['content-type'] ?? '')) return send(res, 415, undefined)
    const body = await readBody(req)
    if (body === undefined) return send(res, 413, undefined, { connection: 'close' })
    let input: unknown
    try {
      input = JSON.parse(body)
    } catch {
      return send(res, 400, refusal('bad-request', 'The body is not JSON.'))
    }
    const reply = await dispatch(opts.handlers, pathname.slice('/api/'.length), input, (error) =>
      log(`handler failed: ${error instanceof Error ? error.stack : String(error)}`),
    )
    return send(res, 200, reply)
  }

  await new Promise<void>((resolve, reject) => {
    server.once('error', reject)
    server.listen({ host: '127.0.0.1', port: opts.port ?? 0, exclusive: true }, resolve)
  })
  authority = `127.0.0.1:${(server.address() as AddressInfo).port}`
  origin = `http://${authority}`
  return {
    origin,
    token,
    url: `${origin}/#token=${token}`,
    emit(name, data) {
      for (const res of streams) res.write(`event: ${name}\ndata: ${JSON.stringify(data)}\n\n`)
    },
    close: () =>
      new Promise((resolve) => {
        for (const res of streams) res.end()
        server.close(() => resolve())
        server.closeAllConnections()
      }),
  }
}

const refusal = (code: 'internal' | 'forbidden' | 'bad-request', message: string): Reply => ({
  ok: false,
  error: { code, message },
})

function send(res: ServerResponse, status: number, body: Reply | undefined, extra: Record<string, string> = {}): void {
  const text = body === undefined ? '' : JSON.stringify(body)
  res
    .writeHead(status, {
      ...securityHeaders('none'),
      'content-type': 'application/json; charset=utf-8',
      'cache-control': 'no-store',
      ...extra,
    })
    .end(text)
}

async function readBody(req: IncomingMessage): Promise<string | undefined> {
  const parts: Buffer[] = []
  let size = 0
  for await (const part of req as AsyncIterable<Buffer>) {
    size += part.length
    if (size > MAX_BODY) return undefined
    parts.push(part)
  }
  return Buffer.concat(parts).toString('utf8')
}
