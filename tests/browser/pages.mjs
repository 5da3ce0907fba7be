// Pages under watch: whatever a test does, nothing may reach the console as an error and no request may leave the origin.
import assert from 'node:assert/strict';
import { k_sizes } from './browser.mjs';

// `expected`: refusals a test provokes on purpose ("409"); Chromium writes each into the console.
export async function openPage(browser, server, path, { size = 'laptop', scheme = 'light', context = null } = {}) {
  const own =
    context ??
    (await browser.newContext({
      viewport: k_sizes[size],
      colorScheme: scheme,
      locale: 'en-GB',
      reducedMotion: 'reduce',
      hasTouch: size === 'phone',
    }));
  const page = await own.newPage();
  page.setDefaultTimeout(20_000);
  const watched = { errors: [], foreign: [], expected: [] };
  page.on('console', (message) => {
    if (message.type() === 'error') watched.errors.push(message.text());
  });
  page.on('pageerror', (error) => watched.errors.push(error.message));
  page.on('request', (request) => {
    const url = new URL(request.url());
    if (url.protocol.startsWith('http') && url.origin !== server.address) watched.foreign.push(request.url());
  });
  page.watched = watched;
  await page.goto(`${server.address}${path}`);
  return page;
}

export function assertClean(page) {
  const { errors, foreign, expected } = page.watched;
  const left = errors.filter((text) => !expected.some((pattern) => pattern.test(text)));
  assert.deepEqual(left, [], 'nothing in the console');
  assert.deepEqual(foreign, [], 'no request leaves the origin');
}

// Fields are found as a keeper finds them: by their label, within the form of an act where there are several.
export function formOf(page, title) {
  return page.locator('section', { has: page.getByRole('heading', { name: new RegExp(`^${title}`) }) });
}
