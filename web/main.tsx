import { StrictMode } from 'react'
import { createRoot } from 'react-dom/client'
import { App, loadFirst } from './app/app.tsx'
import { Providers } from './app/providers.tsx'
import { startOfflineApp } from './app/updates.ts'
import './ui/tokens.css'
import './ui/base.css'

await loadFirst(location.pathname)
createRoot(document.getElementById('root')!).render(
  <StrictMode>
    <Providers>
      <App />
    </Providers>
  </StrictMode>,
)

void startOfflineApp()
