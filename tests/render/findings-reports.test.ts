import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { afterEach, describe, expect, test } from 'vitest';
import { validateXML } from 'xmllint-wasm';
import { type CheckArguments, check } from '../../server/src/commands/check.ts';
import { HOME, makeFolder, removeFolder, run, WELL } from '../cli/support.ts';

const SCHEMAS = join(import.meta.dirname, 'schemas');
const sarifSchema = JSON.parse(readFileSync(join(SCHEMAS, 'sarif-2.1.0.schema.json'), 'utf8'));
const isSarif = new Ajv2020({ strict: false, validateFormats: false }).compile(sarifSchema);
const XSD = readFileSync(join(SCHEMAS, 'junit.xsd'), 'utf8');

const folders: string[] = [];
afterEach(() => folders.splice(0).forEach(removeFolder));

function folderWith(files: Readonly<Record<string, string | Uint8Array>>): string {
  const folder = makeFolder(files);
  folders.push(folder);
  return folder;
}

async function reported(folder: string, args: Partial<CheckArguments>): Promise<string> {
  return (await run(folder, (surroundings) => check({ paths: [], ...args }, surroundings))).out;
}

async function sarif(folder: string, args: Partial<CheckArguments> = {}) {
  const log = JSON.parse(await reported(folder, { ...args, format: 'sarif' }));
  isSarif(log);
  expect(isSarif.errors).toBeNull();
  return log.runs[0];
}

async function junit(folder: string, args: Partial<CheckArguments> = {}): Promise<string> {
  const xml = await reported(folder, { ...args, format: 'junit' });
  const { errors } = await validateXML({ xml: { fileName: 'report.xml', contents: xml }, schema: XSD });
  expect(errors).toEqual([]);
  return xml;
}

const BARE = `${WELL}reservoir: { pressure: 78 }\n`;
const HOSTILE = `${WELL}"\\e[2J\\u202e<b>&]]>": 1\n"[here](x) {0} \\ufffe": 2\n`;
const DEVIATED = `${BARE}deviations:\n  - { check: units.missing, reason: an old file, approved_by: me, until: 2026-03-20 }\n`;

describe('SARIF', () => {
  test('of the samples follows the schema of the standard, with every check as a rule', async () => {
    const { results, tool } = await sarif(HOME, { paths: ['samples', 'samples/with-mistakes'], root: 'samples' });
    const { rules } = tool.driver;
    expect(results.length).toBeGreaterThan(20);
    expect(rules.length).toBeGreaterThan(100);
    for (const { ruleId, ruleIndex } of results) expect(rules[ruleIndex].id).toBe(ruleId);
    expect(results.some((each: { relatedLocations?: unknown[] }) => each.relatedLocations !== undefined)).toBe(true);
  });

  test('counts lines and columns from one, and offers the way out', async () => {
    const { results } = await sarif(folderWith({ 'a b.yaml': `${WELL}reservoir: { pressure: '1,850 bar' }\n` }));
    const [result] = results.filter((each: { ruleId: string }) => each.ruleId === 'units.thousands-separator');
    const [{ physicalLocation: place }] = result.locations;
    expect(place.artifactLocation.uri).toBe('a%20b.yaml');
    expect(place.region).toMatchObject({ startLine: 9, startColumn: 25 });
    expect(result.fixes[0].artifactChanges[0].replacements[0].insertedContent.text).toMatch(/1/);
  });

  test('knows a finding again when its lines move and its number changes', async () => {
    const prints = async (text: string) =>
      (await sarif(folderWith({ 'a.yaml': text }))).results.map(
        (each: { partialFingerprints: unknown }) => each.partialFingerprints,
      );
    const before = await prints(BARE);
    expect(await prints(`# one line more\n${BARE.replace('78', '79')}`)).toEqual(before);
    expect(new Set(before.map((each: object) => JSON.stringify(each))).size).toBe(before.length);
  });

  test('tells what a deviation accepts as suppressed, with the reason', async () => {
    const { results } = await sarif(folderWith({ 'a.yaml': DEVIATED }));
    const [result] = results.filter((each: { ruleId: string }) => each.ruleId === 'units.missing');
    expect(result.suppressions).toMatchObject([{ kind: 'inSource', status: 'accepted' }]);
    expect(result.suppressions[0].justification).toContain('an old file');
  });

  test('says what was not run, and what was not looked at', async () => {
    const folder = folderWith({ 'a.yaml': BARE });
    const [{ toolExecutionNotifications: said, executionSuccessful }] = (
      await sarif(folder, { paths: ['a.yaml', 'none.yaml'] })
    ).invocations;
    expect(executionSuccessful).toBe(false);
    expect(said[0]).toMatchObject({ level: 'error', descriptor: { id: 'not-checked' } });
    const notRun = said.filter((each: { descriptor: { id: string } }) => each.descriptor.id === 'not-run');
    expect(notRun.length).toBeGreaterThan(0);
    expect(notRun[0].message.text).toContain('it lacks');
  });

  test('lets nothing that a document says be a link, an argument or a control character', async () => {
    const { results } = await sarif(folderWith({ 'a.yaml': HOSTILE }));
    const texts = JSON.stringify(results.map((each: { message: unknown }) => each.message));
    expect(texts).toContain('[2J');
    expect(
      JSON.parse(texts)
        .map(({ text }: { text: string }) => text)
        .join(),
    ).not.toMatch(/[\x00-\x1f\u202e]/);
    expect(texts).not.toMatch(/[^\\]\[here\]\(x\)/);
    expect(texts).not.toMatch(/[^{]\{0\}/);
  });
});

describe('JUnit', () => {
  test('of the samples follows its schema, with true counts', async () => {
    const xml = await junit(HOME, { paths: ['samples', 'samples/with-mistakes'], root: 'samples' });
    for (const [suite = '', tests, failures, skipped] of xml.matchAll(
      /<testsuite [^>]*tests="(\d+)" failures="(\d+)" errors="0" skipped="(\d+)">[\s\S]*?<\/testsuite>/g,
    )) {
      expect(suite.match(/<testcase /g)?.length ?? 0).toBe(Number(tests));
      expect(suite.match(/<failure /g)?.length ?? 0).toBe(Number(failures));
      expect(suite.match(/<skipped /g)?.length ?? 0).toBe(Number(skipped));
    }
    expect(xml).toContain('<failure type="error"');
    expect(xml).toContain('not run: lacks');
  });

  test('fails by the severity that counts', async () => {
    const folder = folderWith({ 'a.yaml': WELL });
    expect(await junit(folder)).not.toContain('<failure');
    expect(await junit(folder, { failOn: 'note' })).toContain('<failure type="note"');
  });

  test('tells what is accepted as skipped', async () => {
    const xml = await junit(folderWith({ 'a.yaml': DEVIATED }));
    expect(xml).toMatch(/units\.missing[^\n]*<skipped message="accepted by a deviation/);
    expect(xml).not.toContain('<failure');
  });

  test('holds no markup and no character of a document that XML does not allow', async () => {
    const xml = await junit(folderWith({ 'a.yaml': HOSTILE }));
    expect(xml).not.toContain('<b>');
    expect(xml).toContain('\\u001b[2J');
  });
});

describe('Markdown', () => {
  test('names errors and warnings by file, with the way out, and what was not run', async () => {
    const text = await reported(folderWith({ 'a.yaml': BARE }), { format: 'markdown' });
    expect(text).toMatch(/^## Setproof: 1 error, /);
    expect(text).toMatch(/^### a\.yaml$/m);
    expect(text).toMatch(/^- \*\*error\*\* reservoir\.pressure, line 9: .*units\.missing\)$/m);
    expect(text).toContain('Checks not run');
  });

  test('fits into a comment, and says what does not', async () => {
    const bad = `${WELL}${Array.from({ length: 60 }, (_, at) => `unknown_key_${at}_${'x'.repeat(300)}: 1\n`).join('')}`;
    const files = Array.from({ length: 40 }, (_, at) => [`w${at}.yaml`, bad]);
    const text = await reported(folderWith(Object.fromEntries(files)), { format: 'markdown' });
    expect(text.length).toBeLessThan(65_536);
    expect(text).toMatch(/Findings in \d+ more files do not fit here/);
    expect(text).toContain('more in this file');
  });

  test('is no markup where a document speaks', async () => {
    const text = await reported(folderWith({ 'a.yaml': HOSTILE }), { format: 'markdown' });
    expect(text).not.toMatch(/<b>|[^\\]\[here\]|[\x00-\x09\x0b-\x1f\u202e]/);
  });
});
