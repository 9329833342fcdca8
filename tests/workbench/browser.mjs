import { existsSync, mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { chromium } from 'playwright-core';

export function findChromium() {
  return [process.env.CHROMIUM, '/usr/bin/chromium'].find((path) => path !== undefined && existsSync(path));
}

/** A browser window that may store what VS Code's webviews store; nothing in it calls home. */
export async function openBrowser(executablePath, folder) {
  mkdirSync(join(folder, 'Default'), { recursive: true });
  const preferences = { profile: { cookie_controls_mode: 0, block_third_party_cookies: false } };
  writeFileSync(join(folder, 'Default/Preferences'), JSON.stringify(preferences));
  const quiet = ['--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update'];
  return chromium.launchPersistentContext(folder, {
    executablePath,
    headless: true,
    viewport: { width: 1280, height: 860 },
    args: ['--no-sandbox', '--disable-gpu', '--disable-sync', ...quiet],
  });
}
