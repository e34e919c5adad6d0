import { StrictMode } from 'react'
import { createRoot } from 'react-dom/client'
import { App } from './app/app.tsx'
import { Providers } from './app/providers.tsx'
import { startOfflineApp } from './app/updates.ts'
import './ui/tokens.css'
import './ui/base.css'

createRoot(document.getElementById('root')!).render(
  <StrictMode>
    <Providers>
      <App />
    </Providers>
  </StrictMode>,
)

void startOfflineApp()
