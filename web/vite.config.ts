import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig } from 'vitest/config';

// In development the API comes from a server that is already running: `undercroft serve --book FILE --port 18100`.
const k_server = process.env.UNDERCROFT_SERVER ?? 'http://127.0.0.1:18100';

// Beside each file that gets smaller by it, the same compressed: the program sends what is there.
function compressed() {
  let dist = '';
  return {
    name: 'compressed',
    apply: 'build' as const,
    configResolved(config: { root: string; build: { outDir: string } }) {
      dist = join(config.root, config.build.outDir);
      if (config.build.outDir.startsWith('/')) dist = config.build.outDir;
    },
    closeBundle() {
      for (const entry of readdirSync(dist, { recursive: true, withFileTypes: true })) {
        if (!entry.isFile() || !/\.(html|js|css|svg|json|webmanifest)$/.test(entry.name)) continue;
        const path = join(entry.parentPath ?? entry.path, entry.name);
        const bytes = readFileSync(path);
        const small = gzipSync(bytes, { level: 9 });
        if (small.length < bytes.length) writeFileSync(`${path}.gz`, small);
      }
    },
  };
}

export default defineConfig({
  plugins: [svelte(), compressed()],
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
  test: { environment: 'node', include: ['src/**/*.test.ts'] },
});
