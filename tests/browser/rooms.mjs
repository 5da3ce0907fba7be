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
  { name: 'settings', path: '/settings' },
  { name: 'no-such-room', path: '/attic' },
];
