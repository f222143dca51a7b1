import type { Kind } from './kind.ts'
import { airflowKind } from './parts/airflow.ts'
import { areaKind } from './parts/area.ts'
import { buttonKind } from './parts/button.ts'
import { changeoverKind } from './parts/changeover.ts'
import { controlKind } from './parts/control.ts'
import { cutoffKind } from './parts/cutoff.ts'
import { cycleSwitchKind } from './parts/cycle-switch.ts'
import { driveKind } from './parts/drive.ts'
import { fuseKind } from './parts/fuse.ts'
import { heaterKind } from './parts/heater.ts'
import { lampKind } from './parts/lamp.ts'
import { motorKind } from './parts/motor.ts'
import { resistorKind } from './parts/resistor.ts'
import { spliceKind } from './parts/splice.ts'
import { supplyKind } from './parts/supply.ts'
import { switchKind } from './parts/switch.ts'
import { thermostatKind } from './parts/thermostat.ts'
import { timerMotorKind } from './parts/timer-motor.ts'
import { unitKind } from './parts/unit.ts'
import { runKind, wireKind } from './parts/wire.ts'
import { zoneKind } from './parts/zone.ts'

/**
 * Every kind of line the language knows, in the order in which a netlist is best typed: each after those it speaks of.
 * Hints and help list them so. A new kind is one file in parts/ and one line here, and a
 * line in messages.ts for each problem that no other kind has.
 */
export const catalogue: readonly Kind[] = [
  unitKind,
  supplyKind,
  areaKind,
  controlKind,

  cycleSwitchKind,
  switchKind,
  buttonKind,
  changeoverKind,
  fuseKind,
  cutoffKind,
  thermostatKind,
  heaterKind,
  lampKind,
  motorKind,
  timerMotorKind,
  resistorKind,
  spliceKind,

  driveKind,
  airflowKind,
  zoneKind,
  runKind,
  wireKind,
]
