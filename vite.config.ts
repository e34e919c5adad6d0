import react from '@vitejs/plugin-react'
import { defineConfig } from 'vite'

/** The web client: sources in `web`, built into `dist/web`, which the server hands out. In development it asks a running server. */
export default defineConfig({
  root: 'web',
  plugins: [react()],
  build: {
    outDir: '../dist/web',
    emptyOutDir: true,
    target: 'es2023',
    // light-dark() is left to the browser; a polyfill of it would double every token.
    cssTarget: ['chrome123', 'firefox120', 'safari17.5'],
    // A strict content security policy allows no data: URLs.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    rolldownOptions: {
      output: {
        // Few requests: what every page needs in two files, then one a page.
        codeSplitting: {
          groups: [
            { name: 'libraries', test: /node_modules[\\/](?!temporal)/ },
            { name: 'shared', test: /web[\\/](api|charts|model|ui|words)[\\/]|server[\\/](contract|domain)[\\/]/ },
          ],
        },
      },
    },
  },
  server: { proxy: { '/api': 'http://127.0.0.1:4180' } },
})
