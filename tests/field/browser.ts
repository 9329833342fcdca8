import { existsSync } from 'node:fs';
import { type BrowserContext, chromium } from 'playwright-core';

export const CHROMIUM = process.env.CHROMIUM ?? '/usr/bin/chromium';

/** Says why nothing is tested where there is no browser; on a build server that is a failure. */
export function skipsWithoutBrowser(): boolean {
  if (existsSync(CHROMIUM)) return false;
  console.warn(`The field page is not tried in a browser: there is no ${CHROMIUM}.`);
  return process.env.CI !== 'true';
}

/** A telephone without a network; what it keeps is in the folder. */
export function openPhone(folder: string): Promise<BrowserContext> {
  return chromium.launchPersistentContext(folder, {
    executablePath: CHROMIUM,
    headless: true,
    viewport: { width: 360, height: 740 },
    offline: true,
    acceptDownloads: true,
    args: ['--no-sandbox', '--disable-gpu', '--disable-sync', '--no-first-run', '--disable-background-networking'],
  });
}
