// npm run build: the page, the hosts and the command line, into dist. A build that fails leaves the last one in place.
import { cpSync, existsSync, renameSync, rmSync, writeFileSync } from 'node:fs'
import path from 'node:path'
import { performance } from 'node:perf_hooks'
import { build } from 'vite'
import { fingerprint, root } from './setup.mjs'

const started = performance.now()
const sources = fingerprint() // before reading any: a change while building makes the build stale
const dist = path.join(root, 'dist')
const fresh = path.join(root, 'node_modules', '.cache', `dist-${process.pid}`)
process.on('exit', () => rmSync(fresh, { recursive: true, force: true }))

await build({
  configFile: path.join(root, 'renderer/vite.config.ts'),
  logLevel: 'warn',
  build: { outDir: path.join(fresh, 'renderer'), emptyOutDir: true },
})

/**
 * One file that needs nothing beside it but Node and, in its own process, Electron.
 * @param {string} entry
 * @param {'cjs' | 'es'} format
 */
const bundle = (entry, format) =>
  build({
    configFile: false,
    root,
    logLevel: 'warn',
    publicDir: false,
    ssr: { noExternal: true, external: ['electron'] },
    build: {
      ssr: `electron/${entry}.ts`,
      outDir: path.join(fresh, 'electron'),
      emptyOutDir: false,
      target: 'node20.19',
      sourcemap: true,
      rolldownOptions: {
        output: { format, entryFileNames: `${entry}.${format === 'cjs' ? 'cjs' : 'mjs'}`, codeSplitting: false },
      },
    },
  })
await bundle('main', 'cjs')
await bundle('preload', 'cjs')
await bundle('serve', 'es')
await bundle('cli', 'es')

const demos = path.join(root, 'schematics-demo')
if (existsSync(demos)) {
  cpSync(demos, path.join(fresh, 'schematics-demo'), {
    recursive: true,
    preserveTimestamps: true,
    filter: (file) => !file.endsWith('.ts'),
  })
}
writeFileSync(path.join(fresh, '.built'), sources)
rmSync(dist, { recursive: true, force: true })
renameSync(fresh, dist)
console.log(`built in ${((performance.now() - started) / 1000).toFixed(1)} s`)
