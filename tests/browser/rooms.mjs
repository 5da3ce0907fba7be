// Every room there is, by its address on the demo cellar (or an empty book): for screenshots and for the accessibility scan.
export const k_rooms = [
  { name: 'cellar', path: '/cellar' },
  { name: 'cellar-empty', path: '/cellar', empty: true },
  { name: 'found', path: '/cellar/found' },
  { name: 'remember', path: '/cellar/remember' },
  { name: 'vessel', path: '/vessel/1' },
  { name: 'vessel-barrel', path: '/vessel/10' },
  { name: 'vessel-jar', path: '/vessel/3' },
  { name: 'vessel-empty', path: '/vessel/2' },
  { name: 'vessel-why', path: '/vessel/1', prepare: (page) => page.getByRole('button', { name: /^mean age/ }).click() },
  { name: 'pull', path: '/sitting/pull/1' },
  { name: 'refill', path: '/sitting/refill/1' },
  { name: 'read', path: '/sitting/read/1' },
  { name: 'taste', path: '/sitting/taste/1' },
  { name: 'rack', path: '/sitting/rack/3' },
  { name: 'add', path: '/sitting/add/3' },
  { name: 'clean', path: '/sitting/clean/2' },
  { name: 'vessel-joins', path: '/sitting/vessel' },
  { name: 'settle', path: '/sitting/settle/1', prepare: (page) => page.getByRole('radio', { name: 'a dip' }).check() },
  { name: 'treat', path: '/sitting/treat/3', prepare: (page) => page.getByRole('radio', { name: 'heat' }).check() },
  { name: 'split', path: '/sitting/split/1' },
  { name: 'end', path: '/sitting/end/3' },
  { name: 'calibrate', path: '/sitting/calibrate' },
  { name: 'logger', path: '/sitting/logger/1' },
  {
    name: 'sitting-of-three',
    path: '/sitting/pull/1',
    prepare: async (page) => {
      await page.getByText('pulls from The Amber').waitFor();
      await page.getByRole('button', { name: '+ refill' }).click();
      await page.getByRole('button', { name: '+ reading' }).click();
      await page.getByLabel('gravity', { exact: true }).fill('1.0049');
      await page.getByText(/reads 1\.0049/).waitFor();
    },
  },
  { name: 'turn', path: '/turn' },
  { name: 'turn-taste', path: '/turn/1?step=taste' },
  { name: 'turn-decide', path: '/turn/1?step=decide', prepare: (page) => page.getByRole('heading', { name: 'Age of what is pulled' }).waitFor() },
  { name: 'turn-pull', path: '/turn/1', prepare: (page) => page.getByRole('columnheader', { name: 'after' }).waitFor() },
  {
    name: 'turn-finish',
    path: '/turn/1?step=finish',
    prepare: async (page) => {
      await page.getByRole('radio', { name: /^fruit/ }).check();
      await page.getByLabel('which fruit').selectOption('plum_fresh');
      await page.getByLabel('how much of it').fill('0.5');
      await page.getByText('gas, were it closed too early').waitFor();
    },
  },
  {
    name: 'turn-package',
    path: '/turn/1?step=package',
    prepare: async (page) => {
      await page.getByLabel('container').selectOption('bottle_sparkling_750');
      await page.getByLabel('maker’s pressure figure').fill('12');
      await page.getByText('maker’s limit 12.0 bar').waitFor();
    },
  },
  { name: 'bench-taste', path: '/bench/taste', prepare: (page) => page.getByText('pour it twice').or(page.getByLabel('tasters')).first().waitFor() },
  { name: 'bench-quarter', path: '/bench/quarter', prepare: async (page) => { await page.getByLabel('products, one a line').fill('Autumn, 12 L, ph 3.4 to 3.5, into Keg 2\nWinter, 8 L, ta 5 to 7'); await page.getByLabel('refills that will be there, one a line').fill('Spring wort, 30 L'); await page.getByRole('heading', { name: 'Filled again, in this order' }).waitFor(); } },
  { name: 'bench-finish', path: '/bench/finish/1', prepare: async (page) => { await page.getByLabel('it shall be, one a line').fill('sourness 4 to 6\nbody 2 to 5\nta at most 7'); await page.locator('.rows summary').first().click(); } },
  { name: 'bench-sums', path: '/bench/sums/ph', prepare: (page) => page.getByRole('heading', { name: 'Taken as given' }).waitFor() },
  { name: 'bench-priming', path: '/bench/sums/priming', prepare: (page) => page.getByText('table sugar').first().waitFor() },
  { name: 'bench-gas', path: '/bench/sums/gas', prepare: (page) => page.getByText('What would change it').waitFor() },
  { name: 'bench-blend', path: '/bench/blend', prepare: (page) => page.getByRole('heading', { name: /^The best/ }).waitFor() },
  { name: 'bench-ages', path: '/bench/ages', prepare: (page) => page.getByRole('heading', { name: 'Mean age of the pull' }).waitFor() },
  { name: 'bench-found', path: '/bench/found' },
  { name: 'shelf', path: '/shelf', prepare: (page) => page.getByText('gas: evidence is missing').first().waitFor() },
  { name: 'shelf-run', path: '/shelf/372', prepare: (page) => page.getByText('What would change it').waitFor() },
  { name: 'shelf-dregs', path: '/shelf/306', prepare: async (page) => { await page.getByText('Are its dregs fit').click(); await page.getByText('has likely displaced').waitFor(); } },
  { name: 'shelf-labels', path: '/shelf/372', prepare: (page) => page.getByText('On label sheets, as PDF').click() },
  { name: 'shelf-empty', path: '/shelf', empty: true },
  { name: 'take', path: '/sitting/take/372' },
  { name: 'package', path: '/sitting/package/3' },
  { name: 'book', path: '/book' },
  { name: 'book-entry', path: '/book?entry=429', prepare: (page) => page.getByText('Nothing vanishes').locator('visible=true').first().waitFor() },
  { name: 'book-trace', path: '/book/trace/372', prepare: (page) => page.getByRole('heading', { name: 'Sources' }).waitFor() },
  { name: 'book-recall', path: '/book/recall?name=Spring+amber', prepare: (page) => page.getByRole('heading', { name: 'Who has some' }).waitFor() },
  { name: 'book-check', path: '/book/check', prepare: (page) => page.getByText('The book is whole').waitFor() },
  { name: 'book-files', path: '/book/files' },
  { name: 'book-empty', path: '/book', empty: true },
  { name: 'settings', path: '/settings' },
  { name: 'no-such-room', path: '/attic' },
];
