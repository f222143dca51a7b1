import { StrictMode } from 'react'
import { createRoot } from 'react-dom/client'
import { App } from './App.tsx'
import { createClient, httpBridge, takeToken } from './bridge.ts'

// Dialogs add a <style> while they lock scrolling; it takes its nonce for the content security policy from this global.
Object.assign(globalThis, {
  __webpack_nonce__: document.querySelector<HTMLMetaElement>('meta[property=csp-nonce]')?.nonce,
})

const root = document.getElementById('root')
if (!root) throw new Error('index.html has no #root')
const bridge = window.host ?? httpBridge(takeToken(location, history, sessionStorage))
createRoot(root).render(
  <StrictMode>
    <App client={createClient(bridge)} />
  </StrictMode>,
)
