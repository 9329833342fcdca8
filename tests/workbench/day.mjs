// A user's day in VS Code, by keyboard alone, in the panels as they are drawn.
import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { asks, choose, eventually, goTo, isAt, panelWith, run, shows, useTheme } from './keyboard.mjs';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const WELL = 'wells/a2-07.yaml';

/** Themes that every VS Code brings along. */
export const THEMES = {
  light: 'Light (Visual Studio)',
  dark: 'Dark (Visual Studio)',
  contrast: 'Dark High Contrast',
  'contrast-light': 'Light High Contrast',
};

const LOOKING = [
  ['the list of wells counts in words, and opens a well', listWells],
  ['the status bar counts what was found and what was not run', readStatus],
];
const EDITING = [
  ['a tap that is too low is a problem at its place', takeLowTap],
  ['a hover shows the window of the tap and what it drives', hoverTap],
  ['completion tells the taps with their verdict', completeTap],
  ['the quick fix takes the tap that serves', fixTap],
  ['a deviation is recorded, and taken back', recordDeviation],
  ['a data sheet that changes is seen in the other well', changeSheet],
  ['a data sheet that is renamed takes its users along', renameSheet],
];
const PANELS = [
  ['the worksheet has the number that is set', openWorksheet],
  ['the worksheet follows what is typed', typeRate],
  ['the worksheet marks what rests on the entry at the cursor', followCursor],
  ['an entry chosen in the worksheet leads to its line', followLink],
  ['a hostile name stays text', hostileName],
  ['the checklist stands beside it', openChecklist],
];
const LISTS = [
  ['what was not run is listed, and leads to its place', showNotRun],
  ['a new document begins with its keys', newDocument],
];

/** The days by what is at hand, each a list of steps of which each stands on those before it. */
export const DAYS = {
  /** The editor's own git extension, in a workspace that is trusted. */
  git: [
    ...LOOKING,
    ...EDITING,
    ...PANELS,
    ...LISTS,
    ['the worksheet is saved for print', saveWorksheet],
    ['the log is shown, and the server begins anew', restart],
    ['views are readable by machine in every theme', judgeThemes],
    ['the well is compared with a revision', compareRevision],
    ['the walkthrough tells the five steps', walk],
  ],
  /** Nothing but a browser. */
  browser: [...LOOKING, ...EDITING, ...PANELS, ...LISTS, ['no comparison is offered without git', offerNothing]],
  /** A workspace whose authors nobody vouches for: it only reads. */
  untrusted: [
    ['the window is in Restricted Mode', isRestricted],
    ...LOOKING,
    ...EDITING.slice(0, 4),
    ...PANELS,
    ...LISTS,
    ['no comparison is offered without git', offerNothing],
  ],
};

export async function begin({ page, url }) {
  await page.goto(url);
  await page.locator('.monaco-workbench').waitFor();
  await page.locator('.explorer-folders-view .monaco-list-row').first().waitFor();
  // The list of wells appears with the server.
  await page.locator('.pane-header', { hasText: 'Wells' }).waitFor();
}

async function isRestricted({ page }) {
  await page.locator('.statusbar-item', { hasText: 'Restricted Mode' }).waitFor();
}

async function readStatus({ page }) {
  const counts = page.locator('.statusbar-item', { hasText: /Setproof: .*not run/ });
  await counts.waitFor();
}

/** Types over what is there; the cursor goes where the text begins. */
async function typeOver(page, place, length, text) {
  await goTo(page, place);
  for (let each = 0; each < length; each++) await page.keyboard.press('Shift+ArrowRight');
  await page.keyboard.type(text);
  await page.keyboard.press('Escape');
}

async function takeLowTap({ page, site }) {
  await typeOver(page, placeOf(site, 'tap: 2, voltage', 5), '2, voltage: 900'.length, '1, voltage: 600');
  await run(page, 'Problems: Focus on Problems View');
  await page.locator('.markers-panel-container .monaco-list-row', { hasText: 'tap.below-window' }).first().waitFor();
  await run(page, 'View: Toggle Panel Visibility');
}

async function hoverTap({ page, site }) {
  const hover = page.locator('.monaco-hover-content:visible', { hasText: 'Its window' });
  await goTo(page, placeOf(site, 'tap: 2', 1));
  await eventually('the hover', async () => {
    await page.keyboard.press('Control+k');
    await page.keyboard.press('Control+i');
    return shows(hover.first());
  });
  await hover.first().filter({ hasText: 'the least tap voltage that serves' }).waitFor();
  await page.keyboard.press('Escape');
}

async function completeTap({ page, site }) {
  const rows = page.locator('.suggest-widget.visible .monaco-list-row');
  await goTo(page, placeOf(site, 'tap: 2', 6));
  await eventually('the taps', async () => {
    await page.keyboard.press('Control+Space');
    return shows(rows.first().filter({ hasText: '2' }));
  });
  const words = await rows.allTextContents();
  if (!words.some((each) => /too low/.test(each))) throw new Error(`no verdict in ${words.join(' | ')}`);
  await page.keyboard.press('Escape');
  await rows.first().waitFor({ state: 'hidden' });
}

async function fixTap({ page, site }) {
  await goTo(page, placeOf(site, 'tap: 2', 5));
  await takeAction(page, /tap 2/);
  await page.locator('.view-line', { hasText: 'tap: 2, voltage: 900 V' }).waitFor();
}

/** Opens the actions at the cursor and takes the first that fits, by arrow keys. */
async function takeAction(page, words) {
  const rows = page.locator('.action-widget .monaco-list-row.action');
  await eventually('the actions', async () => {
    await page.keyboard.press('Control+.');
    return shows(rows.filter({ hasText: words }).first());
  });
  await eventually(`the action ${words}`, async () => {
    if ((await rows.filter({ hasText: words }).and(page.locator('.focused')).count()) > 0) return true;
    await page.keyboard.press('ArrowDown');
    return undefined;
  });
  await page.keyboard.press('Enter');
}

async function recordDeviation({ page, site }) {
  await goTo(page, placeOf(site, '    main: {', 5));
  await takeAction(page, /Record a deviation/);
  const entry = page.locator('.view-line', { hasText: 'check: cable.voltage-drop' });
  await eventually('the deviation', async () => {
    await page.keyboard.press('Control+End');
    return shows(entry);
  });
  await undoAll(page);
}

async function changeSheet({ page, site }) {
  const other = page.locator('.monaco-list-row', { hasText: /A2-07.*not run/ }).nth(1);
  const before = await other.textContent();
  await goTo(page, placeOf(site, '../equipment/tx.yaml', 4));
  await eventually('the data sheet in an editor', async () => {
    await page.keyboard.press('F12');
    return shows(page.locator('.tab.active', { hasText: 'tx.yaml' }));
  });
  await typeOver(page, placeIn(site, 'equipment/tx.yaml', '900 V', 0), '900'.length, '700');
  await eventually('another count of the other well', async () => (await other.textContent()) !== before);
  await undoAll(page);
  await eventually('the count as it was', async () => (await other.textContent()) === before);
  await listWells({ page });
}

async function renameSheet({ page, site }) {
  const box = page.locator('.rename-box input');
  await goTo(page, placeOf(site, '../equipment/gauge.yaml', 4));
  await eventually('the box for a name', async () => {
    await page.keyboard.press('F2');
    return shows(box);
  });
  await box.fill('../equipment/gauge-2.yaml');
  await page.keyboard.press('Enter');
  await page.locator('.view-line', { hasText: 'gauge-2.yaml' }).waitFor();
  await eventually('every file saved', async () => {
    await run(page, 'File: Save All Files');
    return page
      .locator('.tab.dirty')
      .first()
      .waitFor({ state: 'hidden', timeout: 2000 })
      .then(
        () => true,
        () => false,
      );
  });
}

async function openWorksheet({ page }) {
  await run(page, 'Setproof: Open the worksheet');
  const frame = await panelWith(page, 'Worksheet A2-07');
  await frame.getByText('set to 900 V').first().waitFor();
  await frame.locator('svg[role=img]').first().waitFor();
}

async function typeRate({ page, site }) {
  await typeOver(page, placeOf(site, '5.6 /min', 0), 3, '4.6');
  const frame = await panelWith(page, 'Worksheet A2-07');
  await frame.getByText('set to 4.6 /min').first().waitFor();
  await undoAll(page);
  await frame.getByText('set to 5.6 /min').first().waitFor();
}

async function followCursor({ page, site }) {
  await goTo(page, placeOf(site, 'water_cut', 4));
  const frame = await panelWith(page, 'Worksheet A2-07');
  await frame.locator('#follow', { hasText: 'fluid.water_cut' }).waitFor();
  await frame.locator('tr.followed', { hasText: 'fluid.produced_density' }).first().waitFor();
}

async function followLink({ page, site }) {
  const frame = await panelWith(page, 'Worksheet A2-07');
  const link = frame.locator('a[data-place]', { hasText: 'well.tubing.roughness' }).first();
  // The window may come to the panel only after the link was taken, and then it is in front of the line.
  await eventually('the line of the entry', async () => {
    await page.keyboard.press('Control+2');
    await link.focus();
    await page.keyboard.press('Enter');
    return isAt(page, `Ln ${placeOf(site, 'roughness', 0).line}`);
  });
}

async function hostileName({ page, site }) {
  const hostile = '<img src=x onerror=alert(1)>';
  await goTo(page, placeOf(site, 'A2-07', 0));
  await page.keyboard.press('Shift+End');
  await page.keyboard.press('Delete');
  await page.keyboard.type(hostile);
  const frame = await panelWith(page, 'Worksheet <img');
  if ((await frame.locator('img').count()) > 0) throw new Error('the name became an element');
  await page.keyboard.press('Escape');
  await undoAll(page);
  await panelWith(page, 'Worksheet A2-07');
}

/** Takes back what was typed in the first editor since it was saved; one go of typing may be several to undo. */
async function undoAll(page) {
  await eventually('the text as it was', async () => {
    await page.keyboard.press('Control+1');
    if ((await page.locator('.editor-group-container').first().locator('.tab.active.dirty').count()) === 0) return true;
    await page.keyboard.press('Control+z');
    await page.waitForTimeout(200);
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
  await eventually('the line of the entry', () => isAt(page, `Ln ${placeOf(site, '  drive: {', 0).line}`));
}

async function listWells({ page }) {
  const row = page.locator('.monaco-list-row', { hasText: /A2-07.*not run/ });
  const tab = page.locator('.tab.active', { hasText: 'a2-07.yaml' });
  // A page of welcome may take the focus away in between.
  await eventually('the well in an editor', async () => {
    await run(page, 'Explorer: Focus on Wells View');
    if (!(await shows(row.first()))) return false;
    await page.keyboard.press('Home');
    await page.keyboard.press('Enter');
    return shows(tab);
  });
}

async function newDocument({ page }) {
  await run(page, 'Setproof: New document');
  await choose(page, 'Installation, rotary');
  const tab = page.locator('.tab.active', { hasText: 'Untitled-1' });
  await tab.waitFor();
  await page.locator('.view-line', { hasText: 'lift: rotary' }).first().waitFor();
  await run(page, 'View: Revert and Close Editor');
  await tab.waitFor({ state: 'hidden' });
}

async function saveWorksheet({ page, site }) {
  await page.keyboard.press('Control+1');
  await run(page, 'Setproof: Save the worksheet for print');
  await page.locator('.quick-input-widget input.input').waitFor();
  await page.keyboard.press('Enter');
  const saved = join(site, 'wells/a2-07-worksheet.html');
  await eventually('the page', () => existsSync(saved) && readFileSync(saved, 'utf8').includes('Worksheet A2-07'));
}

async function restart({ page }) {
  await run(page, 'Setproof: Show the log');
  await page.locator('.panel .view-line', { hasText: 'The language server runs.' }).first().waitFor();
  await run(page, 'View: Toggle Panel Visibility');
  await page.keyboard.press('Control+1');
  await run(page, 'Setproof: Restart the language server');
  await readStatus({ page });
}

async function judgeThemes({ page, pictures }) {
  await run(page, 'Explorer: Focus on Wells View');
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

async function compareRevision({ page, site, pictures }) {
  await typeOver(page, placeOf(site, 'tap: 2, voltage', 5), '2, voltage: 900'.length, '1, voltage: 600');
  await run(page, 'Setproof: Compare with a revision');
  await choose(page, 'HEAD');
  const frame = await panelWith(page, 'Comparison of HEAD');
  await frame.getByText('tap.below-window').first().waitFor();
  for (const [name, theme] of Object.entries(THEMES)) {
    await useTheme(page, theme);
    await pictures?.(`comparison-${name}`, frame);
    await judge(frame, `comparison, ${name}`);
  }
  await undoAll(page);
  await frame.getByText('tap.below-window').first().waitFor({ state: 'hidden' });
}

async function walk({ page, pictures }) {
  await run(page, 'Welcome: Open Walkthrough...');
  await choose(page, 'Settings that hold');
  const steps = page.locator('.gettingStartedContainer .getting-started-step');
  await steps.nth(4).waitFor();
  for (const title of [
    'Write the well down',
    'See what does not fit',
    'Follow a number',
    'See what was not looked at',
    'Take it to site',
  ]) {
    await steps.filter({ hasText: title }).first().waitFor();
  }
  await pictures?.('walkthrough', page.mainFrame());
}

async function offerNothing({ page }) {
  const rows = page.locator('.quick-input-list .monaco-list-row');
  await eventually('our commands in the palette', async () => {
    await page.keyboard.press('F1');
    return (await asks(page, '>Setproof: ')) && shows(rows.filter({ hasText: 'Setproof: New document' }).first());
  });
  if ((await rows.filter({ hasText: 'Compare with a revision' }).count()) > 0) throw new Error('it is offered');
  await page.keyboard.press('Escape');
}

/** Where a text begins in the well as it was, and so many characters on; counted from one. */
function placeOf(site, part, on) {
  return placeIn(site, WELL, part, on);
}

function placeIn(site, file, part, on) {
  const lines = linesOf(site, file);
  const at = lines.findIndex((each) => each.includes(part));
  return { line: at + 1, column: lines[at].indexOf(part) + 1 + on };
}

function linesOf(site, file = WELL) {
  return readFileSync(join(site, file), 'utf8').split('\n');
}
