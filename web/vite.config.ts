import { svelte } from '@sveltejs/vite-plugin-svelte';
import { svelteTesting } from '@testing-library/svelte/vite';
import { defineConfig } from 'vitest/config';

// In development the API comes from a server that is already running: `undercroft serve --book FILE --port 18100`.
const k_server = process.env.UNDERCROFT_SERVER ?? 'http://127.0.0.1:18100';

export default defineConfig({
  plugins: [svelte(), svelteTesting()],
  build: {
    outDir: process.env.UNDERCROFT_WEB_DIST ?? '../build/web-dist',
    emptyOutDir: true,
    target: 'es2022',
    cssCodeSplit: false,
    assetsInlineLimit: 0, // the security policy allows no data: fonts
    modulePreload: { polyfill: false },
    reportCompressedSize: false,
  },
  server: {
    host: '127.0.0.1',
    port: Number(process.env.UNDERCROFT_WEB_PORT ?? 18150),
    proxy: { '/api': { target: k_server, changeOrigin: true, headers: { origin: k_server } } },
  },
  test: { environment: 'jsdom', include: ['src/**/*.test.ts'] },
});
