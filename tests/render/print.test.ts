import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { renderChecklistHtml } from '../../server/src/render/checklist/html.ts';
import { checklistOf } from '../engine/checklist/project.ts';

const CHROMIUM = process.env.CHROMIUM ?? '/usr/bin/chromium';
const FOLDER = mkdtempSync(join(tmpdir(), 'setproof-print-'));
const MISSING = missingTools();

afterAll(() => rmSync(FOLDER, { recursive: true, force: true }));

function missingTools(): readonly string[] {
  const here = (tool: string) => {
    try {
      execFileSync(tool, ['-v'], { stdio: 'ignore' });
      return true;
    } catch {
      return false;
    }
  };
  return [...(existsSync(CHROMIUM) ? [] : [CHROMIUM]), ...['pdfinfo', 'pdftotext'].filter((tool) => !here(tool))];
}

/** Prints a page as a browser does, and gives the paper's size and the text of each sheet. */
function print(name: string, page: string): { readonly size: string; readonly sheets: readonly string[] } {
  const [source, target] = [join(FOLDER, `${name}.html`), join(FOLDER, `${name}.pdf`)];
  writeFileSync(source, page);
  const flags = [
    '--headless',
    '--no-sandbox',
    '--disable-gpu',
    '--no-pdf-header-footer',
    `--user-data-dir=${FOLDER}/profile`,
  ];
  execFileSync(CHROMIUM, [...flags, `--print-to-pdf=${target}`, source], { stdio: 'ignore', timeout: 120_000 });
  const info = execFileSync('pdfinfo', [target], { encoding: 'utf8' });
  const pages = Number(/Pages:\s+(\d+)/.exec(info)?.[1]);
  const sheets = execFileSync('pdftotext', ['-layout', target, '-'], { encoding: 'utf8' }).split('\f').slice(0, pages);
  return { size: /Page size:\s+(.*)/.exec(info)?.[1] ?? '', sheets };
}

if (MISSING.length > 0) console.warn(`The print test needs ${MISSING.join(', ')}; without it nothing is printed here.`);

describe.skipIf(MISSING.length > 0 && process.env.CI !== 'true')('printed', () => {
  it('carries number, fingerprint and deferral on every A4 page, and no band when all is well', {
    timeout: 90_000,
  }, () => {
    const checklist = checklistOf();
    const { size, sheets } = print('clean', renderChecklistHtml(checklist, { paper: 'a4' }));
    expect(size).toMatch(/A4/);
    expect(sheets.length).toBeGreaterThan(10);
    expect(sheets.length).toBeLessThan(60);
    sheets.forEach((sheet, index) => {
      expect(sheet).toContain(`Page ${index + 1} of ${sheets.length}`);
      expect(sheet).toContain(checklist.fingerprint);
      expect(sheet).toContain('Well T2-07. Revision B of 2026-03-14.');
      expect(sheet).toContain('licensed practice come first');
      expect(sheet).not.toContain('Do not set up the well');
    });
  });

  it('bands every Letter page of an installation with errors, and keeps hostile names inside', {
    timeout: 90_000,
  }, () => {
    const broken = checklistOf({
      'wells/t2-07.yaml': [
        ['trip: 12 bar,', 'trip: 900 bar,'],
        ['well: T2-07', `well: 'T"; } \\ </style>'`],
      ],
    });
    const { size, sheets } = print('broken', renderChecklistHtml(broken, { paper: 'letter' }));
    expect(size).toMatch(/612 x 792/);
    sheets.forEach((sheet, index) => {
      expect(sheet).toContain('Do not set up the well from this sheet.');
      expect(sheet).toContain(`Page ${index + 1} of ${sheets.length}`);
      expect(sheet).toContain('Well T"; } \\ </style>.');
    });
  });

  it('repeats the head of a table that goes over a page', { timeout: 90_000 }, () => {
    const { sheets } = print('heads', renderChecklistHtml(checklistOf(), { paper: 'a4' }));
    const log = sheets.filter(
      (sheet) => /settings\.(?:drive|protection)\./.test(sheet) && !sheet.includes('settings.proof'),
    );
    expect(log.length).toBeGreaterThan(0);
    for (const sheet of log) expect(sheet).toMatch(/Set\s+Setting\s+Planned\s+Allowed\s+As left/);
  });
});
