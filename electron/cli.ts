export {}

/** A verb of the command line: takes what follows its name, returns the exit status. */
interface Verb {
  readonly summary: string
  readonly run: (args: readonly string[]) => Promise<number>
}

const verbs: Readonly<Record<string, Verb>> = {}

const usage = (): string =>
  ['usage: halfsplit VERB FILE …', ...Object.entries(verbs).map(([name, { summary }]) => `  ${name}  ${summary}`)].join(
    '\n',
  )

const [name = '', ...args] = process.argv.slice(2)
const verb = Object.hasOwn(verbs, name) ? verbs[name] : undefined
if (name === '--help') {
  console.log(usage())
} else if (verb === undefined) {
  console.error(name === '' ? usage() : `halfsplit: there is no verb “${name}”.\n${usage()}`)
  process.exitCode = 2
} else {
  process.exitCode = await verb.run(args)
}
