import { StrictMode } from 'react'
import { createRoot } from 'react-dom/client'
import { z } from 'zod'
import { App } from './app/app.tsx'
import { Providers } from './app/providers.tsx'
import './ui/tokens.css'
import './ui/base.css'

// The content security policy allows no code made at run time, which zod would otherwise try.
z.config({ jitless: true })

createRoot(document.getElementById('root')!).render(
  <StrictMode>
    <Providers>
      <App />
    </Providers>
  </StrictMode>,
)
