import type { Kind } from './kind.ts'
import { airflowKind } from './parts/airflow.ts'
import { areaKind } from './parts/area.ts'
import { assemblyKind } from './parts/assembly.ts'
import { beltSwitchKind } from './parts/belt-switch.ts'
import { biasHeaterKind } from './parts/bias-heater.ts'
import { boardKind } from './parts/board.ts'
import { burnerKind } from './parts/burner.ts'
import { buttonKind } from './parts/button.ts'
import { buzzerKind } from './parts/buzzer.ts'
import { capacitorKind } from './parts/capacitor.ts'
import { changeoverKind } from './parts/changeover.ts'
import { changeoverThermostatKind } from './parts/changeover-thermostat.ts'
import { coloursKind } from './parts/colours.ts'
import { controlKind } from './parts/control.ts'
import { cutoffKind } from './parts/cutoff.ts'
import { cycleSwitchKind, selectorKind } from './parts/cycle-switch.ts'
import { doorLockKind } from './parts/door-lock.ts'
import { driveKind } from './parts/drive.ts'
import { energyRegulatorKind } from './parts/energy-regulator.ts'
import { flameRodKind } from './parts/flame-rod.ts'
import { fuseKind } from './parts/fuse.ts'
import { heaterKind } from './parts/heater.ts'
import { igniterKind } from './parts/igniter.ts'
import { lampKind } from './parts/lamp.ts'
import { manualResetKind } from './parts/manual-reset.ts'
import { moistureBarsKind } from './parts/moisture-bars.ts'
import { motorKind } from './parts/motor.ts'
import { ovenThermostatKind } from './parts/oven-thermostat.ts'
import { ovenValveKind } from './parts/oven-valve.ts'
import { overloadKind } from './parts/overload.ts'
import { plugKind } from './parts/plug.ts'
import { priorsKind } from './parts/priors.ts'
import { pumpKind } from './parts/pump.ts'
import { radiantSensorKind } from './parts/radiant-sensor.ts'
import { rectifierKind } from './parts/rectifier.ts'
import { contactorKind, relayKind } from './parts/relay.ts'
import { resistorKind } from './parts/resistor.ts'
import { levelSwitchKind, pressureSwitchKind, sailSwitchKind } from './parts/sensed-switches.ts'
import { sensorKind } from './parts/sensor.ts'
import { spliceKind } from './parts/splice.ts'
import { strapKind } from './parts/strap.ts'
import { supplyKind } from './parts/supply.ts'
import { switchKind } from './parts/switch.ts'
import { terminalBlockKind } from './parts/terminal-block.ts'
import { thermopileKind } from './parts/thermopile.ts'
import { thermostatKind } from './parts/thermostat.ts'
import { timerMotorKind } from './parts/timer-motor.ts'
import { transformerKind } from './parts/transformer.ts'
import { unitKind } from './parts/unit.ts'
import { valveKind } from './parts/valve.ts'
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
  coloursKind,

  cycleSwitchKind,
  selectorKind,
  switchKind,
  buttonKind,
  changeoverKind,
  levelSwitchKind,
  pressureSwitchKind,
  sailSwitchKind,
  beltSwitchKind,
  fuseKind,
  cutoffKind,
  manualResetKind,
  thermostatKind,
  changeoverThermostatKind,
  radiantSensorKind,
  ovenThermostatKind,
  energyRegulatorKind,
  biasHeaterKind,
  heaterKind,
  lampKind,
  motorKind,
  timerMotorKind,
  buzzerKind,
  pumpKind,
  doorLockKind,
  igniterKind,
  valveKind,
  ovenValveKind,
  burnerKind,
  thermopileKind,
  resistorKind,
  capacitorKind,
  rectifierKind,
  sensorKind,
  flameRodKind,
  moistureBarsKind,
  transformerKind,
  boardKind,
  relayKind,
  contactorKind,
  overloadKind,
  assemblyKind,
  plugKind,
  terminalBlockKind,
  spliceKind,

  driveKind,
  airflowKind,
  zoneKind,
  runKind,
  wireKind,
  strapKind,
  priorsKind,
]
