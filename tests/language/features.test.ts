import { describe, expect, it } from 'vitest';
import { applied, type LspClient, type Position, PUSHED, positionBehind, type TextEdit } from './client.ts';
import { GOOD_TAP, LOW_TAP, makeSite, openFile, type Site, startClient, WELL } from './site.ts';

interface Item {
  readonly label: string;
  readonly detail: string;
  readonly documentation?: { readonly value: string };
  readonly insertTextFormat?: number;
  readonly textEdit: TextEdit;
}
interface Action {
  readonly title: string;
  readonly kind: string;
  readonly edit: { readonly changes: Record<string, TextEdit[]> };
}

function at(site: Site, position: Position) {
  return { textDocument: { uri: site.uri(WELL) }, position };
}

async function hover(client: LspClient, site: Site, position: Position): Promise<string> {
  const answer = await client.request<{ contents: { value: string } } | null>('textDocument/hover', at(site, position));
  return answer?.contents.value ?? '';
}

/** What completion offers in the well where `|` stands in a changed text, and the text with an item taken. */
async function complete(before: string, after: string) {
  const site = makeSite();
  const text = site.read(WELL).replace(before, () => after.replace('|', ''));
  const client = await startClient(site);
  await openFile(client, site, WELL, text);
  const position = positionBehind(text, after.slice(0, after.indexOf('|')));
  const ask = () => client.request<{ items: Item[] }>('textDocument/completion', at(site, position));
  const { items } = await ask();
  const item = (label: string) => items.find((each) => each.label === label);
  return {
    labels: items.map(({ label }) => label),
    again: async () => (await ask()).items.map(({ label }) => label),
    item,
    taken: (label: string) => applied(text, [(item(label) as Item).textEdit]),
  };
}

describe('hover', () => {
  it('shows the values that a key drives, on the key and anywhere on the value', async () => {
    const site = makeSite();
    const client = await startClient(site);
    const text = site.read(WELL);
    await openFile(client, site, WELL);
    const onKey = await hover(client, site, positionBehind(text, 'water_c'));
    expect(onKey).toContain('fluid.produced_density');
    expect(onKey).toMatch(/kg\/m3/);
    expect(onKey).toContain('mixing by volume');
    expect(await hover(client, site, positionBehind(text, 'water_cut: 4'))).toBe(onKey);
    expect(await hover(client, site, positionBehind(text, 'water_cut: 40 %'))).toBe(onKey);
  });

  it('says what a check is about where a deviation or a policy names it', async () => {
    const site = makeSite();
    const client = await startClient(site);
    const text = `${site.read(WELL)}deviations: [ { check: tap.thin-margin, reason: x } ]\n`;
    const { diagnostics } = await openFile(client, site, WELL, text);
    const shown = await hover(client, site, positionBehind(text, 'check: tap'));
    expect(shown).toContain('transformer tap close to an end of its window');
    expect(shown).toContain('Source: common practice, no source');
    expect(diagnostics.map(({ code }) => code)).toContain('deviation.unapproved');
  });

  it('shows the reading in other units, and the window of a setpoint with its recommendation', async () => {
    const site = makeSite();
    const client = await startClient(site);
    const text = site.read(WELL);
    await openFile(client, site, WELL);
    expect(await hover(client, site, positionBehind(text, 'pressure: 78'))).toContain('1131 psi');
    const tap = await hover(client, site, positionBehind(text, '{ tap'));
    expect(tap).toContain('the least tap voltage that serves');
    expect(tap).toMatch(/Recommended: \*\*tap 2/);
  });
});

describe('completion', () => {
  it('offers taps with their verdict, also where one is set already', async () => {
    const { labels, item } = await complete(GOOD_TAP, '{ tap: 2|, voltage: 900 V }');
    expect(labels[0]).toBe('2');
    expect(item('2')?.detail).toMatch(/^900 V: fits; recommended; window 752 to 1743 V$/);
    expect(item('1')?.detail).toMatch(/too low by \d+ V/);
  });

  it('offers the units that fit behind a number, and heeds case', async () => {
    const pressure = await complete('{ trip: 12 bar,', '{ trip: 12 |bar,');
    expect(pressure.labels).toEqual(expect.arrayContaining(['12 bar', '12 psi(a)']));
    expect(pressure.labels).not.toContain('12 m');
    expect((await complete('{ trip: 12 bar,', '{ trip: 12 B|,')).labels).toEqual([]);
  });

  it('offers the keys due in flow, in block, and in a text that does not parse yet', async () => {
    const flow = await complete('delay: 60 s }', 'delay: 60 s, | }');
    expect(flow.labels).toContain('response');
    expect(flow.labels).not.toContain('trip');
    expect(flow.taken('response')).toContain('delay: 60 s, response:  }');
    const block = await complete('lift: linear', 'rev|\nlift: linear');
    expect(block.taken('revision')).toContain('revision:\n  \nlift: linear');
    const open = await complete('delay: 60 s }', 'delay: 60 s, res|');
    expect(open.labels).toContain('reset'.replace('reset', 'response'));
  });

  it('offers choices with their meaning, and data sheets of the kind due by their path', async () => {
    expect((await complete('lift: linear', 'lift: |')).labels).toEqual(['linear', 'rotary']);
    const { again } = await complete('motor: { datasheet: ../equipment/motor.yaml }', 'motor: { datasheet: | }');
    // The data sheets of the workspace are found meanwhile.
    await expect.poll(again, { timeout: 10_000 }).toEqual(['../equipment/motor.yaml']);
  });

  it('offers no data sheets of the other lift', async () => {
    const site = makeSite();
    site.write('equipment/stages.yaml', 'document: pump/1\nname: stages\nstages: 90\n');
    const client = await startClient(site);
    const text = site.read(WELL).replace('pump: { datasheet: ../equipment/pump.yaml }', 'pump: { datasheet:  }');
    await openFile(client, site, WELL, text);
    const position = positionBehind(text, 'pump: { datasheet: ');
    const labels = async () => {
      const { items } = await client.request<{ items: Item[] }>('textDocument/completion', at(site, position));
      return items.map(({ label }) => label);
    };
    await expect.poll(labels, { timeout: 10_000 }).toEqual(['../equipment/pump.yaml']);
    client.change(site.uri(WELL), 2, [{ text: text.replace('lift: linear', 'lift: rotary') }]);
    expect(await labels()).toEqual(['../equipment/stages.yaml']);
  });

  it('offers checks where a deviation names one', async () => {
    const { labels } = await complete('lift: linear', 'deviations:\n  - check: tap.|\nlift: linear');
    expect(labels).toContain('tap.below-window');
  });

  it('offers in a deviation the keys that its check found something at, and the values there', async () => {
    const deviation = 'deviations:\n  - check: cable.voltage-drop\n    ';
    const keys = await complete('lift: linear', `${deviation}key: |\nlift: linear`);
    expect(keys.labels).toEqual(['equipment.cable.main']);
    const values = await complete('lift: linear', `${deviation}up_to: |\nlift: linear`);
    expect(values.labels[0]).toMatch(/^[\d.]+ %$/);
  });

  it('leaves out keys and units of the other lift', async () => {
    const linear = await complete('  target_rate:', '  |\n  target_rate:');
    expect(linear.labels).not.toContain('frequency');
    expect((await complete('name: target, intake', 'name: target, |intake')).labels).not.toContain('frequency');
    expect((await complete('motor.yaml }', 'motor.yaml, speed: 1 | }')).labels).toEqual(['1 m/s']);
    const open = await complete('lift: linear', '|');
    expect(open.labels).toContain('lift');
  });

  it('says of a recommended value on what it rests', async () => {
    const { item } = await complete('{ trip: 12 bar,', '{ trip: |,');
    expect(item('7 bar(g)')?.detail).toMatch(/^recommended; window 6\.58 to 15\.2/);
    expect(item('7 bar(g)')?.documentation?.value).toContain('the least comfortable pressure');
  });

  it('gives an editor that takes them snippets with places to fill in', async () => {
    const textDocument = { ...PUSHED.textDocument, completion: { completionItem: { snippetSupport: true } } };
    const site = makeSite();
    const client = await startClient(site, { capabilities: { textDocument } });
    const text = site.read(WELL).replace('    intake_pressure_low:', '    x\n    intake_pressure_low:');
    await openFile(client, site, WELL, text.replace('lift: linear\n', ''));
    const snippet = async (label: string, position: Position) => {
      const { items } = await client.request<{ items: Item[] }>('textDocument/completion', at(site, position));
      const { insertTextFormat, textEdit } = items.find((each) => each.label === label) as Item;
      expect(insertTextFormat).toBe(2);
      return textEdit.newText;
    };
    const { line } = positionBehind(text, '    x');
    expect(await snippet('overload', { line: line - 1, character: 4 })).toBe(
      'overload:\n      trip: $1\n      delay: $2',
    );
    expect(await snippet('lift', { line: 0, character: 0 })).toBe(`lift: \${1|linear,rotary|}$0`);
  });

  it('offers the kinds of document where none is said', async () => {
    const site = makeSite();
    const client = await startClient(site);
    client.open(site.uri('new.yaml'), '');
    const params = { textDocument: { uri: site.uri('new.yaml') }, position: { line: 0, character: 0 } };
    const { items } = await client.request<{ items: Item[] }>('textDocument/completion', params);
    expect(items.map(({ label }) => label)).toContain('document: installation/1');
  });
});

describe('code actions', () => {
  async function actions(client: LspClient, site: Site, text: string, part: string, only?: readonly string[]) {
    const position = positionBehind(text, part);
    const context = { diagnostics: [], ...(only && { only }) };
    const params = { textDocument: { uri: site.uri(WELL) }, range: { start: position, end: position }, context };
    return client.request<Action[]>('textDocument/codeAction', params);
  }

  it('use a tap that serves, and the finding is gone', async () => {
    const site = makeSite();
    const client = await startClient(site);
    const text = site.read(WELL).replace(GOOD_TAP, LOW_TAP);
    await openFile(client, site, WELL, text);
    const [fix] = await actions(client, site, text, '{ tap: 1');
    expect(fix?.kind).toBe('quickfix');
    const mended = applied(text, fix?.edit.changes[site.uri(WELL)] ?? []);
    expect(mended).toContain(GOOD_TAP);
    client.change(site.uri(WELL), 2, [{ text: mended }]);
    const { diagnostics } = await client.publication(site.uri(WELL), ({ version }) => version === 2);
    expect(diagnostics.map(({ code }) => code)).not.toContain('tap.below-window');
  });

  it('write the setpoints that are missing from their windows, and only where setpoints stand', async () => {
    const site = makeSite();
    const client = await startClient(site);
    const line = `  transformer: ${GOOD_TAP}\n`;
    expect(site.read(WELL)).toContain(line);
    const text = site.read(WELL).replace(line, '');
    await openFile(client, site, WELL, text);
    const [proposal] = await actions(client, site, text, 'setpoints:', ['refactor.rewrite']);
    expect(proposal?.title).toMatch(/missing setpoints? from their windows/);
    const filled = applied(text, proposal?.edit.changes[site.uri(WELL)] ?? []);
    expect(filled).toMatch(/^ {2}transformer:\n(?: {4}# .*\n)+ {4}tap: \d+\n {4}voltage: \d+ V$/m);
    expect(await actions(client, site, text, 'lift: linear', ['refactor.rewrite'])).toEqual([]);
  });

  it('mend all spellings at once, and never a value', async () => {
    const site = makeSite();
    const client = await startClient(site);
    const text = site
      .read(WELL)
      .replace(GOOD_TAP, LOW_TAP)
      .replace('water_cut', 'watercut')
      .replace('bubble_point', 'buble_point');
    await openFile(client, site, WELL, text);
    const [all, ...others] = await actions(client, site, text, 'watercut', ['source.fixAll']);
    expect(others).toEqual([]);
    const mended = applied(text, all?.edit.changes[site.uri(WELL)] ?? []);
    expect(mended).toBe(site.read(WELL).replace(GOOD_TAP, LOW_TAP));
  });
});

describe('ways through the repository', () => {
  it('lead from a reference to its sheet, and from a sheet to its users', async () => {
    const site = makeSite();
    site.write('wells/a2-08.yaml', site.read(WELL));
    const client = await startClient(site);
    const text = site.read(WELL);
    await openFile(client, site, WELL);
    const place = at(site, positionBehind(text, 'motor: { datasheet: ../'));
    const definition = await client.request<{ uri: string }>('textDocument/definition', place);
    expect(definition.uri).toBe(site.uri('equipment/motor.yaml'));
    const links = await client.request<{ target: string }[]>('textDocument/documentLink', place);
    expect(links.map(({ target }) => target)).toContain(site.uri('equipment/tx.yaml'));

    await openFile(client, site, 'equipment/motor.yaml');
    const sheet = {
      textDocument: { uri: site.uri('equipment/motor.yaml') },
      position: { line: 1, character: 2 },
      context: {},
    };
    await expect
      .poll(async () =>
        (await client.request<{ uri: string }[]>('textDocument/references', sheet)).map(({ uri }) => uri),
      )
      .toEqual([site.uri(WELL), site.uri('wells/a2-08.yaml')]);
  });

  it('outline and fold a document', async () => {
    const site = makeSite();
    const client = await startClient(site);
    await openFile(client, site, WELL);
    const document = { textDocument: { uri: site.uri(WELL) } };
    const symbols = await client.request<{ name: string; children?: { name: string }[] }[]>(
      'textDocument/documentSymbol',
      document,
    );
    expect(symbols.find(({ name }) => name === 'operation')?.children?.map(({ name }) => name)).toContain('cases');
    const ranges = await client.request<{ startLine: number; endLine: number }[]>(
      'textDocument/foldingRange',
      document,
    );
    expect(ranges.length).toBeGreaterThan(5);
    expect(ranges.every(({ startLine, endLine }) => startLine < endLine)).toBe(true);
  });
});
