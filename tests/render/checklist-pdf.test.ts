import { PDFCheckBox, PDFDocument, PDFTextField } from '@cantoo/pdf-lib';
import { describe, expect, it } from 'vitest';
import {
  bringBack,
  type Checklist,
  formFieldName,
  formFieldsOf,
  partOfFormField,
} from '../../server/src/engine/index.ts';
import { readPdfForm } from '../../server/src/host/node/pdf-form.ts';
import { renderChecklistPdf } from '../../server/src/render/checklist/pdf.ts';
import { openFaces } from '../../server/src/render/pdf/canvas.ts';
import { printable, wrap } from '../../server/src/render/pdf/face.ts';
import { checklistOf, stepsOf } from '../engine/checklist/project.ts';
import { lookAtPdf, skipsWithoutPdfTools } from '../support/pdf-tools.ts';

const CLEAN = checklistOf();
const WELL = 'wells/t2-07.yaml';
const PDF = await renderChecklistPdf(CLEAN, { paper: 'a4' });

function fieldNames(checklist: Checklist): readonly string[] {
  return stepsOf(checklist).flatMap((step) => formFieldsOf(step).map(({ name }) => name));
}

describe('the PDF form', () => {
  it('has a field for everything that is ticked, read, set and signed, and says which checklist it is', async () => {
    const form = (await PDFDocument.load(PDF)).getForm();
    const names = form.getFields().map((field) => field.getName());
    expect(new Set(names).size).toBe(names.length);
    for (const name of fieldNames(CLEAN)) expect(names).toContain(name);
    expect(form.getTextField('setproof.fingerprint').getText()).toBe(CLEAN.fingerprint);
    expect(form.getTextField('setproof.installation').getText()).toBe(CLEAN.installation);
    expect(form.getTextField('setproof.fingerprint').isReadOnly()).toBe(true);
    expect(form.getField('surface.lockout.done')).toBeInstanceOf(PDFCheckBox);
    expect(form.getField('running_in.motor.head_flange.value')).toBeInstanceOf(PDFTextField);
    expect(form.getField('running_in.motor.head_flange.seal.done')).toBeInstanceOf(PDFCheckBox);
    expect(form.getField('inspection.motor.winding_resistance.3')).toBeInstanceOf(PDFTextField);
    expect(form.getField('start.hold.by')).toBeInstanceOf(PDFTextField);
    expect(form.getField('visit.date')).toBeInstanceOf(PDFTextField);
  });

  it('gives every entry back when it is filled', async () => {
    const document = await PDFDocument.load(PDF);
    const entered = new Map<string, string>();
    document
      .getForm()
      .getFields()
      .forEach((field, index) => {
        if (field.isReadOnly()) return;
        const text = field instanceof PDFCheckBox ? 'yes' : String(index);
        if (field instanceof PDFCheckBox) field.check();
        else (field as PDFTextField).setText(text);
        entered.set(field.getName(), text);
      });
    const read = await readPdfForm(await document.save());
    if ('refused' in read) throw new Error(read.refused);
    for (const [name, text] of entered) expect(read.fields.get(name), name).toBe(text);
    const back = bringBack(CLEAN, read.fields, '../wells/t2-07.yaml');
    expect(back).toMatchObject({ filled: entered.size, empty: 0, unknown: [], absent: [] });
  });

  it('is the same for the same file', async () => {
    expect(Buffer.compare(PDF, await renderChecklistPdf(checklistOf(), { paper: 'a4' }))).toBe(0);
    expect(Buffer.from(PDF).toString('latin1')).not.toMatch(/CreationDate|ModDate/);
  });

  it('has its title and language, and is tagged', async () => {
    const document = await PDFDocument.load(PDF, { updateMetadata: false });
    expect(document.getTitle()).toBe('Checklist for well T2-07');
    expect(document.catalog.toString()).toContain('/Lang');
    expect(document.catalog.toString()).toContain('/StructTreeRoot');
  });

  it('gives no two fields one name, whatever a policy calls its steps', async () => {
    const policy = `document: policy/1
steps:
  start:
    - { id: start.hold.by, text: Looks like a part. }
    - { id: start..done, text: Has an empty section. }
    - { id: "a/b~7e~ c.1", text: Has signs., kind: read, unit: V }
`;
    const own = checklistOf({}, 'as-written', policy);
    const form = (await PDFDocument.load(await renderChecklistPdf(own, { paper: 'a4' }))).getForm();
    const names = form.getFields().map((field) => field.getName());
    expect(new Set(names).size).toBe(names.length);
    for (const id of ['start.hold.by', 'start..done', 'a/b~7e~ c.1']) {
      expect(names.filter((name) => partOfFormField(name)?.step === id).length).toBeGreaterThan(0);
      expect(partOfFormField(formFieldName(id, 'note'))).toEqual({ step: id, part: 'note' });
    }
  });
});

describe.skipIf(skipsWithoutPdfTools('The PDF form'))('the PDF form from outside', () => {
  it('is sound, and has number, fingerprint and deferral on every A4 page', () => {
    const { info, sheets } = lookAtPdf(PDF);
    expect(info).toMatch(/Page size:.*A4/);
    expect(info).toMatch(/Tagged: +yes/);
    const short = CLEAN.fingerprint.slice(7, 19);
    sheets.forEach((sheet, index) => {
      expect(sheet).toContain(`Page ${index + 1} of ${sheets.length}`);
      expect(sheet).toContain(short);
      expect(sheet.replace(/\s+/g, ' ')).toMatch(/maker’s manual, the site’s rules, local codes or licensed practice/);
      expect(sheet).not.toContain('Do not set up the well');
    });
  });

  it('bands every Letter page of an installation with errors, and loses no character of a strange name', async () => {
    const broken = checklistOf({
      [WELL]: [
        ['trip: 12 bar,', 'trip: 900 bar,'],
        ['well: T2-07', 'well: "Łódź Скв Ω (井) \\\\ <</b>"'],
      ],
    });
    const { info, sheets } = lookAtPdf(await renderChecklistPdf(broken, { paper: 'letter' }));
    expect(info).toMatch(/Page size: +612 x 792/);
    for (const sheet of sheets) expect(sheet).toContain('Do not set up the well from this sheet.');
    for (const sheet of sheets) expect(sheet).toContain('Well Łódź Скв Ω ([U+4E95]) \\ <</b>.');
  });

  it('sets texts longer than a page', async () => {
    const long = 'word '.repeat(4000);
    const own = checklistOf({ 'eq/motor.yaml': [['Do not roll the motor.', `"${long}end"`]] });
    const { sheets } = lookAtPdf(await renderChecklistPdf(own, { paper: 'a4' }));
    expect(sheets.join(' ').match(/\bword\b/g)).toHaveLength(4000);
  });
});

describe('setting text', () => {
  const { regular } = openFaces();

  it('has the signs of the trade, and writes others by their code', () => {
    expect(printable('MΩ °C m² ≥ ☐ µ ½ Ж', regular)).toBe('MΩ °C m² ≥ ☐ µ ½ Ж');
    expect(printable('井 a\u0000b\u202e', regular)).toBe('[U+4E95] a\\u0000b\\u202e');
  });

  it('keeps lines within their width and loses nothing', () => {
    const text = `one two ${'x'.repeat(80)} three.four_five`;
    const lines = wrap(text, regular, 10, 100);
    for (const line of lines) expect(regular.widthOf(line, 10)).toBeLessThanOrEqual(100);
    expect(lines.join('').replace(/ /g, '')).toBe(text.replace(/ /g, ''));
  });
});
