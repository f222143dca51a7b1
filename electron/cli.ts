import { command } from './command/verbs.ts'

process.exitCode = await command(process.argv.slice(2), { say: console.log, tell: console.error })
