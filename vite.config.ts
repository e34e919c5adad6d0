import react from '@vitejs/plugin-react'
import { defineConfig } from 'vite'
import { VitePWA } from 'vite-plugin-pwa'

/** The web client: sources in `web`, built into `dist/web`, which the server hands out. In development it asks a running server. */
export default defineConfig({
  root: 'web',
  plugins: [
    react(),
    VitePWA({
      // A newer version waits until somebody asks for it: never a reload in the middle of a sheet (web/app/updates.ts).
      registerType: 'prompt',
      injectRegister: null,
      manifest: {
        name: 'Reviewstand',
        short_name: 'Reviewstand',
        description: 'Who may stand, and the grade sheet on the drill field',
        id: '/',
        start_url: '/',
        scope: '/',
        display: 'standalone',
        background_color: '#faf8f3',
        theme_color: '#131a23',
        icons: [
          { src: '/icons/icon-192.png', sizes: '192x192', type: 'image/png' },
          { src: '/icons/icon-512.png', sizes: '512x512', type: 'image/png' },
          { src: '/icons/icon-maskable-512.png', sizes: '512x512', type: 'image/png', purpose: 'maskable' },
        ],
      },
      workbox: {
        // The whole app of one version, so that no page of it asks for a file that a newer version has replaced.
        globPatterns: ['**/*.{js,css,html,svg,woff2}'],
        // Answers of the API are kept in no cache; what grading needs stands in the device's own database.
        navigateFallback: '/index.html',
        navigateFallbackDenylist: [/^\/api\//],
        // A first visit is served from what it has just kept, too.
        clientsClaim: true,
        cleanupOutdatedCaches: true,
        // Notifications, as they come and as they are tapped.
        importScripts: ['/push-worker.js'],
        sourcemap: false,
      },
    }),
  ],
  build: {
    outDir: '../dist/web',
    emptyOutDir: true,
    // The server reads from it what a desk needs, and says so in the page.
    manifest: true,
    target: 'es2023',
    // light-dark() is left to the browser; a polyfill of it would double every token.
    cssTarget: ['chrome123', 'firefox120', 'safari17.5'],
    // A strict content security policy allows no data: URLs.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    rolldownOptions: {
      // An endpoint is a text, written where it is called.
      optimization: { inlineConst: { mode: 'all', pass: 2 } },
      output: {
        // Few requests, and nothing early that only one page needs: what every page needs in two files, then one a page.
        codeSplitting: {
          groups: [
            {
              name: 'libraries',
              test: /node_modules[\\/](react|react-dom|scheduler|@tanstack|wouter|regexparam|mitt|use-sync-external-store)[\\/]/,
            },
            {
              // With zod comes what keeps it from making code at run time, which must be said before any schema is made.
              name: 'zod',
              test: /node_modules[\\/]zod[\\/]|no-run-time-code/,
            },
            {
              name: 'shared',
              test: /web[\\/](api|charts|domain|parts|ui|words)[\\/](?!plot[\\/]|findings[\\/]findings-deep|record[\\/]format|first-steps[\\/]format)|web[\\/]paths|server[\\/](contract[\\/](?!findings[\\/])|domain[\\/])/,
              minShareCount: 4,
            },
            {
              // What keeps sheets on a phone comes in one piece, with whoever needs any of it.
              name: 'device',
              test: /web[\\/](device|domain[\\/]sheets[\\/](grading|reading|scored-standard))|node_modules[\\/]idb[\\/]/,
              minShareCount: 2,
              includeDependenciesRecursively: false,
            },
            {
              name: 'findings',
              test: /web[\\/](features[\\/]findings|charts[\\/]plot|api[\\/]findings[\\/]findings-deep)/,
              minShareCount: 3,
              includeDependenciesRecursively: false,
            },
          ],
        },
      },
    },
  },
  server: { proxy: { '/api': 'http://127.0.0.1:4180' } },
})
