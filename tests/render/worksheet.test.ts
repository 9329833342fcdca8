import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { type CheckedFile, HANDBOOK } from '../../server/src/engine/index.ts';
import { DEFERS } from '../../server/src/render/text/lines.ts';
import { renderWorksheetHtml } from '../../server/src/render/worksheet/html.ts';
import { renderWorksheetMarkdown } from '../../server/src/render/worksheet/markdown.ts';
import { worksheetOf } from '../../server/src/render/worksheet/model.ts';
import type { ValueSheet } from '../../server/src/render/worksheet/values.ts';
import { checked, type Edits, edited, openProject, SAMPLES, TODAY } from '../support/project.ts';

const [LINEAR, ROTARY] = ['pad-a/qm-a1', 'pad-a/qm-a3'] as const;
const nameOf = (path: string) => path.replace(`${SAMPLES}/`, '');

function fileOf(well: string, edits: Edits = {}): CheckedFile {
  const path = join(SAMPLES, `${well}.yaml`);
  return checked(edited(openProject(path), path, edits), path);
}

function htmlOf(file: CheckedFile, paper: 'a4' | 'letter' = 'a4'): string {
  return renderWorksheetHtml(file, { paper, today: TODAY, nameOf });
}

function markdownOf(file: CheckedFile): string {
  return renderWorksheetMarkdown(file, { today: TODAY, nameOf });
}

function idsIn({ rows, unavailable, notConcerned }: ValueSheet): readonly string[] {
  return [...rows.map(({ id }) => id), ...unavailable.map(({ id }) => id), ...notConcerned];
}

describe.each([LINEAR, ROTARY])('the worksheet of %s', (well) => {
  const file = fileOf(well);
  const { network, caseCount } = file.worked!.evaluation;
  const { worked } = worksheetOf(file, TODAY);

  it('has every value of the handbook once per case, or once for the file', () => {
    const perCase = HANDBOOK.map(({ id }) => id).filter((id) => network.byId.get(id)!.perCase);
    const perFile = HANDBOOK.map(({ id }) => id).filter((id) => !network.byId.get(id)!.perCase);
    expect([...idsIn(worked!.file)].sort()).toEqual([...perFile].sort());
    expect(worked!.cases).toHaveLength(caseCount);
    for (const { values } of worked!.cases) expect([...idsIn(values)].sort()).toEqual([...perCase].sort());
  });

  it('gives each line its own place in the page', () => {
    const places = [...htmlOf(file).matchAll(/<tr id="([^"]+)"/g)].map(([, id]) => id);
    const rows = worked!.file.rows.length + worked!.cases.reduce((sum, { values }) => sum + values.rows.length, 0);
    expect(places.filter((id) => !id?.startsWith('bound:'))).toHaveLength(rows);
    expect(new Set(places).size).toBe(places.length);
  });

  it('is the same bytes for the same file', () => {
    expect(htmlOf(fileOf(well))).toBe(htmlOf(file));
    expect(markdownOf(fileOf(well))).toBe(markdownOf(file));
  });

  it('states well, revision, fingerprint, day, and who has the last word', () => {
    for (const text of [htmlOf(file), markdownOf(file).replaceAll('\\', '')]) {
      expect(text).toContain(file.fingerprint()!);
      expect(text).toContain(TODAY);
      expect(text.replaceAll('&#39;', "'")).toContain(DEFERS);
    }
  });
});

describe('a line of the worksheet', () => {
  const { file: sheet, cases } = worksheetOf(fileOf(LINEAR), TODAY).worked!;
  const target = cases[1]!.values;

  it('names its inputs with values, keys and lines', () => {
    const row = target.rows.find(({ id }) => id === 'lift.friction')!;
    const diameter = row.inputs.find(({ key }) => key === 'well.tubing.inner_diameter')!;
    expect(diameter.shown).toBe('62 mm');
    const { source } = fileOf(LINEAR).document;
    expect(source.text.split('\n')[diameter.place!.line - 1]).toContain('tubing:');
    expect(row.inputs.map(({ id }) => id)).toContain('pump.rate');
  });

  it('names the case and the limit that decide it', () => {
    expect(sheet.rows.find(({ id }) => id === 'transformer.tap_min')!.decidedBy).toMatch(
      /low end of the supply.*case '/,
    );
    expect(sheet.rows.find(({ id }) => id === 'transformer.tap_max')!.decidedBy).toMatch(/bound by winding current/);
  });

  it('is in units that can be read', () => {
    expect(target.rows.find(({ id }) => id === 'cable.resistance')!.shown).toMatch(/^[\d.]+ ohm$/);
    expect(sheet.rows.find(({ id }) => id === 'site.atmosphere')!.shown).toMatch(/bar\(a\)$/);
  });

  it('says what is assumed', () => {
    const file = fileOf(LINEAR, { 'well.tubing.roughness': '' });
    const { rows } = worksheetOf(file, TODAY).worked!.cases[1]!.values;
    const roughness = rows
      .find(({ id }) => id === 'lift.friction')!
      .inputs.find(({ key }) => key === 'well.tubing.roughness')!;
    expect(roughness).toMatchObject({ shown: '0.046 mm', assumed: expect.stringContaining('Moody') });
    expect(htmlOf(file).split('well.tubing.roughness; assumed: ').length).toBeGreaterThan(3);
    expect(markdownOf(file).split('well.tubing.roughness; assumed: ').length).toBeGreaterThan(3);
  });
});

describe('what is not there', () => {
  it('is named with the entry that brings it', () => {
    const file = fileOf(LINEAR, { 'reservoir.temperature': '' });
    const { unavailable } = worksheetOf(file, TODAY).worked!.file;
    expect(unavailable.find(({ id }) => id === 'intake.temperature')?.missing).toEqual(['reservoir.temperature']);
    for (const text of [htmlOf(file), markdownOf(file).replaceAll('\\', '')]) {
      expect(text).toContain('Lacks reservoir.temperature.');
      expect(text).toMatch(/Not drawn: Temperature against depth, .*Reason: reservoir\.temperature is not entered/);
    }
  });

  it('is told apart from what has no solution', () => {
    const file = fileOf(ROTARY, { 'operation.frequency': '20 Hz' });
    const rows = worksheetOf(file, TODAY).worked!.cases.flatMap(({ values }) => values.unavailable);
    expect(
      rows.some(({ missing, reason }) => missing.length === 0 && reason.startsWith('There is no such number')),
    ).toBe(true);
  });

  it('lists the checks that were not run', () => {
    const file = fileOf(LINEAR, { 'reservoir.temperature': '' });
    const { notRun } = worksheetOf(file, TODAY);
    expect(notRun.length).toBeGreaterThan(0);
    for (const { check } of notRun) expect(htmlOf(file)).toContain(`<code>${check}</code>`);
  });
});

describe('findings, limits and windows', () => {
  it('stand with their message, place and severity', () => {
    const file = fileOf(LINEAR, { 'setpoints.protection.intake_pressure_low.trip': '90 bar' });
    const finding = file.findings.find(({ check }) => check.startsWith('intake-trip'))!;
    for (const text of [htmlOf(file), markdownOf(file).replaceAll('\\', '')]) {
      expect(text).toContain(`line ${finding.range.start.line + 1}`);
      expect(text).toContain('error');
    }
  });

  it('shows limits that the policy changes, with the default', () => {
    const { limits } = worksheetOf(fileOf(LINEAR), TODAY);
    const { policy } = fileOf(LINEAR);
    expect(limits.map(({ name }) => name).sort()).toEqual([...policy.limits.keys()].sort());
    expect(limits.find(({ name }) => name === 'motor.near-rating')).toMatchObject({ shown: '92 %', usual: '95 %' });
  });

  it('gives each bound its side, weight, number, margin, case, reason and source', () => {
    const window = worksheetOf(fileOf(LINEAR), TODAY).worked!.windows.find(({ title }) => title === 'the tap')!;
    const bound = window.bounds.find(({ id }) => id === 'tap.below-window')!;
    expect(bound).toMatchObject({ side: 'at least', weight: 'hard' });
    for (const text of [bound.shown, bound.margin, bound.case, bound.consequence, bound.source])
      expect(text).toBeTruthy();
    expect(window.rule).toMatch(/^the lowest tap on the plate that serves with something to spare/);
  });
});

describe('text from the document', () => {
  const hostile = `"</title></style><script>alert(1)</script> | & ' [x](javascript:1) \\u0007 \\u202e"`;
  const file = fileOf(ROTARY, { 'site.well': hostile, 'operation.cases[1].name': hostile, 'revision.number': hostile });

  it('stays text in HTML, in the page’s foot too', () => {
    const page = htmlOf(file);
    expect(page).not.toContain('<script');
    expect(page).not.toMatch(/[\u0007\u202e]/);
    expect(page.match(/<\/style>/g)).toHaveLength(1);
    expect(page.match(/<\/title>/g)!.length).toBe(page.match(/<title>/g)!.length);
  });

  it('stays text in Markdown, and in its cell', () => {
    const text = markdownOf(file);
    expect(text).not.toContain('<script');
    expect(text).not.toMatch(/[\u0007\u202e]/);
    expect(text).not.toMatch(/(?<!\\)\[x(?<!\\)\]/);
    const rows = text.split('\n').filter((line) => line.startsWith('| '));
    for (const row of rows) expect([3, 4, 5, 6]).toContain(row.match(/(?<!\\)\|/g)!.length);
  });
});
