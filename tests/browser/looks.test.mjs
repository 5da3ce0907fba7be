// What holds in every room: an accessibility scan, targets, schemes, sizes of what is loaded, the security policy.
import assert from 'node:assert/strict';
import { after, before, describe, test } from 'node:test';
import { AxeBuilder } from '@axe-core/playwright';
import { startBrowser } from './browser.mjs';
import { assertClean, openPage } from './pages.mjs';
import { k_rooms } from './rooms.mjs';
import { serveDemo, serveEmpty } from './server.mjs';

let browser, demo, empty;
before(async () => {
  browser = await startBrowser();
  demo = await serveDemo();
  empty = await serveEmpty();
});
after(async () => {
  await browser?.close();
  await demo?.stop();
  await empty?.stop();
});

async function settled(page) {
  await page.locator('main h1').first().waitFor();
  await page.waitForLoadState('networkidle', { timeout: 10_000 }).catch(() => {});
}

describe('no serious finding of the accessibility scanner', () => {
  for (const room of k_rooms) {
    // Colours come with the scheme and layout with the size: two scans meet all of both; the rooms used most get all four.
    const seen = [['laptop', 'light'], ['phone', 'dark']];
    if (['cellar', 'vessel', 'pull'].includes(room.name)) seen.push(['laptop', 'dark'], ['phone', 'light']);
    for (const [size, scheme] of seen) {
      test(`${room.name}, ${size}, ${scheme}`, { timeout: 60_000 }, async () => {
        const page = await openPage(browser, room.empty ? empty : demo, room.path, { size, scheme });
        await settled(page);
        if (room.prepare) await room.prepare(page);
        const scan = await new AxeBuilder({ page }).withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa']).analyze();
        const bad = scan.violations.filter((v) => v.impact === 'serious' || v.impact === 'critical');
        assert.deepEqual(bad.map((v) => `${v.id}: ${v.nodes.slice(0, 3).map((n) => n.html).join(' | ')}`), []);
        assertClean(page);
        await page.context().close();
      });
    }
  }
});

describe('targets are at least 44 px to the touch', () => {
  for (const room of k_rooms) {
    test(room.name, { timeout: 60_000 }, async () => {
      const page = await openPage(browser, room.empty ? empty : demo, room.path, { size: 'phone' });
      await settled(page);
      const small = await page.evaluate(() => {
        const found = [];
        for (const e of document.querySelectorAll('a[href], button, input, select, textarea, summary')) {
          // Links in running text are as high as their line (WCAG 2.5.8 allows them); the skip link is off the screen.
          if (e.closest('.aloud, .skip') || e.matches('.skip')) continue;
          if (e.tagName === 'A' && e.tabIndex === -1) continue;
          if (e.tagName === 'A' && e.closest('p') && !e.matches('.word-button') && e.closest('p').textContent.trim() !== e.textContent.trim() && !e.closest('header')) continue;
          // A box within its label is touched by the label.
          const box = (e.matches('input[type=radio], input[type=checkbox]') ? (e.closest('label') ?? e) : e).getBoundingClientRect();
          if (box.width === 0 || getComputedStyle(e).visibility === 'hidden') continue;
          if (box.height < 43.5 || box.width < 43.5) found.push(`${e.tagName} "${(e.getAttribute('aria-label') ?? e.textContent).trim().slice(0, 40)}" ${Math.round(box.width)} x ${Math.round(box.height)}`);
        }
        return found;
      });
      assert.deepEqual(small, []);
      const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
      assert.ok(wide <= 0, `${wide} px too wide for a phone`);
      await page.context().close();
    });
  }
});

test('the scheme follows the device, and can be chosen', { timeout: 60_000 }, async () => {
  const page = await openPage(browser, demo, '/settings', { scheme: 'dark' });
  await settled(page);
  const ground = () => page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor);
  assert.equal(await ground(), 'rgb(27, 34, 37)');
  await page.getByRole('radio', { name: 'ink on paper' }).check();
  assert.equal(await ground(), 'rgb(241, 238, 229)');
  await page.reload();
  await settled(page);
  assert.equal(await ground(), 'rgb(241, 238, 229)', 'it is remembered');
  assertClean(page);
  await page.context().close();
});

test('amounts are shown in the units that were chosen', { timeout: 60_000 }, async () => {
  const page = await openPage(browser, demo, '/settings');
  await settled(page);
  await page.getByRole('radio', { name: 'US gallons' }).check();
  await page.getByRole('radio', { name: '°F' }).check();
  await page.getByRole('link', { name: 'Undercroft' }).click();
  await page.getByText(/US gal/).first().waitFor();
  assertClean(page);
  await page.context().close();
});

test('script and style are at most 250 kB compressed, fonts at most 120 kB, and all of it comes from here', { timeout: 60_000 }, async () => {
  const page = await openPage(browser, demo, '/cellar');
  await settled(page);
  const names = await page.evaluate(() => [...document.querySelectorAll('script[src], link[rel=stylesheet]')].map((e) => e.src || e.href));
  let code = 0;
  let fonts = 0;
  for (const name of names) {
    const answer = await fetch(name, { headers: { 'Accept-Encoding': 'gzip' } });
    assert.equal(answer.headers.get('content-encoding'), 'gzip', name);
    code += Number(answer.headers.get('content-length'));
    const text = await answer.text();
    for (const font of new Set(text.match(/\/assets\/[\w.-]+\.woff2/g) ?? [])) {
      fonts += (await (await fetch(`${demo.address}${font}`)).arrayBuffer()).byteLength;
    }
  }
  console.log(`figure: script and style ${Math.round(code / 1000)} kB compressed, fonts ${Math.round(fonts / 1000)} kB`);
  assert.ok(code > 10_000 && code <= 250_000, `${code} bytes`);
  assert.ok(fonts > 10_000 && fonts <= 120_000, `${fonts} bytes`);
  assertClean(page);
  await page.context().close();
});

test('the security policy allows nothing inline, and the page needs nothing inline', { timeout: 60_000 }, async () => {
  const answer = await fetch(`${demo.address}/vessel/1`);
  const policy = answer.headers.get('content-security-policy') ?? '';
  assert.match(policy, /default-src 'none'/);
  assert.doesNotMatch(policy, /unsafe|\*/);
  const page = await openPage(browser, demo, '/vessel/1');
  await settled(page);
  assert.equal(await page.evaluate(() => document.querySelectorAll('[style]').length), 0);
  assertClean(page);
  await page.context().close();
});

test('on paper it is ink on white, without rooms and acts, and plots bring their tables', { timeout: 60_000 }, async () => {
  const page = await openPage(browser, demo, '/vessel/1', { scheme: 'dark' });
  await settled(page);
  await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
  await page.waitForFunction(() => document.documentElement.dataset.scheme === 'light');
  assert.equal(await page.getByRole('navigation', { name: 'Acts' }).isVisible(), false);
  assert.equal(await page.getByRole('navigation', { name: 'Rooms' }).isVisible(), false);
  assert.ok(await page.getByRole('table', { name: /Readings of/ }).isVisible());
  assert.equal(await page.evaluate(() => getComputedStyle(document.body).backgroundColor), 'rgb(255, 255, 255)');
  await page.context().close();
});
