import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { renderWorksheetHtml } from '../../server/src/render/worksheet/html.ts';
import { checked, openProject, SAMPLES, TODAY } from '../support/project.ts';

const BROWSER = ['chromium', 'chromium-browser', 'google-chrome'].find(
  (name) => spawnSync(name, ['--version'], { stdio: 'ignore' }).status === 0,
);
const hasPoppler = spawnSync('pdfinfo', ['-v'], { stdio: 'ignore' }).status === 0;
const canPrint = BROWSER !== undefined && hasPoppler;
if (!canPrint) console.log('worksheet-print: not run, it needs Chromium and Poppler’s pdfinfo and pdftotext.');

const path = join(SAMPLES, 'pad-a/qm-a1.yaml');
const file = checked(openProject(path), path);

function print(paper: 'a4' | 'letter'): string {
  const folder = mkdtempSync(join(tmpdir(), 'worksheet-'));
  const page = join(folder, 'page.html');
  const pdf = join(folder, 'page.pdf');
  writeFileSync(page, renderWorksheetHtml(file, { paper, today: TODAY, nameOf: (each) => each }));
  const options = ['--headless', '--no-sandbox', '--disable-gpu', '--no-pdf-header-footer', `--print-to-pdf=${pdf}`];
  execFileSync(BROWSER!, [...options, `file://${page}`], { stdio: 'ignore' });
  return pdf;
}

describe.runIf(canPrint)('the printed worksheet', () => {
  let pdf = '';
  beforeAll(() => {
    pdf = print('a4');
  });

  it('is A4 or Letter as asked', () => {
    expect(execFileSync('pdfinfo', [pdf], { encoding: 'utf8' })).toMatch(/Page size:\s+59[45]\.\d* x 84[12]/);
    expect(execFileSync('pdfinfo', [print('letter')], { encoding: 'utf8' })).toMatch(/Page size:\s+612 x 792/);
  });

  it('has on each page its number, the fingerprint, and who has the last word', () => {
    const pages = execFileSync('pdftotext', ['-layout', pdf, '-'], { encoding: 'utf8' }).split('\f').slice(0, -1);
    expect(pages.length).toBeGreaterThan(5);
    for (const [at, page] of pages.entries()) {
      expect(page).toContain(`Page ${at + 1} of ${pages.length}`);
      expect(page).toContain(file.fingerprint()!);
      expect(page).toContain("The maker's manual");
    }
  });
});
