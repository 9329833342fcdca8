// What is offered at a place, and what the text is when it was taken.
import { describe, expect, it } from 'vitest';
import { applied, type LspClient, positionBehind, type TextEdit } from './client.ts';
import { GOOD_TAP, LOW_TAP, makeSite, openFile, type Site, startClient, TODAY, WELL } from './site.ts';

interface Action {
  readonly title: string;
  readonly kind: string;
  readonly isPreferred?: boolean;
  readonly diagnostics?: readonly { readonly code: string }[];
  readonly edit: { readonly changes: Record<string, TextEdit[]> };
}

/** A well with a change in an editor; `at` gives what is offered behind a part of the text. */
async function wellWith(before: string, after: string) {
  const site = makeSite();
  const client = await startClient(site);
  const text = site.read(WELL).replace(before, () => after);
  await openFile(client, site, WELL, text);
  const at = (part: string, only?: readonly string[]) => actionsAt(client, site, text, part, only);
  const take = async (part: string, title: RegExp) => {
    const found = (await at(part)).find((each) => title.test(each.title));
    if (found === undefined) throw new Error(`nothing offered like ${title}`);
    return applied(text, found.edit.changes[site.uri(WELL)] ?? []);
  };
  /** Codes of the findings when a text stands in the editor. */
  const codesOf = async (newText: string, version = 2) => {
    client.change(site.uri(WELL), version, [{ text: newText }]);
    const { diagnostics } = await client.publication(site.uri(WELL), (each) => each.version === version);
    return diagnostics.map(({ code, message }) => `${code}: ${message}`);
  };
  return { text, at, take, codesOf };
}

async function actionsAt(client: LspClient, site: Site, text: string, part: string, only?: readonly string[]) {
  const position = positionBehind(text, part);
  const context = { diagnostics: [], ...(only && { only }) };
  const params = { textDocument: { uri: site.uri(WELL) }, range: { start: position, end: position }, context };
  return client.request<Action[]>('textDocument/codeAction', params);
}

describe('a quantity', () => {
  it('can be written in the other usual units, with nothing lost', async () => {
    const { at, take } = await wellWith('', '');
    const titles = (await at('md: 1420', ['refactor.rewrite'])).map(({ title }) => title);
    expect(titles).toEqual(['Write 4658.8 ft for 1420 m']);
    expect(await take('md: 1420', /ft/)).toContain('intake: { md: 4658.8 ft, tvd: 1395 m }');
    expect((await at('bubble_point: 34', ['refactor'])).map(({ title }) => title)).toContain(
      'Write 493.1 psi for 34 bar',
    );
  });

  it('with a comma has both readings offered, each saying how it reads, and neither preferred', async () => {
    const { at } = await wellWith('md: 1420 m', "md: '1,420 m'");
    const readings = (await at("md: '1,4", ['quickfix'])).filter(({ title }) => title.startsWith('Write'));
    expect(readings.map(({ title }) => title)).toEqual([
      'Write 1420, the mark between thousands',
      'Write 1.420, the mark as a decimal point',
    ]);
    expect(readings.every(({ isPreferred }) => !isPreferred)).toBe(true);
    expect(await at("md: '1,4", ['source.fixAll'])).toEqual([]);
  });
});

describe('a missing entry', () => {
  it('that must be there is added with its value left open', async () => {
    const { take, codesOf } = await wellWith('  well: A2-07\n', '');
    const mended = await take('site', /Add the key 'well'/);
    expect(mended).toContain('  ambient: { min: -25 degC, max: 38 degC }\n  well: \n');
    // An empty value is as good as none: it stays in sight until its author enters it.
    expect((await codesOf(mended)).join('\n')).toContain("'well' has no value");
  });

  it('in a row is added in its style', async () => {
    const { take } = await wellWith('{ name: target, intake: flowing }', '{ intake: flowing }');
    expect(await take('- { intake', /Add the key 'name'/)).toContain('- { intake: flowing, name:  }');
  });

  it('that a check asks for is added with what it takes', async () => {
    const { take } = await wellWith('', '');
    const added = await take('  protection', /Add 'setpoints\.protection\.overload'/);
    expect(added).toMatch(/^ {4}overload:\n {6}trip: {2}# enter: .*\n {6}delay: {2}# enter: /m);
  });
});

describe('a setpoint', () => {
  it('takes its recommended value, with its rule and window in the title', async () => {
    const { at, take, codesOf } = await wellWith('{ trip: 12 bar', '{ trip: 40 bar');
    const [fill] = (await at('{ trip: 40', ['refactor.rewrite'])).filter(({ title }) => /Set the/.test(title));
    expect(fill?.title).toMatch(/^Set the intake-pressure trip to [\d.]+ bar\(g\), .* \(window [\d.]+ to [\d.]+ bar/);
    const mended = await take('{ trip: 40', /^Set the intake-pressure trip/);
    expect((await codesOf(mended)).join('\n')).not.toMatch(/^intake-trip\.(above|below)/m);
  });

  it('whose value is not entered yet takes it too', async () => {
    const { take } = await wellWith('{ trip: 12 bar, ', '{ trip: , ');
    expect(await take('{ trip:', /^Set the intake-pressure trip/)).toMatch(/\{ trip: [\d.]+ bar\(g\) ?,/);
  });
});

describe('findings of one kind', () => {
  it('are mended together, and those of others left', async () => {
    const right = '  water_cut: 40 %\n  water_density: 1060';
    const { at, take } = await wellWith(right, '  watercut: 40 %\n  water_densty: 1060');
    const titles = (await at('watercut')).map(({ title }) => title);
    expect(titles).toContain("Mend all 2 findings of 'document.unknown-key' in this file");
    expect(await take('watercut', /Mend all 2/)).toContain(right);
  });

  it('that lead to the same way out offer it once', async () => {
    const { at } = await wellWith(GOOD_TAP, LOW_TAP);
    const edits = (await at('{ tap: 1')).map(({ edit }) => JSON.stringify(edit));
    expect(edits).toEqual([...new Set(edits)]);
  });
});

describe('a deviation', () => {
  const TITLE = /^Record a deviation from 'tap\.below-window', which accepts nothing until/;

  it('is recorded with what it accepts, and with reason and approval left open', async () => {
    const { at, take, codesOf } = await wellWith(GOOD_TAP, LOW_TAP);
    const recorded = await take('{ tap: 1', TITLE);
    expect(recorded).toMatch(/\ndeviations:\n {2}- check: tap\.below-window\n {4}key: setpoints\.transformer\.tap\n/);
    expect(recorded).toContain('    up_to: 600 V # worse than this opens it again\n');
    expect(recorded).toContain("    reason: '' # enter");
    expect(recorded).toContain("    approved_by: '' # enter");
    expect(recorded).toContain(`    until: ${TODAY} # enter`);
    const codes = (await codesOf(recorded)).join('\n');
    expect(codes).toMatch(/^tap\.below-window: (?!Accepted)/m);
    expect(codes).toContain('deviation.unapproved');
    const approved = recorded.replace("reason: ''", 'reason: trial').replace("approved_by: ''", 'approved_by: lead');
    expect((await codesOf(approved, 3)).join('\n')).toContain('tap.below-window: Accepted by a deviation');
    expect((await at('setpoints:')).filter(({ title }) => TITLE.test(title))).toEqual([]);
  });

  it.each([
    ['an empty list', 'deviations: []\nlift: linear', /deviations: \n {2}- check: tap\.below-window/],
    [
      'a list in flow style',
      'deviations: [ { check: tap.thin-margin, reason: x, approved_by: y, until: 2099-01-01 } ]\nlift: linear',
      /until: 2099-01-01 \}, \{ check: tap\.below-window, .* until: 2026-11-25 \} \]/,
    ],
    [
      'a list in block style',
      'deviations:\n  - check: tap.thin-margin\n    reason: x\n    approved_by: y\n    until: 2099-01-01\nlift: linear',
      /until: 2099-01-01\n {2}- check: tap\.below-window\n {4}key: /,
    ],
  ])('goes into %s', async (_, lines, written) => {
    const site = makeSite();
    const client = await startClient(site);
    const text = site
      .read(WELL)
      .replace(GOOD_TAP, LOW_TAP)
      .replace('lift: linear', () => lines);
    await openFile(client, site, WELL, text);
    const offered = await actionsAt(client, site, text, '{ tap: 1');
    const action = offered.find(({ title }) => TITLE.test(title));
    const recorded = applied(text, action?.edit.changes[site.uri(WELL)] ?? []);
    expect(recorded).toMatch(written);
    client.change(site.uri(WELL), 2, [{ text: recorded }]);
    const { diagnostics } = await client.publication(site.uri(WELL), ({ version }) => version === 2);
    expect(diagnostics.map(({ code }) => code)).not.toContain('document.syntax');
    expect(diagnostics.map(({ code }) => code)).toContain('deviation.unapproved');
  });

  it('that is not needed is taken out, alone or among others', async () => {
    const idle = '  - check: tap.above-window\n    reason: x\n    approved_by: y\n    until: 2099-01-01\n';
    const other = idle.replace('tap.above-window', 'cable.voltage-drop');
    const alone = await wellWith('lift: linear', `deviations:\n${idle}lift: linear`);
    const plain = alone.text.replace(`deviations:\n${idle}`, '');
    expect(await alone.take('check: tap', /^Take out/)).toBe(plain);
    const among = await wellWith('lift: linear', `deviations:\n${other}${idle}lift: linear`);
    expect(await among.take('check: tap', /^Take out/)).toBe(among.text.replace(idle, ''));
  });

  it('is not offered for how a file is written', async () => {
    const { at } = await wellWith('water_cut', 'watercut');
    expect((await at('watercut')).filter(({ title }) => title.startsWith('Record'))).toEqual([]);
  });
});

describe('a path that leads nowhere', () => {
  it.each([
    ['misspelt', '../equipment/moter.yaml'],
    ['of a file that was moved', '../old/place/motor.yaml'],
  ])('%s is mended by the data sheet that is meant', async (_, path) => {
    const { at, take } = await wellWith('../equipment/motor.yaml', path);
    // The data sheets of the workspace are found meanwhile.
    const titles = async () => (await at(path)).map(({ title }) => title);
    await expect.poll(titles, { timeout: 10_000 }).toContainEqual(expect.stringContaining('equipment/motor.yaml'));
    const mended = await take(path, /^Write '\.\.\/equipment\/motor\.yaml', which is /);
    expect(mended).toContain('motor: { datasheet: ../equipment/motor.yaml }');
  });
});
