import path from 'node:path'
import { startApp } from './app.ts'

// Bundled to CommonJS (dist/electron/main.cjs), hence __dirname.
void startApp({
  rendererDir: path.join(__dirname, '../renderer'),
  demosDir: path.join(__dirname, '../schematics-demo'),
  preload: path.join(__dirname, 'preload.cjs'),
})
