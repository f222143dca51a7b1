import { readdirSync, readFileSync } from 'node:fs'
import { it } from 'vitest'
import { isRefusal, rename, removePart } from './edits.ts'
import { study } from './study.ts'
import { readCircuit } from './index.ts'
import { allProblems } from '../review/index.ts'
it('x', () => {
  for (const f of readdirSync('schematics-demo').filter((f) => f.endsWith('.circuit'))) {
    const text = readFileSync(`schematics-demo/${f}`, 'utf8')
    const t = performance.now()
    const p = allProblems(text, readCircuit(text))
    console.log(f, Math.round(performance.now() - t), p.map((x) => `${x.code}: ${x.message} [${text.slice(x.from, x.to)}]`).join('\n   '))
    for (const line of study(text).lines) {
      if (line.kind.named !== 'shared' || line.name === 'supply') continue
      const e = rename(text, { kind: 'part', name: line.name }, 'Zz9')
      if (isRefusal(e)) console.log(f, line.name, e.code, e.message)
      const r = removePart(text, line.name)
      if (isRefusal(r) && r.code !== 'spoken-of') console.log(f, 'remove', line.name, r.code, r.message)
    }
  }
}, 100000)
