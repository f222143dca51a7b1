import type { Circuit, ElementId } from '../../core/circuit/index.ts'
import type { LoadTrace, StringTable, Trace } from '../../core/strings/index.ts'
import { shortName } from '../../core/strings/index.ts'

/** Answers of the command line for people. */

const namesIn = (circuit: Circuit) => (id: ElementId) => {
  const element = circuit.elements.get(id)
  return element ? shortName(circuit, element) : id
}

export function traceText(circuit: Circuit, trace: Trace): string {
  const name = namesIn(circuit)
  const setting = Object.entries(trace.setting).map(([control, position]) => `${control}=${position}`)
  return [
    `Setting   ${setting.join(' ') || 'no controls'}`,
    `Story     ${trace.story.map((s) => s.text).join(' → ') || 'nothing moves'}`,
    ...trace.loads.flatMap((load) => ['', ...loadText(load, name)]),
  ].join('\n')
}

function loadText(load: LoadTrace, name: (id: ElementId) => string): readonly string[] {
  const list = (ids: readonly ElementId[]) => ids.map(name).join(', ')
  const line = (label: string, text: string) => (text === '' ? [] : [`  ${label.padEnd(14)}${text}`])
  const figures = `${load.volts.toFixed(load.volts < 10 ? 2 : 0)} V, ${load.amps.toFixed(load.amps < 1 ? 3 : 1)} A`
  const state = load.on ? (load.weak ? 'on, but weak' : 'on') : 'off'
  const [first, last] = load.poles
  const places = load.order.map((place) => (place.length === 1 ? list(place) : `(${place.map(name).join(' | ')})`))
  return [
    `${name(load.load)}  ${state}${load.on ? `  ${figures}` : ''}`,
    ...line('string', first === undefined ? places.join(' > ') : [first, ...places, last].join(' > ')),
    ...line('must be closed', ` ${list(load.mustBeClosed)}`.trimEnd()),
    ...line('through', list(load.through)),
    ...line('must be open', list(load.mustBeOpen)),
    ...load.anyOf.flatMap((group) => line('any of', list(group))),
    ...line('to start', list(load.toStart)),
    ...line('needs first', list(load.enablers)),
    ...line('must rest', list(load.mustRest)),
    ...(load.holdsItself ? line('', 'holds itself once it runs') : []),
    ...load.heldOpen.flatMap((held) => line('held open', `${name(held.element)}: ${held.reason}`)),
    ...load.falsePaths.flatMap((p) => line('false path', `${p.volts.toFixed(1)} V through ${name(p.through)}`)),
    ...line('would short', list(load.shorts)),
  ]
}

export function tableText(circuit: Circuit, table: StringTable): string {
  const name = namesIn(circuit)
  const rows = table.rows.map((row) => [
    Object.entries(row.setting)
      .map(([control, position]) => `${control}=${position}`)
      .join(' '),
    ...table.loads.map((load) => (row.strings[load] ? row.strings[load].map(name).join(' ') || 'on' : '–')),
  ])
  return columns([['setting', ...table.loads.map(name)], ...rows])
}

function columns(rows: readonly (readonly string[])[]): string {
  const widths = (rows[0] ?? []).map((_, k) => Math.max(...rows.map((row) => row[k]?.length ?? 0)))
  return rows
    .map((row) =>
      row
        .map((cell, k) => cell.padEnd(widths[k] ?? 0))
        .join('  ')
        .trimEnd(),
    )
    .join('\n')
}
