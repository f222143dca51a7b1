export {
  type Event,
  type OperateOptions,
  type Operation,
  operate,
  type Settled,
  type Step,
  settingOf,
} from './operate.ts'
export {
  type Active,
  activeIn,
  impedanceOf,
  type Solved,
  shareOf,
  solveActive,
  type Wiring,
  wiringOf,
  works,
} from './wiring.ts'
