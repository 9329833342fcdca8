import { execFileSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { format } from 'node:util';
import { openBrowser } from './browser.mjs';
import { begin, DAYS } from './day.mjs';
import { PATIENCE } from './keyboard.mjs';

const HERE = dirname(fileURLToPath(import.meta.url));
const SITE = join(HERE, '../language/fixtures/site');
const LONGEST_SUITE = 300_000;
/** Pictures wait until nothing moves any more, ms. */
const SETTLED = 1500;
const DONE = /SUITE-DONE passed=(\d+) failed=(\d+)/;

/** Runs a suite in a host. A host that crashed says nothing, so only the suite's own last line counts as passed. */
export async function runSuite(host, suite, chromium) {
  return inHost(host, chromium, suite, async (page, url) => {
    let counts;
    const ended = new Promise((resolve) => page.exposeFunction('codeAutomationExit', resolve));
    await page.exposeFunction('codeAutomationLog', (_type, args) => {
      const text = format(...args);
      const done = DONE.exec(text);
      if (done !== null) counts = { passed: Number(done[1]), failed: Number(done[2]) };
      else if (/^\s*[✓✗]/.test(text) || process.env.VERBOSE) console.log(text);
    });
    page.setDefaultTimeout(PATIENCE);
    await page.goto(url);
    const code = await Promise.race([ended, tooLate()]);
    if (code !== 0)
      await page.screenshot({ path: join(HERE, `../../failure-${host.name}.png`) }).catch(() => undefined);
    if (counts === undefined || counts.passed === 0) throw new Error(`the suite did not finish (${code})`);
    return { passed: counts.passed, failed: code === 0 ? counts.failed : Math.max(1, counts.failed) };
  });
}

/** A user's day by keyboard; pictures of the panels go to a folder if one is told. */
export async function runDay(host, chromium, folder) {
  return inHost(host, chromium, undefined, async (page, url, site) => {
    page.setDefaultTimeout(PATIENCE);
    if (host.day === 'git') commit(site);
    const day = { page, url, site, ...(folder && { pictures: pictureTaker(page, folder) }) };
    await begin(day);
    const counts = { passed: 0, failed: 0 };
    for (const [name, step] of DAYS[host.day]) {
      const error = await step(day).then(
        () => undefined,
        (reason) => reason,
      );
      counts[error === undefined ? 'passed' : 'failed']++;
      console.log(
        error === undefined ? `  ✓ ${name}` : `  ✗ ${name}: ${error.message.split('\n').slice(0, 4).join(' ')}`,
      );
      if (error === undefined) continue;
      await page.screenshot({ path: join(HERE, `../../failure-${host.name}-day.png`) }).catch(() => undefined);
      // Each step stands on those before it; what follows would only wait in vain.
      break;
    }
    return counts;
  });
}

/** The whole window, and the panel from top to bottom. */
function pictureTaker(page, folder) {
  mkdirSync(folder, { recursive: true });
  return async (name, frame) => {
    await page.screenshot({ path: join(folder, `${name}.png`) });
    await frame
      .locator('svg[role=img]')
      .first()
      .scrollIntoViewIfNeeded({ timeout: 1000 })
      .catch(() => undefined);
    await page.waitForTimeout(SETTLED);
    await page.screenshot({ path: join(folder, `${name}-pictures.png`) });
    console.log(`  ${join(folder, name)}.png`);
  };
}

function commit(site) {
  const git = (...args) => execFileSync('git', args, { cwd: site, stdio: 'ignore' });
  git('init', '--quiet');
  git('add', '.');
  git('-c', 'user.name=tests', '-c', 'user.email=tests@example.invalid', 'commit', '--quiet', '-m', 'As it was');
}

/** Pictures of the well with a finding and with the values behind an entry, for people to look at. */
export async function takePictures(host, chromium, start) {
  mkdirSync(dirname(start), { recursive: true });
  await inHost(host, chromium, undefined, async (page, url, site) => {
    page.setDefaultTimeout(PATIENCE);
    const well = join(site, 'wells/a2-07.yaml');
    writeFileSync(well, readFileSync(well, 'utf8').replace('{ tap: 2, voltage: 900 V }', '{ tap: 1, voltage: 600 V }'));
    await page.goto(url);
    await page.locator('.monaco-workbench').waitFor();
    await page.waitForTimeout(SETTLED);
    await page.locator('.explorer-folders-view').getByText('wells', { exact: true }).click();
    await page.locator('.explorer-folders-view').getByText('a2-07.yaml', { exact: true }).dblclick();
    await page.keyboard.press('Control+Shift+m');
    await page.locator('.markers-panel-container .monaco-list-row').first().waitFor();
    for (const [name, part] of [
      ['finding', 'tap: 1'],
      ['values', 'water_cut'],
    ]) {
      await hoverOn(page, placeOf(well, part));
      await page.screenshot({ path: `${start}-${name}.png` });
      console.log(`  ${start}-${name}.png`);
    }
  });
}

/** Puts the cursor somewhere and asks for the hover by keyboard. */
async function hoverOn(page, { line, column }) {
  await page.keyboard.press('Escape');
  await page.keyboard.press('Control+g');
  await page.locator('.quick-input-widget input.input').fill(`:${line}:${column}`);
  await page.keyboard.press('Enter');
  await page.waitForTimeout(SETTLED);
  await page.keyboard.press('Control+k');
  await page.keyboard.press('Control+i');
  await page.locator('.monaco-hover-content:visible').first().waitFor();
  await page.waitForTimeout(SETTLED);
}

/** Where a text ends in a file, counted from one. */
function placeOf(file, part) {
  const lines = readFileSync(file, 'utf8').split('\n');
  const at = lines.findIndex((each) => each.includes(part));
  return { line: at + 1, column: lines[at].indexOf(part) + part.length };
}

async function inHost(host, chromium, suite, use) {
  const folder = mkdtempSync(join(tmpdir(), 'setproof-workbench-'));
  const site = makeSite(join(folder, 'site'));
  const running = await host.start({ folder, site, suite });
  try {
    const browser = await openBrowser(chromium, join(folder, 'browser'));
    try {
      return await use(browser.pages()[0], running.url, site);
    } finally {
      await browser.close().catch(() => undefined);
    }
  } finally {
    running.stop();
    rmSync(folder, { recursive: true, force: true, maxRetries: 5 });
  }
}

/** The invented site, with a second well and a file of others; the Node host changes real files. */
function makeSite(folder) {
  cpSync(SITE, folder, { recursive: true });
  cpSync(join(folder, 'wells/a2-07.yaml'), join(folder, 'wells/a2-08.yaml'));
  writeFileSync(join(folder, 'other.yaml'), 'services:\n  web: [1, 2\n');
  // An editor in a browser saves by itself after a while, and the day is about what is typed and not saved.
  mkdirSync(join(folder, '.vscode'));
  writeFileSync(join(folder, '.vscode/settings.json'), '{ "files.autoSave": "off" }\n');
  return folder;
}

function tooLate() {
  return new Promise((resolve) => setTimeout(() => resolve('out of time'), LONGEST_SUITE));
}
