import { describe, expect, it } from 'vitest'
import { problemsOf } from './import-direction.mjs'

describe('refuses', () => {
  it.each([
    [
      'a folder listed later',
      'core/netlist/parse.ts',
      "import { a } from '../circuit/model.ts'",
      '../circuit/model.ts',
    ],
    [
      'a type of a folder listed later',
      'core/circuit/x.ts',
      "import type { A } from '../operate/x.ts'",
      '../operate/x.ts',
    ],
    ['an export from one', 'core/infer/index.ts', "export * from '../strings/trace.ts'", '../strings/trace.ts'],
    ['an import type', 'core/infer/x.ts', "type T = import('../strings/trace.ts').T", '../strings/trace.ts'],
    ['a dynamic import', 'core/infer/x.ts', "const a = await import('../strings/trace.ts')", '../strings/trace.ts'],
    ['a computed import', 'core/infer/x.ts', 'const a = await import(name)', 'a computed name'],
    ['the circuit in the solver', 'core/network/x.ts', "import '../circuit/model.ts'", '../circuit/model.ts'],
    ['a path around', 'core/infer/x.ts', "import '../infer/../strings/trace.ts'", '../infer/../strings/trace.ts'],
    ['Node in core', 'core/requests/x.ts', "import { readFile } from 'node:fs'", 'node:fs'],
    ['React in core', 'core/report/x.ts', "import { createElement } from 'react'", 'react'],
    ['zod where nothing is read', 'core/circuit/x.ts', "import * as z from 'zod'", 'zod'],
    ['elkjs outside the drawing', 'core/report/x.ts', "import ELK from 'elkjs/lib/elk-api.js'", 'elkjs/lib/elk-api.js'],
    ['a host in core', 'core/requests/x.ts', "import '../../electron/http.ts'", '../../electron/http.ts'],
    ['the page in a host', 'electron/x.ts', "import '../renderer/bridge.ts'", '../renderer/bridge.ts'],
    ['React in a host', 'electron/x.ts', "import 'react-dom/server'", 'react-dom/server'],
    ['a host in the page', 'renderer/x.tsx', "import '../electron/assets.ts'", '../electron/assets.ts'],
    ['Node in the page', 'renderer/x.tsx', "import 'node:path'", 'node:path'],
    ['Electron in the page', 'renderer/x.tsx', "import { ipcRenderer } from 'electron'", 'electron'],
    [
      'a worker from a host',
      'renderer/x.ts',
      "new Worker(new URL('../electron/x.ts', import.meta.url))",
      '../electron/x.ts',
    ],
    ['tests in the product', 'core/infer/x.ts', "import '../../tests/memory-files.ts'", '../../tests/memory-files.ts'],
  ])('%s', (_what, file, code, imported) => {
    const problems = problemsOf(file, `// first line\n${code}\n`)
    expect(problems).toHaveLength(1)
    expect(problems[0]).toContain(`${file}:2 imports “${imported}”.`)
    expect(problems[0]).toContain('may import ')
  })

  it('a folder of core without a place in the order', () => {
    expect(problemsOf('core/helpers/x.ts', '')).toHaveLength(1)
    expect(problemsOf('core/x.ts', '')).toHaveLength(1)
  })
})

describe('allows', () => {
  it.each([
    ['core/circuit/parts/fuse.ts', "import '../kind.ts'; import type { Span } from '../../netlist/tree.ts'"],
    ['core/operate/x.ts', "import '../network/index.ts'; import '../circuit/model.ts'"],
    ['core/requests/x.ts', "import * as z from 'zod'; import '../records/index.ts'"],
    ['core/drawing/x.ts', "import ELK from 'elkjs/lib/elk-api.js'"],
    ['core/infer/x.test.ts', "import fc from 'fast-check'; import '../../tests/memory-files.ts'"],
    ['electron/x.ts', "import 'node:fs'; import { app } from 'electron'; import '../core/requests/index.ts'"],
    ['renderer/x.tsx', "import { useState } from 'react'; import '../core/requests/index.ts'; import './x.css'"],
    ['renderer/x.ts', "new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' })"],
    ['tests/x.ts', "import '../renderer/bridge.ts'; import '../electron/http.ts'"],
    ['core/infer/x.ts', "// import '../strings/trace.ts'\nconst text = \"import 'react'\""],
  ])('%s: %s', (file, code) => {
    expect(problemsOf(file, code)).toEqual([])
  })
})
