import { existsSync, readdirSync, readFileSync } from 'node:fs'
import path from 'node:path'
import { describe, expect, it } from 'vitest'
import { readCircuit } from '../core/circuit/index.ts'
import { traceSetting } from '../core/strings/index.ts'

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
    const [control] = [...circuit.controls.values()].filter((c) => !c.springsBack)
    const on = new Set<string>()
    const all = new Set<string>()
    for (const position of control?.positions ?? []) {
      for (const door of circuit.controls.get('door')?.positions ?? ['']) {
        const given = { [control?.name ?? '']: position, ...(door && { door }) }
        for (const load of traceSetting(circuit, given).loads) {
          all.add(load.load)
          if (load.on) on.add(load.load)
        }
      }
    }
    expect(all.size).toBeGreaterThan(0)
    expect([...on].toSorted()).toEqual([...all].toSorted())
  })
})
