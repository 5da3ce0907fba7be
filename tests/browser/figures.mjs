// How fast the page draws, told by the browser itself: node figures.mjs. Needs UNDERCROFT_BINARY, as the tests do.
//   first drawing     from the first request to the section on the screen, on the demo cellar, with the processor slowed down four times
//   long tasks        of a vessel with 2,000 entries and 300 lots: while it is drawn, and while it is scrolled
import { startBrowser, k_sizes } from './browser.mjs';
import { serveDemo, serveEmpty } from './server.mjs';

const k_slowed = 4;
const k_visits = 500; // of four entries each
const refilled = (visit) => visit % 5 < 3; // so many lots come to 300 and the first

// Keeps every long task (over 50 ms) the browser tells of.
const k_watch = () => {
  globalThis.longTasks = [];
  new PerformanceObserver((list) => globalThis.longTasks.push(...list.getEntries().map((e) => e.duration))).observe({ type: 'longtask', buffered: true });
};

async function send(server, acts, when, number) {
  const key = `019ceef1-0000-7000-8000-${number.toString(16).padStart(12, '0')}`;
  const answer = await fetch(`${server.address}/api/v1/sittings`, { method: 'POST', headers: { 'Content-Type': 'application/json' }, body: JSON.stringify({ key, acts, when }) });
  if (answer.status !== 201) throw new Error(`${answer.status}: ${await answer.text()}`);
}

const browser = await startBrowser();
try {
  const demo = await serveDemo();
  for (const [size, viewport] of Object.entries(k_sizes)) {
    const times = [];
    for (let i = 0; i < 5; ++i) {
      const context = await browser.newContext({ viewport });
      const page = await context.newPage();
      const slow = await context.newCDPSession(page);
      await slow.send('Emulation.setCPUThrottlingRate', { rate: k_slowed });
      await page.addInitScript(() => {
        const drawn = () => {
          const vessel = document.querySelector('main svg path, main svg rect');
          if (!vessel) return requestAnimationFrame(drawn);
          // On the screen after the next frame.
          requestAnimationFrame(() => (globalThis.drawnAt = performance.now()));
        };
        requestAnimationFrame(drawn);
      });
      await page.goto(`${demo.address}/cellar`);
      await page.waitForFunction(() => globalThis.drawnAt !== undefined, null, { timeout: 30_000 });
      times.push(await page.evaluate(() => globalThis.drawnAt));
      await context.close();
    }
    times.sort((a, b) => a - b);
    console.log(`figure: first drawing of the demo cellar, ${size}, processor slowed ${k_slowed} times: median ${Math.round(times[2])} ms of ${times.map((t) => Math.round(t)).join(', ')}`);
  }
  await demo.stop();

  const server = await serveEmpty();
  let number = 1;
  await send(server, [{ act: 'vessel', name: 'Old oak', capacity: '60 L', role: 'solera', material: 'oak' }, { act: 'lot', vessel: 'Old oak', name: 'Founding', volume: '50 L', original_gravity: '1.048', reason: 'fill' }], '2006-01-01', number++);
  for (let i = 0; i < k_visits; ++i) {
    const day = new Date(Date.UTC(2006, 0, 10 + 14 * i)).toISOString().slice(0, 10);
    await send(
      server,
      [
        { act: 'reading', subject: 'Old oak', gravity: `1.00${40 + (i % 9)}`, ph: `3.4${i % 9}`, temperature: `${10 + (i % 12)} C` },
        { act: 'tasting', subject: 'Old oak', words: `hay ${i}`, scores: [`sour=${4 + (i % 4)}`] },
        ...(refilled(i)
          ? [
              { act: 'loss', vessel: 'Old oak', volume: '2 L', cause: 'served' },
              { act: 'lot', vessel: 'Old oak', name: `Brew ${i + 1}`, volume: '2 L', original_gravity: '1.048', reason: 'refill' },
            ]
          : ['the lock was dry', 'smelt of hay'].map((words) => ({ act: 'note', subject: 'Old oak', words }))),
      ],
      day,
      number++,
    );
  }
  for (const [size, viewport] of Object.entries(k_sizes)) {
    const context = await browser.newContext({ viewport });
    const page = await context.newPage();
    await page.addInitScript(k_watch);
    await page.goto(`${server.address}/vessel/1`);
    await page.getByRole('heading', { name: 'Age river' }).waitFor({ timeout: 60_000 });
    await page.waitForLoadState('networkidle');
    const drawing = await page.evaluate(() => globalThis.longTasks.splice(0));
    for (let y = 0; y < 40; ++y) {
      await page.mouse.wheel(0, 300);
      await page.waitForTimeout(30);
    }
    await page.waitForTimeout(300);
    const scrolling = await page.evaluate(() => globalThis.longTasks.splice(0));
    const most = (list) => (list.length ? `longest task ${Math.round(Math.max(...list))} ms` : 'no task over 50 ms');
    console.log(`figure: a vessel of ${4 * k_visits + 2} entries and ${1 + (k_visits * 3) / 5} lots, ${size}: drawn with ${most(drawing)}, scrolled with ${most(scrolling)}`);
    await context.close();
  }
  await server.stop();
} finally {
  await browser.close();
}
