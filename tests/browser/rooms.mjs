// Every room there is, by its address on the demo cellar: for screenshots and for the accessibility scan.
export const k_rooms = [
  { name: 'cellar', path: '/cellar' },
  { name: 'vessel', path: '/vessel/1' },
  { name: 'vessel-barrel', path: '/vessel/10' },
  { name: 'vessel-jar', path: '/vessel/3' },
  { name: 'pull', path: '/sitting/pull/1' },
  { name: 'settings', path: '/settings' },
];
