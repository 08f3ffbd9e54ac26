import { chromium, type Browser } from 'playwright';

/** Starts the system's Chromium, with nothing of it reaching out. */
export function startChromium(): Promise<Browser> {
  return chromium.launch({
    executablePath: process.env['WALKBACK_CHROMIUM'] ?? '/usr/bin/chromium',
    args: [
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
