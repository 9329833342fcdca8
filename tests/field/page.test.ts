import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { bringBack, type Checklist, readDocument } from '../../server/src/engine/index.ts';
import { readPdfForm } from '../../server/src/host/node/pdf-form.ts';
import { renderChecklistField } from '../../server/src/render/checklist/field.ts';
import { renderChecklistHtml } from '../../server/src/render/checklist/html.ts';
import { renderChecklistPdf } from '../../server/src/render/checklist/pdf.ts';
import { checklistOf, stepsOf } from '../engine/checklist/project.ts';
import { openPhone, skipsWithoutBrowser } from './browser.ts';
import { openForm, savedForm } from './form-viewer.ts';
import { act, formActions, pageActions, visitAtWell } from './typing.ts';

const FOLDER = mkdtempSync(join(tmpdir(), 'setproof-field-'));
const CHECKLIST = checklistOf();
const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** A file without a script, from which storage can be reached. */
const EMPTY = pathToFileURL(join(FOLDER, 'empty.html')).href;

let address = '';
let context: BrowserContext;
let page: Page;
/** What the page asked the person, and every address that it wanted. */
const questions: string[] = [];
const requests: string[] = [];

function write(name: string, checklist: Checklist): string {
  const path = join(FOLDER, `${name}.html`);
  writeFileSync(path, renderChecklistField(checklist));
  return pathToFileURL(path).href;
}

async function open(address: string): Promise<Page> {
  const opened = await context.newPage();
  opened.on('request', (request) => requests.push(request.url()));
  opened.on('dialog', (dialog) => {
    questions.push(dialog.message());
    return dialog.accept();
  });
  await opened.goto(address);
  return opened;
}

interface Readings {
  readonly readings: readonly { readonly item: string; readonly at?: string }[];
}

const HOLDS = new Set(stepsOf(CHECKLIST).flatMap(({ id, kind }) => (kind === 'hold' ? [id] : [])));

/** Readings as they were, but for the times that a page puts to what is no signature. */
function withoutStamps({ readings, ...rest }: Readings) {
  const plain = readings.map(({ at, ...row }) => (HOLDS.has(row.item) ? { ...row, at } : row));
  return { ...rest, readings: plain };
}

/** Makes the telephone forget what it kept. */
async function forget(): Promise<void> {
  await page.goto('about:blank');
  await page.goto(EMPTY);
  await page.evaluate(
    "localStorage.clear(), new Promise((done) => { indexedDB.deleteDatabase('setproof').onsuccess = done; })",
  );
  await page.goto(address);
}

/** A control by the step and what stands behind its colon. */
function control(id: string, part: string) {
  return page.locator(`[id="${id}:${part}"]`);
}

function said(id: string) {
  return page.locator(`[id="${id}:verdict"]`).textContent();
}

function tick(id: string) {
  return page.locator(`[id="${id}"] [data-part=done]`);
}

async function sign(id: string, name: string): Promise<void> {
  await control(id, 'by').fill(name);
  await page.locator(`[id="${id}"] [data-sign]`).click();
}

async function saved(): Promise<string> {
  const [download] = await Promise.all([page.waitForEvent('download'), page.locator('#save').click()]);
  return readFileSync(await download.path(), 'utf8');
}

describe.skipIf(skipsWithoutBrowser())('the field page in a browser', { timeout: 120_000 }, () => {
  beforeAll(async () => {
    address = write('clean', CHECKLIST);
    writeFileSync(join(FOLDER, 'empty.html'), '<!doctype html><title>empty</title>');
    context = await openPhone(join(FOLDER, 'profile'));
  });
  afterAll(async () => {
    await context?.close();
    rmSync(FOLDER, { recursive: true, force: true });
  });
  beforeEach(async () => {
    page = await open(address);
    await forget();
    questions.length = 0;
    requests.length = 0;
  }, 60_000);
  afterEach(() => page.close());

  it('judges a reading as it is typed, in the unit of the author', async () => {
    await control('inspection.motor.insulation', '1').fill('1.2 Gohm');
    expect(await said('inspection.motor.insulation')).toBe('Within what is allowed.');
    await control('inspection.motor.insulation', '1').fill('150');
    expect(await said('inspection.motor.insulation')).toContain('150 Mohm is below the least allowed, 200 Mohm.');
    await control('inspection.motor.insulation', 'unit').selectOption('Gohm');
    expect(await said('inspection.motor.insulation')).toBe('Within what is allowed.');
    await control('inspection.motor.insulation', '1').fill('12 bar');
    expect(await page.locator('#progress').textContent()).toContain('1 outside what is allowed or not readable');
  });

  it('works out the unbalance and the insulation at 40 degC with the engine’s own functions', async () => {
    const id = 'inspection.motor.winding_resistance';
    for (const [index, ohms] of ['6.0', '6.0', '6.6'].entries()) await control(id, String(index + 1)).fill(ohms);
    // Mean 6.2; the farthest is 0.4 away, 6.45 %.
    expect(await said(id)).toContain('6.45 %');
    await control('inspection.motor.insulation', '1').fill('800');
    await control('inspection.motor.temperature', '1').fill('20');
    // Two halvings: 200 Mohm.
    expect(await said('inspection.motor.insulation')).toContain('Brought to 40 degC it is 200 Mohm.');
    await control('inspection.motor.temperature', '1').fill('50 degF');
    // 10 degC: three halvings.
    expect(await said('inspection.motor.insulation')).toContain('100 Mohm, below 200 Mohm');
  });

  it('keeps the steps behind a hold point shut until it is signed', async () => {
    const behind = control('running_in.motor.head_flange', '1');
    expect(await behind.isDisabled()).toBe(true);
    expect(await page.locator('[id="running_in.motor.head_flange"] [data-shut]').textContent()).toContain('Shut until');
    expect(await tick('running_in.barriers').isDisabled()).toBe(false);
    await page.locator('[id="running_in.hold"] [data-sign]').click();
    expect(await page.locator('#message').textContent()).toContain('Enter the name');
    await sign('running_in.hold', 'A. Foreman');
    expect(questions.at(-1)).toMatch(/before this signature not done/);
    expect(await said('running_in.hold')).toMatch(/^Signed by A\. Foreman at \d{4}-\d\d-\d\dT\d\d:\d\d\.$/);
    expect(await behind.isDisabled()).toBe(false);
    expect(await page.locator('#progress').textContent()).toMatch(/^1 of \d+ done, 4 holds open$/);
    await page.locator('[id="running_in.hold"] [data-withdraw]').click();
    expect(await behind.isDisabled()).toBe(true);
  });

  it('leads to the next step that is open, past what is done or shut', async () => {
    const focused = () => page.evaluate("document.activeElement.closest('fieldset')?.id");
    await tick('running_in.barriers').check();
    await tick('running_in.kill_fluid').focus();
    const order = stepsOf(CHECKLIST).map(({ id }) => id);
    await page.locator('#next').click();
    const first = String(await focused());
    expect(order.indexOf(first)).toBeGreaterThan(order.indexOf('running_in.kill_fluid'));
    await control('running_in.hold', 'by').focus();
    await page.locator('#next').click();
    // Everything behind the hold is shut, so that the next stage comes.
    expect(await focused()).toMatch(/^surface\./);
    await page.locator('#who').focus();
    await control('handover.hold', 'by').focus();
    await page.locator('#next').click();
    expect(await focused()).toMatch(/^cover\./);
  });

  it('loses nothing when it is closed at any key, without a network', async () => {
    await page.locator('#who').fill('B. Hand');
    await tick('inspection.motor.covers').check();
    await control('inspection.motor.insulation', '1').pressSequentially('250');
    await sign('running_in.hold', 'A. Foreman');
    await page.close();
    page = await open(address);
    expect(await page.locator('#who').inputValue()).toBe('B. Hand');
    expect(await tick('inspection.motor.covers').isChecked()).toBe(true);
    expect(await control('inspection.motor.insulation', '1').inputValue()).toBe('250 Mohm');
    expect(await said('running_in.hold')).toContain('Signed by A. Foreman');
    expect(requests.filter((url) => !url.startsWith('file:'))).toEqual([]);
  });

  it('keeps what was typed half a second before the battery dies, though the storage was not written out', async () => {
    await page.locator('#who').fill('B. Hand');
    await tick('inspection.motor.covers').check();
    await control('inspection.motor.insulation', '1').pressSequentially('250');
    await sign('running_in.hold', 'A. Foreman');
    await page.waitForTimeout(500);
    const session = await context.newCDPSession(page);
    const isGone = new Promise((done) => context.once('close', done));
    void session.send('Browser.crash').catch(() => undefined);
    await isGone;
    context = await openPhone(join(FOLDER, 'profile'));
    page = await open(address);
    await page.waitForFunction("document.getElementById('who').value !== ''");
    expect(await page.locator('#who').inputValue()).toBe('B. Hand');
    expect(await tick('inspection.motor.covers').isChecked()).toBe(true);
    expect(await control('inspection.motor.insulation', '1').inputValue()).toBe('250 Mohm');
    expect(await said('running_in.hold')).toContain('Signed by A. Foreman');
    expect(await control('running_in.motor.head_flange', '1').isDisabled()).toBe(false);
    // What is typed now is kept over what the database gave.
    await control('inspection.motor.insulation', '1').fill('300');
    await page.reload();
    expect(await control('inspection.motor.insulation', '1').inputValue()).toBe('300 Mohm');
  });

  it('saves a document that the engine reads without a finding, and reads it again', async () => {
    await page.locator('#who').fill('B. Hand');
    await control('cover.visit', '1').fill('2026-03-20');
    await control('cover.visit', '2').fill('C. Lead');
    await control('cover.crew', '1').fill('D. "Quote": \\ #');
    await tick('inspection.motor.covers').check();
    await control('inspection.motor.insulation', '1').fill('> 2 Gohm');
    await control('inspection.motor.winding_resistance', '2').fill('6.05');
    await page.locator('[id="settings.protection.overload.trip"] [data-planned]').click();
    await control('settings.restart.mode', '1').selectOption('manual');
    await control('settings.restart.after', '1').fill('underload, intake pressure low');
    await control('settings.restart.attempts', '1').fill('2');
    await sign('running_in.hold', 'A. Foreman');
    const text = await saved();
    const document = readDocument('/p/r.yaml', text);
    expect(document.problems.map(({ message }) => message)).toEqual([]);
    const { tree } = document;
    const at = (key: string) => tree.scalar(tree.find(key));
    expect(at('fingerprint')).toBe(CHECKLIST.fingerprint);
    expect(at('visit.date')).toBe('2026-03-20');
    expect(at('visit.crew[1]')).toBe('D. "Quote": \\ #');
    expect(at('as_left.protection.overload.trip')).toBe('15 A');
    expect(at('as_left.restart.mode')).toBe('manual');
    expect(at('as_left.restart.after[1]')).toBe('intake_pressure_low');
    expect(at('as_left.restart.attempts')).toBe('2');
    expect(text).toMatch(
      /item: "inspection\.motor\.insulation"\n {4}value: "> 2 Gohm"\n {4}at: "\d{4}-.*"\n {4}by: "B\. Hand"/,
    );
    expect(text).toContain('values: ["", "6.05 ohm"]');
    expect(text).toMatch(/item: "running_in\.hold"\n {4}value: "A\. Foreman"/);

    await page.locator('#clear').click();
    expect(questions.at(-1)).toContain('Clear all entries');
    expect(await page.locator('#progress').textContent()).toMatch(/^0 of/);
    const file = { name: 'readings.yaml', mimeType: 'application/yaml', buffer: Buffer.from(text) };
    await page.locator('#file').setInputFiles(file);
    await page.waitForFunction("document.getElementById('message').textContent.includes('taken over')");
    expect(await saved()).toBe(text);
  });

  it('refuses a file that is no readings document, and asks before it takes one of another state', async () => {
    const load = async (text: string, word: string) => {
      await page.locator('#file').setInputFiles({ name: 'x.yaml', mimeType: 'text/plain', buffer: Buffer.from(text) });
      await page.waitForFunction(`document.getElementById('message').textContent.includes('${word}')`);
    };
    await load('document: pump/1\nname: x\n', 'is not loaded');
    await load('document: [readings', 'is not loaded');
    expect(questions).toEqual([]);
    const row = '  - { item: inspection.motor.covers, value: "yes" }\n  - { item: no.such_step, value: "1" }\n';
    await load(`document: readings/1\nfingerprint: "sha256:0"\nreadings:\n${row}`, 'no.such_step');
    expect(questions.at(-1)).toContain('another state');
    expect(await tick('inspection.motor.covers').isChecked()).toBe(true);
  });

  it('warns where the device keeps nothing', async () => {
    await page.addInitScript("Object.defineProperty(window, 'localStorage', { get() { throw new Error('off'); } })");
    await page.reload();
    expect(await page.locator('#warning').isVisible()).toBe(true);
    expect(await page.locator('#warning').textContent()).toContain('This device keeps nothing');
    // It still judges and saves.
    await control('inspection.motor.insulation', '1').fill('150');
    expect(await saved()).toContain('150 Mohm');
  });

  it('has nothing that axe finds at the width of a telephone, open or shut, and does not scroll sideways', async () => {
    await control('inspection.motor.insulation', '1').fill('150');
    await page.evaluate("for (const each of document.querySelectorAll('details')) each.open = true");
    await page.evaluate(AXE);
    const violations = (await page.evaluate(
      'axe.run(document, { resultTypes: ["violations"] }).then(({ violations }) => violations.map(({ id, nodes }) => id + ": " + nodes.slice(0, 3).map(({ html }) => html).join(" ")))',
    )) as string[];
    expect(violations).toEqual([]);
    expect(await page.evaluate('document.documentElement.scrollWidth <= innerWidth')).toBe(true);
  });

  it('gives the same readings as the PDF form that is filled in a viewer', async () => {
    const date = '2026-03-20';
    const entries = visitAtWell(CHECKLIST, date);
    await page.clock.setFixedTime(new Date(`${date}T08:30`));
    await page.reload();
    await act(page, pageActions(CHECKLIST, entries));
    const ofPage = parse(await saved()) as Readings;

    const viewer = await openForm(context, await renderChecklistPdf(CHECKLIST, { paper: 'a4' }));
    await act(viewer, formActions(CHECKLIST, entries));
    const form = await readPdfForm(await savedForm(viewer));
    await viewer.close();
    if ('refused' in form) throw new Error(form.refused);
    const brought = bringBack(CHECKLIST, form.fields, CHECKLIST.installation);
    expect(brought).toMatchObject({ unknown: [], unreadable: [], absent: [] });
    const ofForm = parse(brought.text) as Readings;

    expect(ofPage.readings.length).toBe(entries.size);
    // By nature only the page stamps each entry with the time; on the form the time of a signature alone is asked.
    expect(withoutStamps(ofPage)).toEqual(withoutStamps(ofForm));
    for (const { item, at } of ofPage.readings) expect(at, item).toBe(`${date}T08:30`);
  });

  it('shows texts of ill will as texts, and runs no script but its own', async () => {
    const hostile = '</script><script>window.hit = 1</script><img src=x onerror="window.hit = 1">';
    const attacked = checklistOf({
      'wells/t2-07.yaml': [['well: T2-07', `well: '${hostile}'`]],
      'eq/motor.yaml': [['Do not roll the motor.', `'${hostile}'`]],
    });
    const own = await open(write('hostile', attacked));
    expect(await own.evaluate('window.hit')).toBeUndefined();
    expect(await own.locator('h1').textContent()).toContain(hostile);
    // The margins of the printed page are this file's own, and its policy admits them.
    expect(await own.evaluate('document.styleSheets.length')).toBe(2);
    // A script that got in all the same is refused by the policy.
    await own.evaluate(
      "{ const s = document.createElement('script'); s.textContent = 'window.hit = 1'; document.body.append(s); }",
    );
    expect(await own.evaluate('window.hit')).toBeUndefined();
    await own.close();
  });

  it('and beside it a page to print runs no script at all, and loads nothing', async () => {
    const path = join(FOLDER, 'print.html');
    writeFileSync(path, renderChecklistHtml(CHECKLIST, { paper: 'a4' }));
    const own = await open(pathToFileURL(path).href);
    await own.evaluate(`{
      window.refused = [];
      document.addEventListener('securitypolicyviolation', (event) => window.refused.push(event.effectiveDirective));
      const script = document.createElement('script');
      script.textContent = 'window.hit = 1';
      const picture = document.createElement('img');
      picture.src = 'http://elsewhere.invalid/x.png';
      const button = document.createElement('button');
      button.setAttribute('onclick', 'window.hit = 1');
      document.body.append(script, picture, button);
      button.click();
    }`);
    await own.waitForFunction('window.refused.length >= 3');
    expect(await own.evaluate('window.refused.sort()')).toEqual(['img-src', 'script-src-attr', 'script-src-elem']);
    expect(await own.evaluate('window.hit')).toBeUndefined();
    await own.close();
  });
});

describe('the field page as a file', () => {
  const text = renderChecklistField(CHECKLIST);

  it('names no address, and is the same for the same checklist', () => {
    expect(text).not.toMatch(/\s(src|href)=|@import|url\((?!"data:)|<link|<iframe/);
    expect(text).toContain("default-src 'none'; script-src 'sha256-");
    expect(renderChecklistField(checklistOf())).toBe(text);
  });

  it('prints number, fingerprint and its code on each page', () => {
    const [, margins = ''] = /<style>(@page[^<]*)<\/style>/.exec(text) ?? [];
    expect(margins).toContain(`sha256\\3a ${CHECKLIST.fingerprint.slice(7)}`);
    expect(margins).toContain('counter(page) " of " counter(pages)');
    expect(margins).toContain('url("data:image/svg+xml,');
    expect(margins).not.toContain('Do not set up');
    const broken = checklistOf({ 'wells/t2-07.yaml': [['trip: 12 bar,', 'trip: 900 bar,']] });
    expect(/<style>(@page[^<]*)<\/style>/.exec(renderChecklistField(broken))?.[1]).toContain('Do not set up the well');
  });

  it('has each step and each caution, and defers to those who come first', () => {
    for (const { id } of CHECKLIST.stages.flatMap(({ steps }) => steps)) expect(text).toContain(` id="${id}"`);
    expect(text).toMatch(/maker’s manual, the site’s rules, local codes or licensed practice/);
  });
});
