import { fileURLToPath } from 'node:url'
import react from '@vitejs/plugin-react'
import { defineConfig, type Plugin } from 'vite'
import { VitePWA } from 'vite-plugin-pwa'

/**
 * The page runs no text as code and calls no one: scripts, styles, fonts and workers are its own files. Only in the
 * build, because the development server's own preamble is an inline script.
 */
const contentPolicy = (): Plugin => ({
  name: 'content-policy',
  apply: 'build',
  transformIndexHtml: () => [
    {
      tag: 'meta',
      injectTo: 'head-prepend',
      attrs: {
        'http-equiv': 'Content-Security-Policy',
        content: [
          "default-src 'none'",
          "script-src 'self'",
          "style-src 'self'",
          "img-src 'self' data: blob:",
          "font-src 'self'",
          "connect-src 'self'",
          "worker-src 'self'",
          "manifest-src 'self'",
          "base-uri 'none'",
          "form-action 'none'",
        ].join('; '),
      },
    },
  ],
})

// A test runner says NODE_ENV=test to all that it starts; the page that is tested must be the page that is shipped.
if (process.argv.includes('build')) process.env['NODE_ENV'] = 'production'

export default defineConfig({
  base: './',
  resolve: {
    // The library's sources, so that the page type-checks and builds without the library's own build.
    alias: [
      { find: /^@swashtrue\/mixing$/, replacement: fileURLToPath(new URL('../mixing/src/index.ts', import.meta.url)) },
      { find: /^@swashtrue\/mixing\/bench$/, replacement: fileURLToPath(new URL('../mixing/src/bench.ts', import.meta.url)) },
      { find: /^@swashtrue\/mixing\/written$/, replacement: fileURLToPath(new URL('../mixing/src/written.ts', import.meta.url)) },
    ],
  },
  worker: { format: 'es' },
  build: { target: 'es2022', chunkSizeWarningLimit: 1200 },
  plugins: [
    react(),
    contentPolicy(),
    VitePWA({
      registerType: 'autoUpdate',
      injectRegister: null,
      includeAssets: ['icon.svg'],
      workbox: { globPatterns: ['**/*.{js,css,html,svg,woff2,json}'], maximumFileSizeToCacheInBytes: 6e6 },
      manifest: {
        name: 'Swashtrue',
        short_name: 'Swashtrue',
        description: 'The three-servo swashplate of a model helicopter, seen moving',
        display: 'standalone',
        start_url: './',
        scope: './',
        background_color: '#efece4',
        theme_color: '#efece4',
        icons: [{ src: 'icon.svg', sizes: 'any', type: 'image/svg+xml', purpose: 'any' }],
      },
    }),
  ],
})
