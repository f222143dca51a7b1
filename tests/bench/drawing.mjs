// npm run bench:drawing: what the layout achieves, against the plain way, and how long it takes.
import { createServer } from 'vite'

const server = await createServer({
  configFile: false,
  root: `${import.meta.dirname}/../..`,
  appType: 'custom',
  logLevel: 'warn',
  server: { middlewareMode: true, watch: null },
})
try {
  const { bench } = await server.ssrLoadModule('/tests/bench/drawing.ts')
  await bench(Number(process.argv[2] ?? 200))
} finally {
  await server.close()
}
