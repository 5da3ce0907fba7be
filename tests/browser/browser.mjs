// Debian's Chromium, driven by playwright-core, with nothing of its own talking to the network.
import { chromium } from 'playwright-core';

export const k_sizes = { laptop: { width: 1440, height: 900 }, phone: { width: 390, height: 844 } };

export async function startBrowser() {
  return chromium.launch({
    executablePath: process.env.UNDERCROFT_CHROMIUM ?? '/usr/bin/chromium',
    args: [
      '--headless',
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  });
}
