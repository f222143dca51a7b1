import { readFileSync } from 'node:fs'
import { expect, it } from 'vitest'

it('packages with every fuse decided', () => {
  const { electronFuses, asar, files } = JSON.parse(readFileSync('electron/electron-builder.json', 'utf8'))
  expect(electronFuses).toEqual({
    runAsNode: false,
    enableCookieEncryption: true,
    enableNodeOptionsEnvironmentVariable: false,
    enableNodeCliInspectArguments: false,
    enableEmbeddedAsarIntegrityValidation: true,
    onlyLoadAppFromAsar: true,
    loadBrowserProcessSpecificV8Snapshot: false,
    grantFileProtocolExtraPrivileges: false,
  })
  expect(asar).toBe(true)
  expect(files).toEqual(['dist/**', 'package.json', '!node_modules/**'])
})
