// Which folder may import which. Run as a program it reads the whole project and names every import that is not allowed.
import { readdirSync, readFileSync } from 'node:fs'
import path from 'node:path'
import { pathToFileURL } from 'node:url'
import { parseSync } from 'vite'

/** The folders of core in the order in which data flows; each may import those before it. */
const CORE = [
  'infer',
  'records',
  'netlist',
  'circuit',
  'network',
  'operate',
  'strings',
  'review',
  'chart',
  'diagnose',
  'checks',
  'drawing',
  'report',
  'requests',
]
/** Folders that an order would allow and that are none of theirs: the solver knows nodes, not circuits. */
const KEEPS_OFF = new Map([['network', ['netlist', 'circuit']]])
/** The only packages in core, and where. */
const CORE_PACKAGES = new Map([
  ['records', ['zod']],
  ['requests', ['zod']],
  ['drawing', ['elkjs']],
])

/**
 * @typedef {{ where: string, folders: readonly string[], packages: string, allowsPackage: (name: string) => boolean }} Zone
 * @typedef {{ file: string, line: number, imported: string }} Import
 */

/**
 * What the folder of `file` may import; undefined: anything. Paths are relative to the project's folder, with slashes.
 * @param {string} file
 * @returns {Zone | 'no place' | undefined}
 */
function zoneOf(file) {
  const [top = '', folder = ''] = file.split('/')
  if (/\.test\.tsx?$/.test(file)) return undefined
  if (top === 'core') {
    const place = CORE.indexOf(folder)
    if (place < 0) return 'no place'
    const packages = CORE_PACKAGES.get(folder) ?? []
    const off = KEEPS_OFF.get(folder) ?? []
    return {
      where: `core/${folder}`,
      folders: CORE.slice(0, place + 1)
        .filter((name) => !off.includes(name))
        .map((name) => `core/${name}`),
      packages: packages.length > 0 ? packages.join(', ') : 'no package',
      allowsPackage: (name) => packages.includes(name),
    }
  }
  if (top === 'electron') {
    return {
      where: top,
      folders: ['core', 'electron'],
      packages: 'any package but React',
      allowsPackage: (name) => !/^react/.test(name),
    }
  }
  if (top === 'renderer') {
    return {
      where: top,
      folders: ['core', 'renderer'],
      packages: 'any package but Node’s and Electron’s',
      allowsPackage: (name) => !/^(node:|electron)/.test(name),
    }
  }
  return undefined
}

/**
 * What is wrong with the imports of one file: a sentence each, that names the file, the import and what is allowed.
 * @param {string} file relative to the project's folder, with slashes
 * @param {string} code
 * @returns {string[]}
 */
export function problemsOf(file, code) {
  const zone = zoneOf(file)
  if (zone === undefined) return []
  if (zone === 'no place') {
    return [`${file} lies in no folder of core that has a place in the order (tests/import-direction.mjs).`]
  }
  return importsOf(file, code)
    .filter(({ imported }) => !allows(zone, file, imported))
    .map(
      ({ line, imported }) =>
        `${file}:${line} imports “${imported}”. ${zone.where} may import ${zone.folders.join(', ')}; ${zone.packages}.`,
    )
}

/**
 * @param {Zone} zone
 * @param {string} file
 * @param {string} imported
 */
function allows(zone, file, imported) {
  if (!/^\.{0,2}\//.test(imported)) return zone.allowsPackage(packageOf(imported))
  const target = path.posix.join(path.posix.dirname(file), imported)
  return zone.folders.some((folder) => target.startsWith(`${folder}/`))
}

/**
 * `elkjs/lib/elk-api.js` → `elkjs`, `@codemirror/view` stays.
 * @param {string} imported
 */
const packageOf = (imported) =>
  imported
    .split('/')
    .slice(0, imported.startsWith('@') ? 2 : 1)
    .join('/')

/**
 * Every module that a file names: in static, type-only and dynamic imports, exports from, import types, and workers.
 * @param {string} file
 * @param {string} code
 * @returns {Import[]}
 */
function importsOf(file, code) {
  const { program, errors } = parseSync(file, code)
  if (errors[0]) throw new Error(`${file}: ${errors[0].message}`)
  /** @type {Import[]} */
  const found = []
  walk(program, (node) => {
    const source = sourceOf(node)
    if (source === undefined) return
    const line = code.slice(0, Number(node.start)).split('\n').length
    if (typeof source.value === 'string') found.push({ file, line, imported: source.value })
    else if (node.type === 'ImportExpression') found.push({ file, line, imported: 'a computed name' })
  })
  return found
}

/** @typedef {Record<string, unknown>} Node */

/**
 * The literal that names the module, if this node names one.
 * @param {Node} node
 * @returns {Node | undefined}
 */
function sourceOf(node) {
  switch (node.type) {
    case 'ImportDeclaration':
    case 'ExportNamedDeclaration':
    case 'ExportAllDeclaration':
    case 'ImportExpression':
    case 'TSImportType':
      return isNode(node.source) ? node.source : undefined
    case 'NewExpression': {
      // new URL('./worker.ts', import.meta.url)
      const args = Array.isArray(node.arguments) ? node.arguments : []
      const isUrl = isNode(node.callee) && node.callee.name === 'URL' && args.length === 2
      return isUrl && isNode(args[0]) ? args[0] : undefined
    }
    default:
      return undefined
  }
}

/**
 * @param {unknown} value
 * @param {(node: Node) => void} visit
 */
function walk(value, visit) {
  if (Array.isArray(value)) for (const item of value) walk(item, visit)
  else if (isNode(value)) {
    visit(value)
    for (const child of Object.values(value)) if (typeof child === 'object') walk(child, visit)
  }
}

/**
 * @param {unknown} value
 * @returns {value is Node}
 */
const isNode = (value) => typeof value === 'object' && value !== null

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  const root = path.join(import.meta.dirname, '..')
  const problems = ['core', 'electron', 'renderer']
    .flatMap((top) =>
      readdirSync(path.join(root, top), { recursive: true, encoding: 'utf8' }).map((name) => `${top}/${name}`),
    )
    .map((file) => file.replaceAll(path.sep, '/'))
    .filter((file) => /\.(ts|tsx|mts|mjs|js)$/.test(file))
    .sort()
    .flatMap((file) => problemsOf(file, readFileSync(path.join(root, file), 'utf8')))
  for (const problem of problems) console.error(problem)
  process.exitCode = problems.length > 0 ? 1 : 0
}
