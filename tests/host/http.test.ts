import { mkdtemp, rm, writeFile } from 'node:fs/promises'
import { request } from 'node:http'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { serveCircuits } from '../../electron/circuits.ts'
import { type Host, startHost } from '../../electron/http.ts'

let dir: string
let host: Host
beforeAll(async () => {
  dir = await mkdtemp(path.join(tmpdir(), 'host-'))
  await writeFile(path.join(dir, 'index.html'), '<meta nonce="__CSP_NONCE__">')
  await writeFile(path.join(dir, 'secret.txt'), 'no served type')
  const handlers = serveCircuits(path.join(dir, 'shelf'), path.join(dir, 'demos'), (name, data) =>
    host.emit(name, data),
  )
  host = await startHost({ handlers, rendererDir: dir })
})
afterAll(async () => {
  await host.close()
  await rm(dir, { recursive: true })
})

/** node:http, since fetch does not let a test set Host or Origin. */
function ask(p: string, opts: { method?: string; headers?: Record<string, string>; body?: string } = {}) {
  return new Promise<{ status: number; headers: Record<string, unknown>; body: string }>((resolve, reject) => {
    const req = request(host.origin + p, { method: opts.method ?? 'GET', headers: opts.headers ?? {} }, (res) => {
      let body = ''
      res
        .on('data', (d) => (body += d))
        .on('end', () => resolve({ status: res.statusCode ?? 0, headers: res.headers, body }))
    })
    req.on('error', reject)
    req.end(opts.body)
  })
}
const json = { 'content-type': 'application/json' }
const call = (headers: Record<string, string>, body = '{}') =>
  ask('/api/shelf.list', { method: 'POST', headers: { ...json, ...headers }, body })

describe('loopback host', () => {
  it('listens on 127.0.0.1 and answers with the token', async () => {
    expect(new URL(host.url).hostname).toBe('127.0.0.1')
    const res = await call({ authorization: `Bearer ${host.token}` })
    expect([res.status, JSON.parse(res.body)]).toEqual([200, { ok: true, value: [] }])
    expect(res.headers['access-control-allow-origin']).toBeUndefined()
  })
  it.each([
    ['no token', {}, 401],
    ['a wrong token', { authorization: 'Bearer x' }, 401],
    ['a rebound Host', { host: 'evil.example:80' }, 403],
    ['another Origin', { origin: 'http://evil.example' }, 403],
    ['Origin null', { origin: 'null' }, 403],
    ['another port’s Origin', { origin: 'http://127.0.0.1:1' }, 403],
    ['a cross-site fetch', { 'sec-fetch-site': 'cross-site' }, 403],
    ['a same-site fetch (another port)', { 'sec-fetch-site': 'same-site' }, 403],
  ])('refuses %s', async (_name, headers, status) => {
    const token = status === 403 ? { authorization: `Bearer ${host.token}` } : {}
    expect((await call({ ...token, ...headers })).status).toBe(status)
  })
  it('saves the largest text, and tells every open page', async () => {
    const auth = { authorization: `Bearer ${host.token}` }
    const pages = new AbortController()
    const heard = await fetch(`${host.origin}/api/events`, { headers: auth, signal: pages.signal })
    const text = '\u0001'.repeat(2_000_000) // six bytes each in JSON
    const saved = await ask('/api/shelf.save', {
      method: 'POST',
      headers: { ...json, ...auth },
      body: JSON.stringify({ id: 'large', text, revision: null }),
    })
    expect(JSON.parse(saved.body)).toMatchObject({ ok: true, value: { id: 'large' } })
    let stream = ''
    for await (const part of heard.body ?? []) {
      stream += Buffer.from(part).toString()
      if (stream.includes('data:')) break
    }
    pages.abort()
    expect(stream).toContain('event: shelf.changed\ndata: {}\n\n')
  })
  it('keeps its events to those with the token', async () => {
    expect((await ask('/api/events')).status).toBe(401)
  })
  it('takes only JSON by POST', async () => {
    const auth = { authorization: `Bearer ${host.token}` }
    expect((await call({ ...auth, 'content-type': 'text/plain' })).status).toBe(415)
    expect((await ask('/api/shelf.list', { headers: auth })).status).toBe(405)
    expect((await call(auth, '{')).status).toBe(400)
    expect((await call(auth, `"${'x'.repeat(12_100_000)}"`)).status).toBe(413)
  })
  it('serves the page with a fresh nonce and a strict policy', async () => {
    const [a, b] = [await ask('/'), await ask('/')]
    const csp = String(a.headers['content-security-policy'])
    const nonce = /nonce="([^"]+)"/.exec(a.body)?.[1]
    expect(csp).toContain(`'nonce-${nonce}'`)
    expect(csp).toContain("default-src 'none'")
    expect(csp).toContain("worker-src 'self'")
    expect(csp).not.toMatch(/unsafe-|\*/)
    expect(b.body).not.toBe(a.body)
  })
  it.each([
    '/../package.json',
    '/%2e%2e/package.json',
    '/..%2fx.json',
    '/secret.txt',
    '/.hidden.json',
    '/a%00.html',
    '/%',
    '//x',
  ])('does not serve %s', async (p) => {
    expect([400, 404]).toContain((await ask(p)).status)
  })
})
