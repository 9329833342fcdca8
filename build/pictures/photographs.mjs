import { execFileSync } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { findChromium, openBrowser } from '../../tests/workbench/browser.mjs';
import { HOSTS } from '../../tests/workbench/hosts.mjs';
import { goTo, run } from '../../tests/workbench/keyboard.mjs';
import { copyField, LINEAR, LOW_TAP, placeOf } from './field.mjs';

/** Nothing moves any more after so long, and a busy machine needs so long to begin, ms. */
const SETTLED = 1500;
const PATIENCE = 60_000;
const WINDOW = { width: 1120, height: 640 };
/** The bar at the top tells nothing of what is shown. */
const BAR = 30;
/** A4 at 96 dots per inch: what a reader of paper sees. */
const PAPER = { width: 794, height: 1123 };

/** A calm window: what belongs to other work is put away. */
const SETTINGS = {
  'workbench.colorTheme': 'Default Light Modern',
  'workbench.activityBar.location': 'hidden',
  'window.commandCenter': false,
  'breadcrumbs.enabled': false,
  'editor.minimap.enabled': false,
  'editor.stickyScroll.enabled': false,
  'editor.occurrencesHighlight': 'off',
  'editor.matchBrackets': 'never',
  'editor.lightbulb.enabled': 'off',
  'workbench.statusBar.visible': false,
  'files.exclude': { '**/.vscode': true },
};

/** Printed pages, each cut to the part under a heading. */
const PAGES = [
  { name: 'worksheet.png', args: ['worksheet', LINEAR, '--format', 'html'], from: 'Window of the tap', height: 520 },
  { name: 'checklist.png', args: ['checklist', LINEAR], from: 'Setting sheet', height: 640 },
];

/** @returns pictures of the editor and of printed pages, as a browser shows them */
export async function photographs(root, scratch) {
  const chromium = findChromium();
  if (chromium === undefined) throw new Error('No Chromium was found (CHROMIUM, /usr/bin/chromium).');
  const browser = await openBrowser(chromium, join(scratch, 'browser'));
  try {
    const [page] = browser.pages();
    const printed = await photographPages(page, root, join(scratch, 'printed'));
    return [await photographEditor(page, root, scratch), ...printed];
  } finally {
    await browser.close();
  }
}

/** A well with a tap that is too low, and what the editor says of it. */
async function photographEditor(page, root, scratch) {
  const site = copyField(root, join(scratch, 'quillmoor'), { well: LINEAR, edit: LOW_TAP });
  mkdirSync(join(site, '.vscode'));
  writeFileSync(join(site, '.vscode/settings.json'), JSON.stringify(SETTINGS));
  const running = await HOSTS.node.start({ folder: scratch, site });
  try {
    await page.setViewportSize(WINDOW);
    await page.goto(running.url);
    await page.locator('.pane-header', { hasText: 'Wells' }).waitFor({ timeout: PATIENCE });
    await showFinding(page, placeOf(join(site, LINEAR), 'tap: 1'));
    const clip = { x: 0, y: BAR, width: WINDOW.width, height: WINDOW.height - BAR };
    return { name: 'editor.png', content: await page.screenshot({ clip }) };
  } finally {
    running.stop();
  }
}

async function showFinding(page, place) {
  await run(page, 'Explorer: Focus on Wells View');
  await page.locator('.monaco-list-row', { hasText: 'QM-A1' }).first().dblclick();
  await page.locator('.tab.active', { hasText: 'qm-a1.yaml' }).waitFor();
  await goTo(page, place);
  await page.locator('.squiggly-error').first().waitFor();
  await page.waitForTimeout(SETTLED);
  // Where the mouse rests it would raise a hover of its own.
  await page.mouse.move(WINDOW.width / 2, 0);
  await page.keyboard.press('Control+k');
  await page.keyboard.press('Control+i');
  await page.locator('.monaco-hover-content:visible').first().waitFor();
  await page.waitForTimeout(SETTLED);
}

async function photographPages(page, root, scratch) {
  const field = copyField(root, scratch, { well: LINEAR });
  await page.setViewportSize(PAPER);
  const made = [];
  for (const { name, args, from, height } of PAGES) {
    const file = join(field, 'page.html');
    const command = [join(root, 'dist/cli.js'), ...args, '--output', file];
    execFileSync(process.execPath, command, { cwd: field, stdio: 'ignore' });
    await page.goto(pathToFileURL(file).href);
    const heading = page.getByRole('heading', { name: from, exact: true }).first();
    await heading.evaluate((element) => element.scrollIntoView());
    made.push({ name, content: await page.screenshot({ clip: { x: 0, y: 0, width: PAPER.width, height } }) });
  }
  return made;
}
