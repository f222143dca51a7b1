export {
  type OperateOptions,
  type Operation,
  operate,
  type Settled,
  type Step,
} from './operate.ts'
export {
  type Solved,
  shareOf,
  solveActive,
  type Wiring,
  wiringOf,
  works,
} from './wiring.ts'
