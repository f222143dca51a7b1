import type { Problem, Span } from '../netlist/tree.ts'

/**
 * All that a review can find, by code: one sentence that says what is wrong, one that says what to do. HELP.md explains
 * each with a netlist. A warning was understood as typed and may be a slip; an error says better what a line cannot be.
 */

interface Wording {
  readonly message: string
  readonly hint: string
  readonly severity?: 'error'
}

/** `TF, OT and HL`, cut where nobody would read on. */
export function list(names: readonly string[]): string {
  const most = 6
  const shown = names.length > most ? [...names.slice(0, most), `${names.length - most} more`] : names
  const last = shown.at(-1) ?? ''
  return shown.length < 2 ? last : `${shown.slice(0, -1).join(', ')} and ${last}`
}

const verb = (names: readonly string[], one: string, several: string): string => (names.length === 1 ? one : several)
const figure = (value: number): string => `${Number(value.toPrecision(3))}`

export const messages = {
  // What hangs in the air.
  'loose-terminal': (terminal: string, element: string): Wording => ({
    message: `No wire is at ${terminal}, so ${element} leads nowhere.`,
    hint: `Add its wire: \`wire ${terminal} …\`.`,
  }),
  'never-fed': (load: string): Wording => ({
    message: `${load} is on in no setting.`,
    hint: 'Compare the contacts of its string with the sheet: some of them are never closed together.',
  }),
  'always-on': (load: string): Wording => ({
    message: `${load} is on in every setting.`,
    hint: 'Compare where its wires begin with the sheet: no control turns it off.',
  }),
  'dead-short': (poles: readonly string[], through: readonly string[], setting: string): Wording => ({
    message: `${setting}, ${list(poles)} are joined with no load between${through.length > 0 ? `, through ${list(through)}` : ''}.`,
    hint: 'Correct the wire that goes around the load, or the contact that should be open there.',
  }),

  // Heat.
  'in-no-zone': (devices: readonly string[]): Wording => ({
    message: `${list(devices)} ${verb(devices, 'is', 'are')} in no zone, so nothing ever warms ${verb(devices, 'it', 'them')}.`,
    hint: 'Add `zone` with the name of the place whose heat it senses, and a `zone` line for that place.',
  }),
  'nothing-warms': (zone: string, devices: readonly string[]): Wording => ({
    message: `Nothing warms zone ${zone}, so ${list(devices)} never ${verb(devices, 'moves', 'move')}.`,
    hint: 'Add `warms with` and the names of the heaters in it.',
  }),
  unprotected: (load: string, zone: string, devices: readonly string[], setting: string): Wording => ({
    message: `${setting}, ${load} runs even when ${list(devices)} of zone ${zone} ${verb(devices, 'has', 'have')} opened.`,
    hint: `Compare the wires of ${load} with the sheet: they may go around ${list(devices)}.`,
  }),
  'swapped-temperatures': (device: string, load: string): Wording => ({
    message: `${device} closes only once it is hot, and ${load}, which heats it, needs it closed.`,
    hint: 'Exchange `opens` and `closes` if it opens on rise.',
  }),
  'celsius-or-fahrenheit': (device: string, value: number, others: string): Wording => ({
    message: `${value} °C is far too hot for ${device}, beside ${others} in its zone.`,
    hint: `Write \`${value} F\` if the sheet or the part says ${value} °F, which is ${Math.round(((value - 32) * 5) / 9)} °C.`,
  }),

  // Ratings.
  'too-many-volts': (load: string, rated: number, volts: number, setting: string): Wording => ({
    message: `${setting}, ${load} gets ${figure(volts)} V and is made for ${figure(rated)} V.`,
    hint: 'Correct its volts, or the leg that one of its ends goes to.',
  }),
  'too-few-volts': (load: string, rated: number, volts: number): Wording => ({
    message: `${load} never gets more than ${figure(volts)} V and is made for ${figure(rated)} V.`,
    hint: 'Correct its volts, or the leg that one of its ends goes to.',
  }),
  'small-breaker': (breaker: number, amps: number, loads: readonly string[], setting: string): Wording => ({
    message: `${setting}, ${list(loads)} ${verb(loads, 'takes', 'take')} ${figure(amps)} A from a breaker for ${figure(breaker)} A.`,
    hint: 'Correct the breaker, or the ratings of what it feeds.',
  }),
  'small-fuse': (fuse: string, rated: number, amps: number, setting: string): Wording => ({
    message: `${setting}, ${fuse} is opened by what runs through it in use: ${figure(amps)} A, at a rating of ${figure(rated)} A.`,
    hint: 'Correct its rating, or those of the loads behind it.',
  }),
  'fuse-in-degrees': (fuse: string): Wording => ({
    message: `${fuse} is typed as a fuse, which current opens, and has a temperature.`,
    hint: `Begin its line with \`cutoff\` and write \`opens\` before the temperature, if heat opens it.`,
    severity: 'error',
  }),
  'cutoff-in-amps': (cutoff: string): Wording => ({
    message: `${cutoff} is typed as a cutoff, which heat opens, and has amps.`,
    hint: `Begin its line with \`fuse\` and write \`blows\` before the amps, if current opens it.`,
    severity: 'error',
  }),

  // Ground.
  'no-ground': (): Wording => ({
    message: 'Nothing joins the chassis to ground.',
    hint: 'Add the ground wire: `wire GNYE supply.G chassis`.',
  }),
  'strap-and-ground': (): Wording => ({
    message: 'Neutral is joined to the chassis, and a ground wire is too.',
    hint: 'Take out the strap where the cord has a ground wire; only a cord of three wires has a strap.',
  }),
}

/** A stable name for what a review finds. */
export type ReviewCode = keyof typeof messages
/** What the sentences speak of. */
export type ReviewWords = { readonly [C in ReviewCode]: Parameters<(typeof messages)[C]> }

const table: { readonly [C in ReviewCode]: (...words: ReviewWords[C]) => Wording } = messages

/** The problem `code` at `span`. */
export function problem<C extends ReviewCode>(code: C, { from, to }: Span, ...words: ReviewWords[C]): Problem {
  const { message, hint, severity = 'warning' } = table[code](...words)
  return { code, severity, from, to, message, hint }
}
