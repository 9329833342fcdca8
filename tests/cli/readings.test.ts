import { cpSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { PDFDocument, PDFTextField } from '@cantoo/pdf-lib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type ReadingsArguments, readings } from '../../server/src/commands/readings.ts';
import { buildChecklist, type Checklist, formFieldsOf, readingsText } from '../../server/src/engine/index.ts';
import { renderChecklistPdf } from '../../server/src/render/checklist/pdf.ts';
import { goodEntries } from '../support/good-visit.ts';
import { checked, openProject, SAMPLES } from '../support/project.ts';
import { makeFolder, type Ran, removeFolder, run } from './support.ts';

const WELL = 'pad-a/qm-a1.yaml';
const DATE = '2026-05-04';
const DAY = '2026-06-01';

let folder: string;
let checklist: Checklist;
/** The form as it is printed, filled with a complete visit. */
let filled: Uint8Array;

beforeAll(async () => {
  folder = makeFolder({});
  cpSync(SAMPLES, folder, { recursive: true });
  const path = join(SAMPLES, WELL);
  const built = buildChecklist(checked(openProject(path), path), { units: 'as-written' });
  checklist = { ...built, installation: WELL };
  filled = await fill(await renderChecklistPdf(checklist, { paper: 'a4' }));
});

afterAll(() => removeFolder(folder));

/** What a complete visit enters, by the names of the form's fields; a tick is `true`. */
function fieldTexts(): ReadonlyMap<string, string | true> {
  const entries = goodEntries(checklist, DATE);
  const texts = new Map<string, string | true>();
  for (const step of checklist.stages.flatMap((stage) => stage.steps)) {
    const { done, values = [], by = '', at = '' } = entries.get(step.id) ?? {};
    for (const { name, part } of formFieldsOf(step)) {
      if (part === 'done') texts.set(name, done === true || '');
      else if (part === 'by' || part === 'at') texts.set(name, part === 'by' ? by : at);
      else texts.set(name, part === 'value' ? values.join(', ') : (values[Number(part) - 1] ?? ''));
    }
  }
  return texts;
}

async function fill(form: Uint8Array, changed: Readonly<Record<string, string>> = {}): Promise<Uint8Array> {
  const pdf = await PDFDocument.load(form);
  const texts = new Map([...fieldTexts(), ...Object.entries(changed)]);
  for (const field of pdf.getForm().getFields()) {
    const text = texts.get(field.getName());
    if (text === undefined || text === '') continue;
    if (field instanceof PDFTextField) field.setText(String(text));
    else pdf.getForm().getCheckBox(field.getName()).check();
  }
  return pdf.save({ updateFieldAppearances: false });
}

/** A step whose reading is asked for in a unit. */
function stepWith({ stages }: Checklist, unit: string) {
  const step = stages.flatMap(({ steps }) => steps).find((each) => each.kind === 'read' && each.unit === unit);
  if (step === undefined) throw new Error(`nothing is read in ${unit}`);
  return step;
}

async function fillOnly(form: Uint8Array, texts: Readonly<Record<string, string>>): Promise<Uint8Array> {
  const pdf = await PDFDocument.load(form);
  for (const [name, text] of Object.entries(texts)) pdf.getForm().getTextField(name).setText(text);
  return pdf.save({ updateFieldAppearances: false });
}

function bring(content: string | Uint8Array, args: Partial<ReadingsArguments> = {}, name = 'back.bin'): Promise<Ran> {
  const place = makeFolder({ [name]: content });
  const file = join(place, name);
  return run(folder, (around) => readings({ file, today: DAY, ...args }, around)).finally(() => removeFolder(place));
}

describe('a filled PDF form', () => {
  it('comes back as the document of the same entries, with nothing lost and nothing made up', async () => {
    const { status, out, err } = await bring(filled);
    expect(status, err).toBe(0);
    expect(out).toBe(readingsText(checklist, goodEntries(checklist, DATE)));
    expect(err).toMatch(/^setproof: '.*': \d+ fields filled, \d+ empty\.\n$/);
  });

  it('has every field told of: an unknown one, one that cannot be read, one that is empty', async () => {
    const pdf = await PDFDocument.load(filled);
    pdf.getForm().createTextField('from.elsewhere').setText('<b>7</b>\n: # x');
    pdf.getForm().getTextField('surface.earth_resistance.value').setText('about two');
    pdf.getForm().getTextField('running_in.tally.value').setText('');
    const { status, out, err } = await bring(await pdf.save({ updateFieldAppearances: false }));
    expect(status).toBe(0);
    expect(out).toContain('- item: "from.elsewhere"\n    value: "<b>7</b>\\n: # x"');
    expect(err).toContain('1 field of no item on the checklist, kept under the name of the field: from.elsewhere.');
    expect(out).toContain('value: "about two"');
    expect(err).toContain("'surface.earth_resistance' says 'about two', kept as it was typed.");
    expect(out).not.toContain('running_in.tally');
  });

  it('names the installation from where the document is written', async () => {
    const output = join(folder, 'visits', 'new.yaml');
    await bring(filled, { output });
    expect(readFileSync(output, 'utf8')).toContain('installation: "../pad-a/qm-a1.yaml"');
  });

  it('keeps the fingerprint that it was printed with', async () => {
    const pdf = await PDFDocument.load(filled);
    const field = pdf.getForm().getTextField('setproof.fingerprint');
    field.disableReadOnly();
    field.setText('sha256:00');
    const { out } = await bring(await pdf.save({ updateFieldAppearances: false }));
    expect(out).toContain('fingerprint: "sha256:00"');
  });

  it('takes a bare number in the units that it was printed in', async () => {
    const path = join(SAMPLES, WELL);
    const printed = buildChecklist(checked(openProject(path), path), { units: 'oilfield' });
    const form = await renderChecklistPdf({ ...printed, installation: WELL }, { paper: 'a4' });
    const [field] = formFieldsOf(stepWith(printed, 'psi(g)'));
    const { out } = await bring(await fillOnly(form, { [field?.name ?? '']: '3' }));
    expect(out).toContain('value: "3 psi(g)"');
  });

  it('of an installation that is not where it was asks for it', async () => {
    const moved = await bring(
      JSON.stringify({ 'setproof.fingerprint': 'sha256:0', 'setproof.installation': 'gone.yaml' }),
    );
    expect(moved.status).toBe(2);
    expect(moved.err).toContain('--installation');
    const told = await bring(JSON.stringify({ 'setproof.fingerprint': 'sha256:0' }), { installation: WELL });
    expect(told.status).toBe(0);
  });
});

describe('fields of a form as JSON', () => {
  it('come back as those of the PDF do', async () => {
    const own = { 'setproof.fingerprint': checklist.fingerprint, 'setproof.installation': WELL };
    const { out } = await bring(JSON.stringify({ ...own, ...Object.fromEntries(fieldTexts()) }));
    expect(out).toBe(readingsText(checklist, goodEntries(checklist, DATE)));
  });

  it('may name the item alone, as forms do that were made by hand', async () => {
    const own = { 'setproof.fingerprint': 'sha256:0', 'setproof.installation': WELL };
    const fields = { 'start.valves': true, 'surface.earth_resistance': '2', 'start.hold.by': 'person in charge' };
    const { out } = await bring(JSON.stringify({ ...own, ...fields }));
    expect(out).toContain('- item: "start.valves"\n    value: "yes"');
    expect(out).toContain('- item: "surface.earth_resistance"\n    value: "2 ohm"');
    expect(out).toContain('by: "person in charge"');
  });
});

describe('what cannot be brought back', () => {
  const refused = async (content: string | Uint8Array, reason: RegExp) => {
    const { status, out, err } = await bring(content);
    expect([status, out]).toEqual([2, '']);
    expect(err).toMatch(reason);
    expect(err.trim().split('\n')).toHaveLength(1);
  };

  it('a PDF that was cut off', () => refused(filled.subarray(0, filled.length >> 1), /cut off/));
  it('a PDF of rubbish', () => refused('%PDF-1.7\nrubbish\n%%EOF\n', /damaged/));
  it('a form of something else', async () => {
    const pdf = await PDFDocument.create();
    pdf.addPage();
    pdf.getForm().createTextField('surname').setText('x');
    await refused(await pdf.save(), /a form of something else: it has 1 field/);
  });
  it('JSON of another kind', () => refused('{"name": "x"}', /JSON of another kind/));
  it('JSON that was cut off', () => refused('{"setproof.fingerprint": "sha', /cut off/));
  it('the checklist itself', () => refused(JSON.stringify(checklist), /nobody has filled it in/));
  it('a page without readings', () => refused('<!doctype html><p>document: readings/1</p>', /stays in its browser/));
  it('a document of another kind', async () => {
    await refused('document: pump/1\nname: x\n', /It is a pump\/1/);
    await refused('document: installation/1\n', /It is an installation\/1/);
  });
  it('a PDF that was printed or scanned', async () => {
    const pdf = await PDFDocument.create();
    pdf.addPage();
    await refused(await pdf.save(), /a PDF without fields, printed or scanned/);
  });
  it('a PDF that is encrypted', () =>
    refused('%PDF-1.7\n1 0 obj\n<< /Filter /Standard >>\nendobj\ntrailer << /Encrypt 1 0 R >>\n%%EOF\n', /encrypted/));
  it('an office file or a picture', () => refused('PK\u0003\u0004\u0014\u0000', /neither a PDF nor a text/));
  it('bytes', () =>
    refused(
      new Uint8Array(4096).map((_, at) => (at * 7919) % 256),
      /cannot be brought back/,
    ));
  it('nothing', () => refused('', /no key 'document'/));
  it('a file that is not there', async () => {
    const { status, err } = await run(folder, (around) => readings({ file: 'nowhere.pdf' }, around));
    expect([status, err]).toEqual([2, "setproof: 'nowhere.pdf' cannot be read: there is no such file or folder.\n"]);
  });
});

describe('a page that was saved with its readings', () => {
  it('gives them back', async () => {
    const { status, out } = await bring(
      '<html><pre>document: readings/1\nreadings: []\nx_why: &quot;a &lt; b&quot;\n</pre></html>',
    );
    expect([status, out]).toEqual([0, 'document: readings/1\nreadings: []\nx_why: "a < b"\n']);
  });
});

describe('a document that is readings already', () => {
  const GOOD = 'visits/qm-a1-2026-05-04.yaml';
  const FAULTY = 'visits/with-mistakes/qm-a1-2026-05-04.yaml';

  it('is checked', async () => {
    const good = await run(folder, (around) => readings({ file: GOOD, today: DAY }, around));
    expect(good.status, good.out).toBe(0);
    const faulty = await run(folder, (around) => readings({ file: FAULTY, today: DAY }, around));
    expect(faulty.status).toBe(1);
    expect(faulty.out).toContain('readings.insulation');
  });

  it('may lead to no installation outside of the repository', async () => {
    const { status, out } = await bring('document: readings/1\ninstallation: ../../../etc/passwd\n', {}, 'visit.yaml');
    expect(status).toBe(1);
    expect(out).toContain('reference.outside-repository');
  });

  it.each(['handover-html', 'handover-markdown'] as const)('is told as %s', async (format) => {
    const { status, out } = await run(folder, (around) => readings({ file: FAULTY, today: DAY, format }, around));
    expect(status).toBe(0);
    for (const words of [
      'Deviating',
      'Left open',
      'Settings as left',
      'Signatures',
      'Remarks',
      'not signed',
      '12 Mohm',
    ])
      expect(out).toContain(words);
    expect(out).toContain('does not replace the maker’s manual');
  });

  it('is told as a PDF, on paper but not on a terminal', async () => {
    const args = { file: FAULTY, today: DAY, format: 'handover-pdf', paper: 'letter' } as const;
    const output = join(folder, 'handover.pdf');
    expect((await run(folder, (around) => readings({ ...args, output }, around))).status).toBe(0);
    const [page] = (await PDFDocument.load(readFileSync(output))).getPages();
    expect(page?.getSize()).toEqual({ width: 612, height: 792 });
    const shown = await run(folder, (around) => readings(args, around), { isTTY: true });
    expect([shown.status, shown.out]).toEqual([2, '']);
    expect(shown.err).toContain('A PDF is not for the terminal: name a file with --output');
  });

  it('is told from the filled form too', async () => {
    const { status, out } = await bring(filled, { format: 'handover-markdown' });
    expect(status).toBe(0);
    expect(out).toContain('0 errors, 0 warnings, 0 notes.');
  });
});

describe('a hostile document', () => {
  it('steers nothing in the report', async () => {
    const text = [
      'document: readings/1',
      'installation: pad-a/qm-a1.yaml',
      'visit: { date: 2026-05-04, crew: ["<script>alert(1)</script>", "a|b`c"] }',
      'readings:',
      '  - { item: "<img src=x>`|", value: "</td><script>", note: "[x](javascript:alert)\\e[2J" }',
    ].join('\n');
    const place = join(folder, 'hostile.yaml');
    cpSync(join(makeFolder({ 'h.yaml': text }), 'h.yaml'), place);
    for (const format of ['handover-html', 'handover-markdown'] as const) {
      const { out } = await run(folder, (around) => readings({ file: 'hostile.yaml', today: DAY, format }, around));
      expect(out).not.toMatch(/<script|<img|\u001b/);
    }
  });
});
