/* The page is three files: one document, one script, one style sheet. `npm run dev` serves it from the
 * sources and passes /api on to a running `pare serve`, whose address PARE_SERVE gives. */
import { svelte } from '@sveltejs/vite-plugin-svelte'
import { defineConfig } from 'vite'

export default defineConfig({
    base: './',
    plugins: [svelte()],
    build: {
        target: 'es2022',
        assetsInlineLimit: 0, // the server's policy allows no data: URL
        cssCodeSplit: false,
        modulePreload: false,
        reportCompressedSize: true,
        rollupOptions: {
            output: {
                inlineDynamicImports: true,
            },
        },
    },
    server: {
        host: '127.0.0.1',
        proxy: { '/api': { target: process.env.PARE_SERVE ?? 'http://127.0.0.1:8080' } },
    },
})
