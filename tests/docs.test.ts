import { existsSync, readdirSync, readFileSync } from 'node:fs'
import path from 'node:path'
import { describe, expect, it } from 'vitest'
import { readCircuit } from '../core/circuit/index.ts'
import { stringTable, traceSetting } from '../core/strings/index.ts'

const pages = ['README.md', 'DEVELOPERS.md', 'core/netlist/SPEC.md']
const read = (file: string) => readFileSync(file, 'utf8')

describe('documents are true', () => {
  it.each(pages)('%s links to files that are there', (page) => {
    for (const [, target = ''] of read(page).matchAll(/\]\((?!https?:)([^)#]+)\)/g)) {
      expect(existsSync(path.join(path.dirname(page), target)), target).toBe(true)
    }
  })
  it('every netlist of the README is read without a problem, and runs', () => {
    const netlists = [...read('README.md').matchAll(/```circuit\n([\s\S]*?)```/g)].map(([, text = '']) => text)
    expect(netlists.length).toBeGreaterThan(0)
    for (const text of netlists) {
      const { circuit, problems } = readCircuit(text)
      expect(problems).toEqual([])
      expect(traceSetting(circuit, { knob: 'on' }).loads.map((l) => l.on)).toEqual([true])
    }
  })
  it('every npm command that a page names is there', () => {
    const { scripts } = JSON.parse(read('package.json'))
    const builtIn = ['ci', 'install', 'start', 'test']
    for (const page of pages) {
      for (const [, name = ''] of read(page).matchAll(/npm (?:run (?:-s )?)?([a-z:]+)/g)) {
        expect([...Object.keys(scripts), ...builtIn], `${page}: npm ${name}`).toContain(name)
      }
    }
  })
  it('every folder of core is told of in DEVELOPERS.md', () => {
    const folders = readdirSync('core', { withFileTypes: true }).filter((e) => e.isDirectory())
    for (const { name } of folders) expect(read('DEVELOPERS.md')).toContain(`${name}/`)
  })
})

describe('demos', () => {
  const demos = readdirSync('schematics-demo').filter((f) => f.endsWith('.circuit'))
  it.each(demos)('%s is read without a problem, and says that it is invented', (file) => {
    const text = read(path.join('schematics-demo', file))
    const { circuit, problems } = readCircuit(text)
    expect(problems).toEqual([])
    expect(circuit.unit.title).not.toBe('')
    expect(text).toMatch(/^# An invented unit/)
  })
  it.each(demos)('%s runs every load in some setting', (file) => {
    const { circuit } = readCircuit(read(path.join('schematics-demo', file)))
    const { loads, rows } = stringTable(circuit)
    expect(loads.length).toBeGreaterThan(0)
    expect(loads.filter((load) => !rows.some((row) => row.on.includes(load)))).toEqual([])
  })
  const described = readdirSync('schematics-demo').filter((f) => f.endsWith('.md'))
  it.each(described)('%s says rightly what runs in each setting', (file) => {
    const { circuit } = readCircuit(read(path.join('schematics-demo', file.replace(/\.md$/, '.circuit'))))
    const rows = [...read(path.join('schematics-demo', file)).matchAll(/^\|([^|]*)\|([^|]*)\|$/gm)].slice(2)
    expect(rows.length).toBeGreaterThan(0)
    for (const [, setting = '', runs = ''] of rows) {
      const words = setting.trim().split(' ').filter(Boolean)
      const given = Object.fromEntries(words.map((word) => word.split('=')))
      for (const [control, position] of Object.entries(given)) {
        expect(circuit.controls.get(control)?.positions, setting).toContain(position)
      }
      const on = traceSetting(circuit, given).loads.filter((l) => l.on)
      const parts = new Set(on.map((l) => circuit.elements.get(l.load)?.part))
      expect([...parts].toSorted(), setting).toEqual(
        runs
          .split(',')
          .flatMap((p) => p.trim() || [])
          .toSorted(),
      )
    }
  })
})
