import { StrictMode } from 'react'
import { createRoot } from 'react-dom/client'
import { App, loadFirst } from './app/app.tsx'
import { Providers } from './app/providers.tsx'
import { putBackTyped } from './app/typed-fields.ts'
import { startOfflineApp, watchForReplacement } from './app/updates.ts'
import './ui/tokens.css'
import './ui/base.css'

watchForReplacement()
await loadFirst(location.pathname)
createRoot(document.getElementById('root')!).render(
  <StrictMode>
    <Providers>
      <App />
    </Providers>
  </StrictMode>,
)

putBackTyped()
void startOfflineApp()
