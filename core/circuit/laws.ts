import type { Law, LawWhen, Test } from './model.ts'
import { ALWAYS } from './test.ts'

/**
 * Small resistances that are really there. They keep every closed path a branch of the network, so that an element can
 * be opened alone, and they are far below anything a load is. Common practice, no source: a sound contact or push-on
 * reads 5 to 30 milliohms.
 */
export const CONTACT: Law = { kind: 'path', ohms: 0.01 }
export const LINK: Law = { kind: 'path', ohms: 0.005 }
/** A few feet of hook-up wire with its two crimps. */
export const WIRE: Law = { kind: 'path', ohms: 0.005 }

/** The panel's and the branch circuit's share: 0.05 ohm a leg is a 1 V sag at 20 A. Common practice, no source. */
export const SOURCE_OHMS = 0.05
export const GROUND_OHMS = 0.1

/** Resistance while working, and to direct current where that is another. */
export const resistance = (ohms: number, dc = ohms): Law => ({ kind: 'impedance', re: ohms, im: 0, dc })

/** A coil of so many ohms while it works, of which `dc` are its wire's; the rest is reactance. */
export const inductive = (ohms: number, dc: number): Law =>
  dc < ohms ? { kind: 'impedance', re: dc, im: Math.sqrt(ohms ** 2 - dc ** 2), dc } : resistance(ohms, dc)

/** One law under a condition. */
export const lawWhen = (when: Test, law: Law): readonly LawWhen[] => [{ when, law }]
/** The same law whatever the state. */
export const lawAlways = (law: Law): readonly LawWhen[] => lawWhen(ALWAYS, law)
