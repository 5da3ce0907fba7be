// A keeper's visit, on the page of the real program: founding, sittings, what goes wrong under it, and who else is there.
import assert from 'node:assert/strict';
import { after, before, describe, test } from 'node:test';
import { startBrowser } from './browser.mjs';
import { assertClean, formOf, openPage } from './pages.mjs';
import { serveDemo, serveEmpty } from './server.mjs';

let browser;
before(async () => {
  browser = await startBrowser();
});
after(async () => {
  await browser?.close();
});

const volumeOf = async (server, name) => {
  const cellar = await server.ask('/cellar');
  return Number(cellar.vessels.find((v) => v.name === name).volume.value);
};

async function withServer(make, then) {
  const server = await make();
  try {
    await then(server);
  } finally {
    await server.stop();
  }
}

describe('a turn from an empty book', () => {
  for (const size of ['phone', 'laptop']) {
    test(`on a ${size}: found, pull, refill, read, taste`, { timeout: 240_000 }, () =>
      withServer(serveEmpty, async (server) => {
        const page = await openPage(browser, server, '/', { size });
        await page.getByText('Nothing stands here yet').waitFor();
        await page.getByRole('link', { name: 'Found a solera' }).click();
        await page.getByLabel('to draw in a year').fill('20');
        await page.getByLabel('mean age of what is drawn').fill('1 year');
        await page.getByRole('button', { name: 'Work it out' }).click();
        await page.getByRole('button', { name: 'Choose design 1' }).click({ timeout: 60_000 });
        await page.getByLabel('name', { exact: true }).fill('First Row');
        await page.getByLabel('original gravity of the first fill').fill('1.048');
        await page.getByRole('button', { name: /^Book: found it/ }).click();
        await page.getByRole('link', { name: /^First Row, / }).first().waitFor();

        // A jar for the portion.
        await page.goto(`${server.address}/sitting/vessel`);
        await page.getByLabel('name', { exact: true }).fill('Jar 10');
        await page.getByLabel('holds, brimful').fill('10');
        await page.getByLabel('made of').fill('glass');
        await page.getByRole('button', { name: /^Book/ }).click();
        await page.getByRole('heading', { name: /^Booked/ }).waitFor();

        const held = await volumeOf(server, 'First Row');
        const cellar = await server.ask('/cellar');
        const solera = cellar.vessels.find((v) => v.name === 'First Row').number;
        await page.goto(`${server.address}/vessel/${solera}`);
        await page.getByRole('link', { name: 'Pull', exact: true }).click();
        await page.getByRole('textbox', { name: 'how much' }).fill('6');
        await page.getByRole('radio', { name: /^Jar 10/ }).check();
        await page.getByRole('button', { name: '+ refill' }).click();
        await formOf(page, 'Refill').getByLabel('original gravity').fill('1.050');
        await page.getByRole('button', { name: '+ reading' }).click();
        await formOf(page, 'Read').getByLabel('gravity', { exact: true }).fill('1.010');
        await formOf(page, 'Read').getByLabel('pH').fill('3.6');
        await page.getByRole('button', { name: '+ tasting' }).click();
        await formOf(page, 'Taste').getByLabel('in one line').fill('sour 4, thin yet');
        await formOf(page, 'Taste').getByLabel('taster').fill('Ines');
        await page.getByRole('button', { name: 'Book 4 acts' }).click();
        await page.getByRole('heading', { name: /^Booked/ }).waitFor();
        assert.equal(await volumeOf(server, 'Jar 10'), 6);
        assert.equal(await volumeOf(server, 'First Row'), held, 'what was pulled went back in');

        await page.getByRole('button', { name: 'To First Row' }).click();
        await page.getByRole('heading', { level: 1, name: 'First Row' }).waitFor();
        await page.getByText('sourness 4').first().waitFor();
        assertClean(page);
        await page.context().close();
      }));
  }
});

test('a pull, a refill, three readings and a tasting line take at most 12 touches', { timeout: 120_000 }, () =>
  withServer(serveDemo, async (server) => {
    const page = await openPage(browser, server, '/cellar', { size: 'phone' });
    let touches = 0;
    // What a finger does: every tap counts, typing into what has the focus does not.
    const tap = async (what) => {
      touches++;
      await what.tap();
    };
    const type = (text) => page.keyboard.type(text);
    await tap(page.getByRole('link', { name: /^The Amber, / }).first());
    await tap(page.getByRole('link', { name: 'Pull', exact: true }));
    await page.getByText('pulls from The Amber').waitFor();
    await tap(page.getByRole('button', { name: '+ refill' }));
    await formOf(page, 'Refill').getByLabel('original gravity').waitFor();
    await type('1.049');
    await tap(page.getByRole('button', { name: '+ reading' }));
    await formOf(page, 'Read').getByLabel('pH').waitFor();
    await type('1.0049');
    await tap(formOf(page, 'Read').getByLabel('pH'));
    await type('3.45');
    await tap(formOf(page, 'Read').getByLabel('titratable acidity'));
    await type('6.3');
    await tap(page.getByRole('button', { name: '+ tasting' }));
    await formOf(page, 'Taste').getByLabel('in one line').waitFor();
    await type('sour 6, funk 5, apricot');
    await tap(page.getByRole('button', { name: 'Book 4 acts' }));
    await page.getByRole('heading', { name: /^Booked/ }).waitFor();
    const entries = (await server.ask('/entries?most=4')).entries;
    assert.deepEqual(entries.map((e) => e.kind).sort(), ['lot', 'move', 'reading', 'tasting']);
    assert.match(entries.map((e) => e.text).join('\n'), /1\.0049.*3\.45.*6\.3/);
    console.log(`figure: one sitting of a pull, a refill, three readings and a tasting line: ${touches} touches`);
    assert.ok(touches <= 12, `${touches} touches`);
    assertClean(page);
    await page.context().close();
  }));

describe('under an open page', () => {
  test('the program is killed while a sitting is drafted, and started again: booked once, nothing typed is lost', { timeout: 120_000 }, () =>
    withServer(serveDemo, async (server) => {
      const page = await openPage(browser, server, '/sitting/pull/1');
      page.watched.expected.push(/ERR_CONNECTION_REFUSED|Failed to load resource|ERR_EMPTY_RESPONSE|ERR_CONNECTION_RESET/);
      await page.getByText('pulls from The Amber').waitFor();
      const before = await volumeOf(server, 'The Amber');
      await page.getByRole('textbox', { name: 'how much' }).fill('7');
      await page.getByRole('button', { name: 'Book pull of 7 L' }).waitFor();
      await page.getByText(/: 7 L into/).waitFor();
      await server.kill();
      await page.getByRole('button', { name: 'Book pull of 7 L' }).click();
      await page.getByText('Sent, and no answer came.').waitFor();
      // Loaded anew it could not be while the program is away; what was typed is on the device.
      const kept = await page.evaluate(() => localStorage.getItem('undercroft.draft.own'));
      assert.match(kept, /7 L/);
      await server.start();
      await page.getByRole('heading', { name: /^Booked/ }).waitFor({ timeout: 30_000 });
      assert.equal(await volumeOf(server, 'The Amber'), before - 7);
      const pulls = (await server.ask('/entries?most=3')).entries.filter((e) => /: 7 L into/.test(e.text));
      assert.equal(pulls.length, 1, 'once');
      assertClean(page);
      await page.context().close();
    }));

  test('an answer is lost on the way: sent again by the same key it is not booked twice', { timeout: 120_000 }, () =>
    withServer(serveDemo, async (server) => {
      const page = await openPage(browser, server, '/sitting/loss/1');
      page.watched.expected.push(/ERR_FAILED|Failed to load resource/);
      await page.getByLabel('how much').fill('0.3');
      await page.getByRole('radio', { name: 'spill' }).check();
      await page.getByRole('button', { name: 'Book loss of 0.3 L' }).waitFor();
      const before = await volumeOf(server, 'The Amber');
      let lost = false;
      await page.route('**/api/v1/sittings', async (route) => {
        if (lost) return route.continue();
        lost = true;
        await route.fetch(); // it arrives,
        await route.abort(); // and its answer does not
      });
      await page.getByRole('button', { name: 'Book loss of 0.3 L' }).click();
      await page.getByRole('heading', { name: /^Booked before/ }).waitFor({ timeout: 30_000 });
      const now = await volumeOf(server, 'The Amber');
      assert.ok(Math.abs(before - now - 0.3) < 1e-9, `${before} to ${now}`);
      assertClean(page);
      await page.context().close();
    }));

  test('somebody else pulled meanwhile: both states are shown, and the choice', { timeout: 120_000 }, () =>
    withServer(serveDemo, async (server) => {
      const page = await openPage(browser, server, '/sitting/pull/1');
      page.watched.expected.push(/409/);
      await page.getByRole('textbox', { name: 'how much' }).fill('8');
      await page.getByText(/: 8 L into/).waitFor();
      const before = await volumeOf(server, 'The Amber');
      await server.book_sitting({ key: '019a0000-0000-7000-8000-000000000001', acts: [{ act: 'loss', vessel: 'The Amber', volume: '6 L', cause: 'served' }] });
      await page.getByRole('button', { name: 'Book pull of 8 L' }).click();
      const alert = page.getByRole('alert').filter({ hasText: 'While you were away' });
      await alert.waitFor();
      const row = alert.getByRole('row', { name: /The Amber/ }).first();
      assert.match(await row.innerText(), new RegExp(`${before.toFixed(1)}[\\s\\S]*${(before - 6).toFixed(1)}[\\s\\S]*${(before - 8).toFixed(1)}[\\s\\S]*${(before - 14).toFixed(1)}`));
      assert.equal(await volumeOf(server, 'The Amber'), before - 6, 'nothing was booked yet');
      await alert.getByRole('button', { name: 'Book it from that' }).click();
      await page.getByRole('heading', { name: /^Booked/ }).waitFor();
      assert.equal(await volumeOf(server, 'The Amber'), before - 14);
      assertClean(page);
      await page.context().close();
    }));

  test('what another face books is on the screen without a reload', { timeout: 60_000 }, () =>
    withServer(serveDemo, async (server) => {
      const page = await openPage(browser, server, '/vessel/1');
      await page.getByRole('heading', { level: 1, name: 'The Amber' }).waitFor();
      await server.book_sitting({ key: '019a0000-0000-7000-8000-000000000002', acts: [{ act: 'note', subject: 'The Amber', words: 'the other hand was here' }] });
      await page.getByText('the other hand was here').waitFor({ timeout: 15_000 });
      assertClean(page);
      await page.context().close();
    }));

  test('a second tab sees the draft, and that it was booked', { timeout: 60_000 }, () =>
    withServer(serveDemo, async (server) => {
      const first = await openPage(browser, server, '/sitting/note/1');
      await first.getByLabel('words').fill('draft of two tabs');
      await first.getByRole('button', { name: /^Book: note/ }).waitFor();
      await first.waitForFunction(() => localStorage.getItem('undercroft.draft.own')?.includes('two tabs'));
      const second = await openPage(browser, server, '/cellar', { context: first.context() });
      await second.getByRole('link', { name: /a sitting of 1 act, not booked/ }).click();
      await second.getByText('draft of two tabs').first().waitFor();
      await second.getByRole('button', { name: /^Book: note/ }).click();
      await second.getByRole('heading', { name: /^Booked/ }).waitFor();
      await first.getByText('Nothing is begun').waitFor();
      assertClean(first);
      assertClean(second);
      await first.context().close();
    }));

  test('a refusal says where, the numbers, and the next step; nothing is booked', { timeout: 60_000 }, () =>
    withServer(serveDemo, async (server) => {
      const page = await openPage(browser, server, '/sitting/read/1');
      page.watched.expected.push(/400|409|422/);
      await page.getByLabel('gravity', { exact: true }).fill('3.4');
      await page.getByText(/3\.4 could be/).first().waitFor();
      assert.equal(await page.getByLabel('gravity', { exact: true }).getAttribute('aria-invalid'), 'true');
      assert.ok(await page.getByRole('button', { name: /^Book/ }).isDisabled());
      await page.getByLabel('gravity', { exact: true }).fill('3.4 P');
      await page.getByRole('button', { name: /^Book: read/, disabled: false }).waitFor();
      assertClean(page);
      await page.context().close();
    }));
});

test('a pull by keyboard alone', { timeout: 120_000 }, () =>
  withServer(serveDemo, async (server) => {
    const page = await openPage(browser, server, '/cellar');
    await page.getByRole('heading', { name: 'Kiln Lane' }).waitFor();
    await page.getByRole('link', { name: /^The Amber, / }).first().waitFor();
    const focused = () => page.evaluate(() => document.activeElement?.getAttribute('aria-label') ?? document.activeElement?.textContent?.trim() ?? '');
    const tabTo = async (wanted) => {
      for (let i = 0; i < 80; i++) {
        await page.keyboard.press('Tab');
        if (wanted.test(await focused())) return;
      }
      assert.fail(`no way by Tab to ${wanted}`);
    };
    await tabTo(/^The Amber, /);
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { level: 1, name: 'The Amber' }).waitFor();
    await page.getByRole('link', { name: 'Pull', exact: true }).waitFor();
    await tabTo(/^Pull$/);
    await page.keyboard.press('Enter');
    await page.getByText('pulls from The Amber').waitFor();
    // The amount has the focus already.
    await page.waitForFunction(() => document.activeElement?.getAttribute('inputmode') === 'decimal');
    await page.keyboard.press('Control+A');
    await page.keyboard.type('9');
    await page.getByText(/: 9 L into/).waitFor();
    const ring = await page.evaluate(() => getComputedStyle(document.activeElement.parentElement).outlineStyle);
    assert.equal(ring, 'solid', 'focus is seen');
    await page.keyboard.press('Enter');
    assert.equal(await page.getByRole('heading', { name: /^Booked/ }).count(), 0, 'Enter in a field books nothing');
    await tabTo(/^Book pull of 9 L$/);
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: /^Booked/ }).waitFor();
    assertClean(page);
    await page.context().close();
  }));

test('an old solera comes in by five questions', { timeout: 120_000 }, () =>
  withServer(serveEmpty, async (server) => {
    const page = await openPage(browser, server, '/cellar', { size: 'phone' });
    await page.getByRole('link', { name: 'Bring in an old one' }).click();
    await page.getByLabel('name', { exact: true }).fill('Old Row');
    await page.getByLabel('holds, brimful').fill('50');
    await page.getByRole('button', { name: 'Book: the vessel joins' }).click();
    await page.getByLabel(/founded about when/).fill('2014');
    await page.getByLabel('original gravity of its beers').fill('1.050');
    await page.getByLabel('gravity', { exact: true }).fill('1.006');
    await page.getByRole('button', { name: 'See what follows' }).click();
    await page.getByText(/Remembered refill/).first().waitFor();
    await page.getByRole('button', { name: 'Book: bring it in' }).click();
    await page.getByRole('heading', { level: 1, name: 'Old Row' }).waitFor();
    await page.getByText('assumed').first().waitFor();
    assert.equal(await volumeOf(server, 'Old Row'), 50);
    assertClean(page);
    await page.context().close();
  }));

test('the demo cellar can be looked at from an empty book, says that it is invented, and is left again', { timeout: 60_000 }, () =>
  withServer(serveEmpty, async (server) => {
    const page = await openPage(browser, server, '/cellar');
    await page.getByRole('link', { name: 'Look at the demo cellar' }).click();
    await page.getByRole('heading', { name: 'Kiln Lane' }).waitFor({ timeout: 30_000 });
    await page.getByText(/nothing here is real/).waitFor();
    await page.getByRole('link', { name: /^The Amber, / }).first().click();
    await page.getByRole('heading', { level: 1, name: 'The Amber' }).waitFor();
    await page.getByRole('link', { name: 'leave the demo' }).click();
    await page.getByText('Nothing stands here yet').waitFor();
    assertClean(page);
    await page.context().close();
  }));

test('a stock-take books the difference, and a split makes two soleras of one make-up', { timeout: 120_000 }, () =>
  withServer(serveDemo, async (server) => {
    const page = await openPage(browser, server, '/sitting/settle/1');
    await page.getByText('The book says 55.8 L').waitFor();
    await page.getByRole('radio', { name: 'volume', exact: true }).check();
    await page.getByLabel('volume', { exact: true }).last().fill('55.3');
    await page.getByRole('button', { name: /^Book/, disabled: false }).waitFor();
    await page.getByRole('button', { name: /^Book/ }).click();
    await page.getByRole('heading', { name: /^Booked/ }).waitFor();
    assert.equal(await volumeOf(server, 'The Amber'), 55.3);

    await page.goto(`${server.address}/sitting/split/1`);
    await page.getByLabel('how much goes over').fill('20');
    await page.getByLabel('its name').fill('The Amber, second');
    await page.getByLabel('holds, brimful').fill('25');
    await page.getByRole('button', { name: /^Book/, disabled: false }).waitFor();
    await page.getByRole('button', { name: /^Book/ }).click();
    await page.getByRole('heading', { name: /^Booked/ }).waitFor();
    assert.equal(await volumeOf(server, 'The Amber, second'), 20);
    assert.ok(Math.abs((await volumeOf(server, 'The Amber')) - 35.3) < 1e-9);
    assertClean(page);
    await page.context().close();
  }));
