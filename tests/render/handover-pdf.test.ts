import { join } from 'node:path';
import { PDFDocument } from '@cantoo/pdf-lib';
import { describe, expect, it } from 'vitest';
import { buildHandover, type Handover } from '../../server/src/engine/index.ts';
import { renderHandoverHtml } from '../../server/src/render/handover/html.ts';
import { renderHandoverPdf } from '../../server/src/render/handover/pdf.ts';
import { lookAtPdf, skipsWithoutPdfTools } from '../support/pdf-tools.ts';
import { checked, openProject, SAMPLES, TODAY } from '../support/project.ts';

function handoverOf(visit: string): Handover {
  const path = join(SAMPLES, visit);
  const repository = openProject(path);
  return buildHandover(checked(repository, path), checked(repository, join(SAMPLES, 'pad-a/qm-a1.yaml')), TODAY);
}

const GOOD = handoverOf('visits/qm-a1-2026-05-04.yaml');
const FAULTY = handoverOf('visits/with-mistakes/qm-a1-2026-05-04.yaml');

/** Texts as they are read, whatever the lines are. */
function words(text: string): string {
  return text.replace(/\s+/g, ' ');
}

describe('the handover report as PDF', () => {
  it('is the same for the same report, and has no form', async () => {
    const bytes = await renderHandoverPdf(GOOD, { paper: 'a4' });
    expect(Buffer.compare(bytes, await renderHandoverPdf(GOOD, { paper: 'a4' }))).toBe(0);
    expect(Buffer.from(bytes).toString('latin1')).not.toMatch(/CreationDate|ModDate|AcroForm/);
    const document = await PDFDocument.load(bytes, { updateMetadata: false });
    expect(document.getTitle()).toBe('Handover of well QM-A1');
    expect(document.catalog.toString()).toContain('/StructTreeRoot');
  });

  it('has what was read at times or depths as a table, with the unit told once', () => {
    const lines = GOOD.done.flatMap((stage) => stage.lines).filter(({ series }) => series.length > 0);
    const current = lines.find(({ item }) => item === 'start.log.current_a');
    expect(current?.series.slice(0, 2)).toEqual([
      { name: '0 min', text: '12.41' },
      { name: '5 min', text: '12.41' },
    ]);
    const page = renderHandoverHtml(GOOD, { paper: 'a4' });
    expect(page).toMatch(/<th scope="col" class="reading">Reading<\/th><th scope="col" class="">0 min<\/th>/);
    expect(page).toMatch(
      /Current, phase A <span class="small">\(in A\)<\/span>.*<\/td><td>12\.41<\/td><td>12\.41<\/td>/,
    );
    // Nothing is told twice.
    expect(page.match(/start\.log\.current_a/g)).toHaveLength(1);
    for (const { item } of lines) expect(page).toContain(item);
  });

  it('is A4 or Letter as asked', async () => {
    const size = async (paper: 'a4' | 'letter') =>
      (await PDFDocument.load(await renderHandoverPdf(GOOD, { paper }))).getPage(0).getSize();
    expect(await size('a4')).toMatchObject({ width: 595.28, height: 841.89 });
    expect(await size('letter')).toMatchObject({ width: 612, height: 792 });
  });
});

describe.skipIf(skipsWithoutPdfTools('The handover report'))('the handover report as PDF from outside', () => {
  it('is sound, with number, visit, fingerprint and deferral on every page, and no band on a good visit', async () => {
    const { info, sheets } = lookAtPdf(await renderHandoverPdf(GOOD, { paper: 'a4' }));
    expect(info).toMatch(/Page size:.*A4/);
    expect(info).toMatch(/Tagged: +yes/);
    sheets.forEach((sheet, index) => {
      expect(sheet).toContain(`Page ${index + 1} of ${sheets.length}`);
      expect(sheet).toContain('Visit of 2026-05-04.');
      expect(sheet).toContain(GOOD.fingerprint?.slice(7, 19));
      expect(words(sheet)).toMatch(/maker’s manual, the site’s rules, local codes or licensed practice/);
      expect(sheet).not.toContain('Do not accept');
    });
  });

  it('tells everything that the report has, and bands every page of a visit that left errors', async () => {
    const { sheets } = lookAtPdf(await renderHandoverPdf(FAULTY, { paper: 'letter' }));
    for (const sheet of sheets) expect(sheet).toContain('4 errors in this visit');
    const text = words(sheets.join(' '));
    for (const { item } of [...FAULTY.settings, ...FAULTY.signatures, ...FAULTY.remarks, ...FAULTY.deviating])
      if (item !== undefined) expect(text).toContain(item);
    for (const part of ['Deviating', 'Left open', 'Settings as left', 'Signatures', 'not signed', 'differs', '12 Mohm'])
      expect(text).toContain(part);
  });

  it('keeps what is hostile or longer than a page, and makes no code of what is no fingerprint', async () => {
    const long = 'word '.repeat(4000);
    const remarks = [
      { item: '</td>(井)', text: `${long}end` },
      { item: 'x', text: '\u0007\u202e) Tj' },
    ];
    const report = { ...GOOD, remarks, well: 'w'.repeat(300), fingerprint: 'f'.repeat(5000), crew: [] };
    const { sheets } = lookAtPdf(await renderHandoverPdf(report, { paper: 'a4' }));
    const text = sheets.join(' ');
    expect(text.match(/\bword\b/g)).toHaveLength(4000);
    expect(text).toContain('</td>([U+4E95])');
    expect(text).toContain('\\u0007\\u202e) Tj');
    expect(text).toContain('nobody entered');
  });
});
