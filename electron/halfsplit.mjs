#!/usr/bin/env node
// halfsplit VERB FILE …: installs and builds what is missing, then hands over to the command line.
import path from 'node:path'
import { pathToFileURL } from 'node:url'
import { ensureBuilt, ensureDependencies, root } from './setup.mjs'

ensureDependencies()
if (!ensureBuilt()) process.exit(1)
// `npm run` moves to the project's folder; files are named from where the user stands.
if (process.env.npm_lifecycle_event === 'halfsplit' && process.env.INIT_CWD) process.chdir(process.env.INIT_CWD)
await import(pathToFileURL(path.join(root, 'dist/electron/cli.mjs')).href)
