import { svelte } from '@sveltejs/vite-plugin-svelte'
import { defineConfig } from 'vite'

// The policy of the server allows no inline style or script and no data: address, so nothing is
// put inside the page or its styles.
export default defineConfig({
  plugins: [svelte()],
  build: {
    assetsInlineLimit: 0,
    cssCodeSplit: false,
    modulePreload: { polyfill: false },
    target: 'es2022',
    // One file of each kind: the server embeds the folder, and a tablet asks once.
    rolldownOptions: {
      output: {
        codeSplitting: false,
        entryFileNames: 'assets/page-[hash].js',
        assetFileNames: 'assets/[name]-[hash][extname]'
      }
    }
  },
  server: { proxy: { '/api': 'http://127.0.0.1:8790' } }
})
