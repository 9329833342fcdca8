// A user's day in VS Code, by keyboard alone, in the panels as they are drawn.
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { choose, eventually, goTo, panelWith, run, useTheme } from './keyboard.mjs';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const WELL = 'wells/a2-07.yaml';

/** Themes that every VS Code brings along. */
export const THEMES = { light: 'Light (Visual Studio)', dark: 'Dark (Visual Studio)', contrast: 'Dark High Contrast' };

/** The steps of the day in their order; each stands on those before it. */
export const DAY = [
  ['the list of wells counts in words, and opens a well', listWells],
  ['the status bar counts what was found and what was not run', readStatus],
  ['the worksheet has the number that is set', openWorksheet],
  ['the worksheet follows what is typed', typeRate],
  ['the worksheet marks what rests on the entry at the cursor', followCursor],
  ['an entry chosen in the worksheet leads to its line', followLink],
  ['a hostile name stays text', hostileName],
  ['the checklist stands beside it', openChecklist],
  ['what was not run is listed, and leads to its place', showNotRun],
  ['a new document begins with its keys', newDocument],
];

/** Where the editor's own git extension is at hand. */
export const DAY_WITH_GIT = [
  ['panels are readable by machine in every theme', judgeThemes],
  ['the well is compared with a revision', compareRevision],
];
/** Where it is not. */
export const DAY_WITHOUT_GIT = [['no comparison is offered without git', offerNothing]];

export async function begin({ page, url }) {
  await page.goto(url);
  await page.locator('.monaco-workbench').waitFor();
  await page.locator('.explorer-folders-view .monaco-list-row').first().waitFor();
  // The list of wells appears with the server.
  await page.locator('.pane-header', { hasText: 'Wells' }).waitFor({ timeout: 20_000 });
}

async function readStatus({ page }) {
  const counts = page.locator('.statusbar-item', { hasText: /Setproof: .*not run/ });
  await counts.waitFor({ timeout: 20_000 });
}

async function openWorksheet({ page }) {
  await run(page, 'Setproof: Open the worksheet');
  const frame = await panelWith(page, 'Worksheet A2-07');
  await frame.getByText('set to 900 V').first().waitFor();
  await frame.locator('svg[role=img]').first().waitFor();
}

async function typeRate({ page, site }) {
  await goTo(page, placeOf(site, '5.6 /min', 3));
  for (let each = 0; each < 3; each++) await page.keyboard.press('Shift+ArrowLeft');
  await page.keyboard.type('4.6');
  const frame = await panelWith(page, 'Worksheet A2-07');
  await frame.getByText('set to 4.6 /min').first().waitFor();
  await undoUntil(page, () => frame.getByText('set to 5.6 /min').count());
}

async function followCursor({ page, site }) {
  await goTo(page, placeOf(site, 'water_cut', 4));
  const frame = await panelWith(page, 'Worksheet A2-07');
  await frame.locator('#follow', { hasText: 'fluid.water_cut' }).waitFor();
  await frame.locator('tr.followed', { hasText: 'fluid.produced_density' }).first().waitFor();
}

async function followLink({ page, site }) {
  await page.keyboard.press('Control+2');
  const frame = await panelWith(page, 'Worksheet A2-07');
  const link = frame.locator('a[data-place]', { hasText: 'well.tubing.roughness' }).first();
  await link.focus();
  await page.keyboard.press('Enter');
  await page.locator('.statusbar-item', { hasText: `Ln ${placeOf(site, 'roughness', 0).line},` }).waitFor();
}

async function hostileName({ page, site }) {
  const hostile = '<img src=x onerror=alert(1)>';
  await goTo(page, placeOf(site, 'A2-07', 0));
  await page.keyboard.press('Shift+End');
  await page.keyboard.press('Delete');
  await page.keyboard.type(hostile);
  const frame = await panelWith(page, 'Worksheet <img');
  if ((await frame.locator('img').count()) > 0) throw new Error('the name became an element');
  await page.keyboard.press('Control+z');
  await page.keyboard.press('Escape');
  await undoUntil(page, () => frame.locator('h1', { hasText: 'Worksheet A2-07' }).count());
}

/** What was typed in one go may be undone in several. */
async function undoUntil(page, look) {
  await eventually('the text as it was', async () => {
    if ((await look()) > 0) return true;
    await page.keyboard.press('Control+z');
    await page.waitForTimeout(300);
    return undefined;
  });
}

async function openChecklist({ page }) {
  await page.keyboard.press('Control+1');
  await run(page, 'Setproof: Open the checklist');
  const frame = await panelWith(page, 'Checklist for well A2-07');
  await frame.locator('tr', { hasText: 'settings.transformer.voltage' }).getByText('900').first().waitFor();
}

async function showNotRun({ page, site }) {
  await page.keyboard.press('Control+1');
  await run(page, 'Setproof: Show what was not run');
  await choose(page, 'drive.no-filter');
  await page.locator('.statusbar-item', { hasText: `Ln ${placeOf(site, '  drive: {', 0).line},` }).waitFor();
}

async function listWells({ page }) {
  const row = page.locator('.monaco-list-row', { hasText: /A2-07.*not run/ });
  const tab = page.locator('.tab.active', { hasText: 'a2-07.yaml' });
  // A page of welcome may take the focus away in between.
  await eventually('the well in an editor', async () => {
    await run(page, 'Explorer: Focus on Wells View');
    await row.first().waitFor();
    await page.keyboard.press('Home');
    await page.keyboard.press('Enter');
    await page.waitForTimeout(300);
    return (await tab.count()) > 0;
  });
}

async function newDocument({ page }) {
  await run(page, 'Setproof: New document');
  await choose(page, 'Installation, rotary');
  await page.locator('.view-line', { hasText: 'document: installation/1' }).first().waitFor();
  await run(page, 'View: Revert and Close Editor');
}

async function judgeThemes({ page, pictures }) {
  await page.keyboard.press('Control+1');
  for (const [name, theme] of Object.entries(THEMES)) {
    await useTheme(page, theme);
    for (const [panel, heading] of [
      ['worksheet', 'Worksheet A2-07'],
      ['checklist', 'Checklist for well A2-07'],
    ]) {
      await page.keyboard.press('Control+1');
      await run(page, `Setproof: Open the ${panel}`);
      const frame = await panelWith(page, heading);
      await pictures?.(`${panel}-${name}`, frame);
      await judge(frame, `${panel}, ${name}`);
    }
  }
}

async function judge(frame, what) {
  await frame.evaluate(axe);
  const { violations } = await frame.evaluate(() => globalThis.axe.run(document, { resultTypes: ['violations'] }));
  const told = violations.map(({ id, nodes }) => `${id} (${nodes.length}, first ${nodes[0].html.slice(0, 120)})`);
  if (told.length > 0) throw new Error(`${what}: ${told.join('; ')}`);
}

async function compareRevision({ page, pictures }) {
  await page.keyboard.press('Control+1');
  await run(page, 'Setproof: Compare with a revision');
  await choose(page, 'HEAD');
  const frame = await panelWith(page, 'Comparison of HEAD');
  await pictures?.('comparison', frame);
  await judge(frame, 'comparison');
}

async function offerNothing({ page }) {
  await page.keyboard.press('F1');
  await page.locator('.quick-input-widget input.input').fill('>Setproof: Compare');
  await page.waitForTimeout(500);
  const offered = page.locator('.quick-input-list .monaco-list-row', { hasText: 'Compare with a revision' });
  if ((await offered.count()) > 0) throw new Error('it is offered');
  await page.keyboard.press('Escape');
}

/** Where a text begins in the well, and so many characters on; counted from one. */
function placeOf(site, part, on) {
  const lines = readFileSync(join(site, WELL), 'utf8').split('\n');
  const at = lines.findIndex((each) => each.includes(part));
  return { line: at + 1, column: lines[at].indexOf(part) + 1 + on };
}
