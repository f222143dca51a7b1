import react from '@vitejs/plugin-react'
import { defineConfig } from 'vite'

export default defineConfig({
  root: import.meta.dirname,
  base: './',
  plugins: [react()],
  html: { cspNonce: '__CSP_NONCE__' }, // electron/assets.ts puts a fresh one in for every response
  build: {
    target: 'chrome140',
    assetsInlineLimit: 0, // a font in a data: address is what the policy forbids
    modulePreload: { polyfill: false },
    chunkSizeWarningLimit: 3000,
  },
  worker: { format: 'es' },
})
