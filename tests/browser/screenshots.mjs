// Pictures of every room at both sizes and in both schemes, for eyes: node screenshots.mjs [FOLDER] [WORD IN THE ROOM'S NAME]
// Serves the demo cellar by UNDERCROFT_BINARY, or asks UNDERCROFT_ADDRESS when that is set. FOLDER is build/screenshots unless named.
import { mkdirSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { k_sizes, startBrowser } from './browser.mjs';
import { k_rooms } from './rooms.mjs';

const here = dirname(fileURLToPath(import.meta.url));
const folder = process.argv[2] ?? join(here, '../../build/screenshots');
const only = process.argv[3] ?? '';
mkdirSync(folder, { recursive: true });

let server = null;
let empty = null;
let address = process.env.UNDERCROFT_ADDRESS;
if (!address) {
  const { serveDemo, serveEmpty } = await import('./server.mjs');
  server = await serveDemo();
  empty = await serveEmpty();
  address = server.address;
}
const browser = await startBrowser();
try {
  for (const [size, viewport] of Object.entries(k_sizes)) {
    for (const colorScheme of ['light', 'dark']) {
      for (const room of k_rooms.filter((r) => r.name.includes(only))) {
        // A sitting begun in one room would stand in the next.
        const context = await browser.newContext({ viewport, colorScheme, reducedMotion: 'reduce', locale: 'en-GB', hasTouch: size === 'phone' });
        const page = await context.newPage();
        page.on('console', (m) => m.type() === 'error' && console.log(`${room.name}: ${m.text()}`));
        page.on('pageerror', (e) => console.log(`${room.name}: ${e.message}`));
        await page.goto(`${room.empty ? (empty?.address ?? address) : address}${room.path}`);
        await page.waitForLoadState('networkidle', { timeout: 15000 }).catch(() => {});
        if (room.prepare) await room.prepare(page);
        await page.screenshot({ path: join(folder, `${room.name}-${size}-${colorScheme}.png`), fullPage: room.whole !== false });
        await context.close();
      }
    }
  }
} finally {
  await browser.close();
  await server?.stop();
  await empty?.stop();
}
console.log(`in ${folder}`);
