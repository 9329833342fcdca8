// Whatever stands in a document stays text, in every output: no markup, no link, no command of a terminal.
import { cpSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { PDFArray, PDFDict, PDFDocument, PDFTextField } from '@cantoo/pdf-lib';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { check } from '../../server/src/commands/check.ts';
import { checklist } from '../../server/src/commands/checklist.ts';
import { compare } from '../../server/src/commands/compare.ts';
import { deviations } from '../../server/src/commands/deviations.ts';
import { propose } from '../../server/src/commands/propose.ts';
import { readings } from '../../server/src/commands/readings.ts';
import type { Surroundings } from '../../server/src/commands/surroundings.ts';
import { tidy } from '../../server/src/commands/tidy.ts';
import { worksheet } from '../../server/src/commands/worksheet.ts';
import { NONE, readDocument } from '../../server/src/engine/index.ts';
import { LspClient, StdioTransport, uriOf } from '../language/client.ts';
import { all, parseXml } from '../render/xml.ts';
import { SAMPLES } from '../support/project.ts';
import { makeFolder, removeFolder, TODAY } from './support.ts';

const LONG = 'long'.repeat(400);
const HOSTILE = [
  '</title></style></script></td><script>alert(1)</script><img src=x onerror=alert(1)><svg onload=alert(1)>',
  `" onmouseover="a" ' onclick='b' &lt;b&gt; --> ]]> <!--`,
  '[here](javascript:a) ![see](//b.invalid/i.png) | `x` ~~s~~ **b** <b> {0} \\| \\` ![',
  'http://b.invalid www.b.invalid WWW.b.invalid mailto:a@b.invalid @all #12',
  '\u001b[2J\u009b1m\u001b]8;;http://b.invalid\u0007x\u001b]8;;\u001b\\ \b\u007f\r',
  '\u202ed\u2066\u061c\u200f\u200b\u2060\ufeff\u00ad\u{e0041}',
  'line\n# Setproof\r\n- a\u2028b\u0085c\n| d | e |',
  '\ud800 half \udc00',
  '(x) \\( /JS ) >> endobj',
].join(' ');
/** What a file may be called. */
const HOSTILE_NAME = '"<img src=x onerror=alert(1)>[a](b) `www.b.invalid` @all | \u001b[2J\n\u202e\u061c\u200b\'';
const PLAIN = 'Quill';

/** A text in double quotes, all in plain characters: raw ones of the hostile kind are refused as no text. */
function quoted(text: string): string {
  const code = (unit: string) => `\\u${unit.charCodeAt(0).toString(16).padStart(4, '0')}`;
  return JSON.stringify(text).replace(/[^\x20-\x7e]/g, code);
}

/** An installation whose entries are right and whose texts are not. */
function well(said: string, text: string): string {
  return readFileSync(join(SAMPLES, 'pad-a/qm-a1.yaml'), 'utf8')
    .replace('well: QM-A1', `well: ${said}`)
    .replace('field: Quillmoor', `field: ${said}`)
    .replace('number: B', `number: ${said}`)
    .replaceAll(/(drafting|reviewing) engineer/g, said)
    .replaceAll(/name: (start on kill fluid|target|pumped off)/g, (_, own) => `name: ${quoted(own + text)}`)
    .replaceAll('../equipment', '../sheets')
    .replaceAll(/serial: [A-Z]+-\d+/g, `serial: ${said}`)
    .replace(/ {4}underload:.*\n/, '');
}

/** An installation, a later state of it, its data sheets, its policy and a visit, with a text wherever one may stand. */
function files(text: string, name: string): Readonly<Record<string, string>> {
  const said = quoted(text);
  const own = well(said, text);
  const spoiled = own
    .replace('co2: 0.4 %', `co2: ${quoted(`0.4 ${text}`)}`)
    .replace('pressure: 78 bar', 'pressure: 78')
    .replace('tolerance: 10 %', 'tolerance: 10percent')
    .replace(
      'deviations: []',
      `deviations:\n  - { check: units.missing, reason: ${said}, approved_by: ${said}, until: 2027-01-01 }\n  - { check: ${said}, reason: ${said} }`,
    );
  const more = `${said}: 1\nx_long: ${LONG}\n`;
  const pump = readFileSync(join(SAMPLES, 'equipment/pumps/plunger-44.yaml'), 'utf8');
  return {
    [`${name}/a.yaml`]: spoiled + more,
    [`${name}/c.yaml`]: own,
    [`${name}/b.yaml`]: `${spoiled.replaceAll('trip: 17 bar', 'trip: 3 bar').replaceAll(said, quoted(`${text}2`))}${more}`,
    [`${name}/${name}.yaml`]: `document: pump/1\nname: ${said}\n${said}: ${said}\n`,
    'sheets/pumps/plunger-44.yaml': pump.replaceAll(/name: \w.*/g, `name: ${said}`),
    'setproof.policy.yaml': [
      'document: policy/1',
      `checks: { motor.near-rating: { set_aside: true, reason: ${said} }, ${said}: { severity: note } }`,
      'steps:',
      `  start: [ { id: own.step, kind: read, group: ${said}, text: ${said}, unit: kg, limit: { max: 5 kg }, source: ${said} } ]`,
      '',
    ].join('\n'),
    [`${name}/visit.yaml`]: [
      'document: readings/1',
      'installation: c.yaml',
      `fingerprint: ${said}`,
      `visit: { date: 2026-03-02, crew: [${said}] }`,
      'readings:',
      `  - { item: own.step, value: ${said}, note: ${said}, by: ${said} }`,
      `  - { item: ${said}, value: ${said} }`,
      '',
    ].join('\n'),
  };
}

interface Written {
  readonly out: string;
  readonly bytes: Uint8Array | undefined;
  readonly err: string;
}

/** A project in which a text stands everywhere, and all that is written of it. */
class Project {
  readonly folder: string;
  readonly name: string;
  readonly #written = new Map<string, Promise<Written>>();

  constructor(text: string, name: string) {
    this.name = name;
    this.folder = makeFolder({});
    cpSync(join(SAMPLES, 'equipment'), join(this.folder, 'sheets'), { recursive: true });
    for (const [path, content] of Object.entries(files(text, name))) {
      mkdirSync(join(this.folder, path, '..'), { recursive: true });
      writeFileSync(join(this.folder, path), content);
    }
  }

  written(output: string): Promise<Written> {
    const written = this.#written.get(output) ?? this.#write(output);
    this.#written.set(output, written);
    return written;
  }

  async #write(output: string): Promise<Written> {
    let out = '';
    let err = '';
    let bytes: Uint8Array | undefined;
    const take = (piece: string | Uint8Array) => {
      if (typeof piece === 'string') out += piece;
      else bytes = piece;
    };
    const around: Surroundings = {
      cwd: this.folder,
      stdout: { write: take },
      stderr: { write: (piece) => (err += piece) },
      env: {},
      today: TODAY,
      colours: { strong: String, faint: String, error: String, warning: String, note: String },
    };
    await COMMANDS[output]?.(this.name, around);
    return { out, bytes, err };
  }
}

type Command = (name: string, around: Surroundings) => Promise<number>;
const checking =
  (format: 'text' | 'json' | 'sarif' | 'junit' | 'markdown'): Command =>
  (_, around) =>
    check({ paths: [], format, show: ['passed', 'not-run'] }, around);
const working =
  (format: 'text' | 'json' | 'html' | 'markdown'): Command =>
  (name, around) =>
    worksheet({ file: `${name}/a.yaml`, format }, around);
const listing =
  (format: 'html' | 'pdf' | 'field' | 'markdown' | 'json'): Command =>
  (name, around) =>
    checklist({ file: `${name}/a.yaml`, format }, around);
const comparing =
  (format: 'text' | 'json' | 'markdown' | 'html'): Command =>
  (name, around) =>
    compare({ paths: [`${name}/a.yaml`, `${name}/b.yaml`], format, rewritten: true }, around);
const accepting =
  (format: 'text' | 'json' | 'markdown'): Command =>
  (_, around) =>
    deviations({ paths: [], format }, around);
const visiting =
  (format: 'handover-html' | 'handover-markdown'): Command =>
  (name, around) =>
    readings({ file: `${name}/visit.yaml`, format }, around);

const COMMANDS: Readonly<Record<string, Command>> = {
  'check text': checking('text'),
  'check json': checking('json'),
  'check sarif': checking('sarif'),
  'check junit': checking('junit'),
  'check markdown': checking('markdown'),
  'worksheet text': working('text'),
  'worksheet json': working('json'),
  'worksheet html': working('html'),
  'worksheet markdown': working('markdown'),
  'checklist html': listing('html'),
  'checklist field': listing('field'),
  'checklist markdown': listing('markdown'),
  'checklist json': listing('json'),
  'checklist pdf': listing('pdf'),
  'compare text': comparing('text'),
  'compare json': comparing('json'),
  'compare markdown': comparing('markdown'),
  'compare html': comparing('html'),
  'deviations text': accepting('text'),
  'deviations json': accepting('json'),
  'deviations markdown': accepting('markdown'),
  'handover html': visiting('handover-html'),
  'handover markdown': visiting('handover-markdown'),
  'tidy text': (_, around) => tidy({ paths: [] }, around),
  'propose yaml': (name, around) => propose({ file: `${name}/c.yaml` }, around),
  'readings text': (name, around) => readings({ file: `${name}/visit.yaml` }, around),
};
const outputs = (format: string) => Object.keys(COMMANDS).filter((each) => each.split(' ')[1] === format);

/** Control characters, turns of direction, blanks without width, tags, halves of pairs; line breaks are the layout's. */
const UNSEEN =
  /[\x00-\x09\x0b-\x1f\x7f-\x9f\xad\u061c\u180e\u200b\u200e\u200f\u2028-\u202e\u2060-\u206f\ufeff\u{d800}-\u{dfff}\u{e0000}-\u{e007f}]/u;

/** Strings of a JSON value, keys too. */
function strings(value: unknown): readonly string[] {
  if (typeof value === 'string') return [value];
  if (typeof value !== 'object' || value === null) return [];
  return [...(Array.isArray(value) ? [] : Object.keys(value)), ...Object.values(value).flatMap(strings)];
}

const TAG = /<(\/?[a-z][a-z0-9]*)((?:\s+[a-z][a-z0-9:-]*(?:="[^"<]*")?)*)\s*(\/?)>/gi;

/** Kinds of tags with the names of their attributes; what is no tag of ours is left in `rest`. */
function tagsOf(page: string) {
  const code = /(<(script|style)(?:\s[^<>]*)?>)([\s\S]*?)(<\/\2>)/g;
  const inserted = [...page.matchAll(code)].map(([, , , text = '']) => text);
  const bare = page.replace(code, '$1$4').replace(/^<!doctype html>/i, '');
  const kinds = new Set<string>();
  const targets: string[] = [];
  for (const [, name = '', attributes = ''] of bare.matchAll(TAG)) {
    const pairs = [...attributes.matchAll(/([a-z][a-z0-9:-]*)(?:="([^"]*)")?/gi)];
    kinds.add([name.toLowerCase(), ...pairs.map(([, key]) => key)].join(' '));
    targets.push(...pairs.flatMap(([, key = '', value = '']) => (/^(href|src|action)$/.test(key) ? [value] : [])));
  }
  return { kinds, targets, inserted, rest: bare.replace(TAG, '') };
}

/** What Markdown would make something of: what stands behind no backslash and in no code. */
function active(text: string): string {
  return text
    .replace(/^```[\s\S]*?^```/gm, '')
    .replace(/\\[!-/:-@[-`{-~]/g, '')
    .replace(/(`+)[^`\n]*\1/g, '');
}

const MARKUP =
  /<[a-z/!?]|\]\(|\]\[|!\[|~~|(?<![a-z])www\.|:\/\/|@[a-z]|#\d|[\x00-\x09\x0b-\x1f\x7f-\x9f\u061c\u202e\u2066\ufeff\u{e0041}]/iu;

function expectMarkdown(text: string, benign = ''): void {
  const known = new Set(active(benign).split('\n'));
  for (const line of active(text).split('\n')) if (!known.has(line)) expect(line).not.toMatch(MARKUP);
  const cells = active(text)
    .split('\n')
    .map((line) => (line.startsWith('|') ? line.split('|').length : 0));
  cells.forEach((count, at) => {
    if (count > 0 && (cells[at - 1] ?? 0) > 0) expect(count, text.split('\n')[at]).toBe(cells[at - 1]);
  });
}

let hostile: Project;
let benign: Project;
beforeAll(() => {
  hostile = new Project(HOSTILE, HOSTILE_NAME);
  benign = new Project(PLAIN, PLAIN);
});
afterAll(() => {
  for (const { folder } of [hostile, benign]) removeFolder(folder);
});

describe('on a terminal nothing steers', () => {
  test.each([...outputs('text'), ...outputs('json'), ...outputs('sarif'), ...outputs('markdown')])(
    '%s',
    async (each) => {
      const { out, err } = await hostile.written(each);
      expect(out.length).toBeGreaterThan(10);
      expect(`${out}${err}`.replaceAll(/[@#:]\u200b/g, '')).not.toMatch(UNSEEN);
    },
  );

  test.each(Object.keys(COMMANDS))('what is said beside %s', async (each) => {
    expect((await hostile.written(each)).err).not.toMatch(UNSEEN);
  });
});

describe('JSON holds the very text', () => {
  test.each(outputs('json'))('%s', async (each) => {
    const { out } = await hostile.written(each);
    expect(strings(JSON.parse(out)).some((text) => text.includes(HOSTILE))).toBe(true);
  });
});

/** What stands under `text`, as all messages of SARIF do. */
function textsIn(value: unknown): readonly string[] {
  if (typeof value !== 'object' || value === null) return [];
  const own = 'text' in value && typeof value.text === 'string' ? [value.text] : [];
  return [...own, ...Object.values(value).flatMap(textsIn)];
}

test('SARIF shows it without a link', async () => {
  const messages = textsIn(JSON.parse((await hostile.written('check sarif')).out));
  expect(messages.some((text) => text.includes('\\[here](javascript:'))).toBe(true);
  for (const text of messages) expect(text).not.toMatch(/(?<!\\)\[[^\]]*\]\(|(?<!\{)\{\d+\}/);
  for (const text of messages) expect(text).not.toMatch(UNSEEN);
});

test('JUnit stays well-formed', async () => {
  const { out } = await hostile.written('check junit');
  const elements = all(parseXml(out.replace(/^<\?xml[^>]*\?>\s*/, '')));
  const known = /^(testsuites?|system-out|testcase|failure|skipped|properties|property)$/;
  for (const { name } of elements) expect(name).toMatch(known);
  for (const { text, attributes } of elements) expect([text, ...attributes.values()].join('')).not.toMatch(UNSEEN);
});

describe('Markdown makes nothing of it', () => {
  test.each([...outputs('markdown'), 'handover markdown'])('%s', async (each) => {
    const { out } = await hostile.written(each);
    expect(out).toContain('javascript:a');
    expectMarkdown(out, (await benign.written(each)).out);
  });
});

describe('a page has no other tags, attributes or targets than it has of plain texts', () => {
  test.each([...outputs('html'), 'checklist field'])('%s', async (each) => {
    const page = tagsOf((await hostile.written(each)).out);
    const plain = tagsOf((await benign.written(each)).out);
    expect([...page.kinds].filter((kind) => !plain.kinds.has(kind))).toEqual([]);
    expect(page.targets.filter((target) => !/^(#|data:image\/)/.test(target))).toEqual([]);
    expect(page.rest).toContain('&lt;img src=x');
    expect(page.rest).not.toMatch(/[<>]/);
    expect(page.inserted).toHaveLength(plain.inserted.length);
    expect(page.rest).not.toMatch(UNSEEN);
  });
});

describe('the PDF form', () => {
  test('has no action, and says what its fields hold', async () => {
    const { bytes } = await hostile.written('checklist pdf');
    const pdf = await PDFDocument.load(bytes ?? new Uint8Array());
    const keys = pdf.context.enumerateIndirectObjects().flatMap(([, object]) => keysOf(object));
    expect(keys).toContain('/FT');
    for (const key of ['/JS', '/JavaScript', '/A', '/AA', '/OpenAction', '/URI', '/Launch'])
      expect(keys).not.toContain(key);
    expect(pdf.getTitle()).toContain('<script>');
    expect(pdf.getTitle()).not.toMatch(UNSEEN);
    const fields = pdf.getForm().getFields();
    for (const field of fields) expect(field.getName()).not.toMatch(UNSEEN);
    // The path goes back as it is.
    const own = fields.filter((field) => field.getName() !== 'setproof.installation');
    const texts = own.map((field) => (field instanceof PDFTextField ? (field.getText() ?? '') : ''));
    for (const text of texts) expect(text).not.toMatch(UNSEEN);
  });
});

function keysOf(object: unknown): readonly string[] {
  if (object instanceof PDFArray) return object.asArray().flatMap(keysOf);
  if (!(object instanceof PDFDict)) return [];
  return object.entries().flatMap(([key, value]) => [key.toString(), ...keysOf(value)]);
}

test('a proposal adds setpoints and changes nothing else', async () => {
  const { out } = await hostile.written('propose yaml');
  const path = `/${HOSTILE_NAME}/c.yaml`;
  const before = readDocument(path, readFileSync(join(hostile.folder, path), 'utf8'));
  const after = readDocument(path, out);
  const added = 'setpoints.protection.underload.trip';
  expect(after.tree.find(added)).not.toBe(NONE);
  expect(after.problems.map(({ check: id }) => id).sort()).toEqual(before.problems.map(({ check: id }) => id).sort());
  const entries = ({ tree }: typeof before) =>
    Array.from({ length: tree.size }, (_, node) => [tree.path(node), tree.isScalar(node) ? tree.scalar(node) : '']);
  const own = new Map(entries(before).map(([key = '', value]) => [key, value]));
  for (const [key = '', value] of entries(after)) if (!key.startsWith('setpoints')) expect(own.get(key)).toBe(value);
});

describe('in an editor', () => {
  let client: LspClient;
  let uri: string;
  beforeAll(async () => {
    client = new LspClient(new StdioTransport());
    await client.initialize({
      workspaceFolders: [{ uri: uriOf(hostile.folder), name: 'hostile' }],
      initializationOptions: { today: TODAY },
    });
    const path = join(hostile.folder, HOSTILE_NAME, 'a.yaml');
    uri = uriOf(path);
    client.open(uri, readFileSync(path, 'utf8'));
    await client.publication(uri, ({ version }) => version === 1);
  });
  afterAll(() => client.shutdown());

  const onDocument = () => ({ textDocument: { uri } });
  const lineOf = (start: string) =>
    readFileSync(join(hostile.folder, HOSTILE_NAME, 'a.yaml'), 'utf8')
      .split('\n')
      .findIndex((line) => line.trimStart().startsWith(start));

  test('findings, actions, symbols and wells are seen as they are', async () => {
    const { diagnostics } = await client.publication(uri);
    const last = { line: lineOf('x_long'), character: 0 };
    const asked: readonly [string, object][] = [
      [
        'textDocument/codeAction',
        { ...onDocument(), range: { start: { line: 0, character: 0 }, end: last }, context: { diagnostics: [] } },
      ],
      ['textDocument/documentSymbol', onDocument()],
      ['textDocument/codeLens', onDocument()],
      ['textDocument/inlayHint', { ...onDocument(), range: { start: { line: 0, character: 0 }, end: last } }],
      ['workspace/symbol', { query: '' }],
      ['setproof/wells', {}],
      ['setproof/summary', onDocument()],
    ];
    const answers = await Promise.all(asked.map(([method, params]) => client.request(method, params)));
    const shown = [diagnostics, ...answers].flatMap((answer) => shownIn(answer));
    expect(shown.some((text) => text.includes('\\u001b[2J'))).toBe(true);
    for (const text of shown) expect(text).not.toMatch(UNSEEN);
  });

  test.each(['well:', '- { name: "target', 'co2:', 'pump:', 'overload:', '- { check: "'])(
    'a hover on %s',
    async (start) => {
      const line = lineOf(start);
      const text = readFileSync(join(hostile.folder, HOSTILE_NAME, 'a.yaml'), 'utf8').split('\n')[line] ?? '';
      const places = [...text.matchAll(/[a-z_0-9]+(?=:)/g)].slice(0, 8).map(({ index }) => index);
      const hovers = await Promise.all(
        places.map((character) =>
          client.request('textDocument/hover', { ...onDocument(), position: { line, character } }),
        ),
      );
      const contents = (hovers as ({ contents: { value: string } } | null)[]).flatMap(
        (each) => each?.contents.value ?? [],
      );
      expect(contents.length).toBeGreaterThan(0);
      for (const each of contents) expectMarkdown(each);
    },
  );

  test.each(['worksheet', 'checklist'])('the panel of the %s', async (panel) => {
    const answer = await client.request('setproof/panel', { ...onDocument(), panel });
    const { html, title } = answer as { html: string; title: string };
    const { kinds, targets, rest } = tagsOf(html);
    expect(title).not.toMatch(UNSEEN);
    expect([...kinds].filter((kind) => /script|img|\bon|iframe|object|embed|style$/.test(kind))).toEqual([]);
    expect(targets.filter((target) => target !== '#' && !/^data:image\//.test(target))).toEqual([]);
    expect(rest).toContain('&lt;img src=x');
    expect(rest).not.toMatch(/[<>]/);
    expect(rest).not.toMatch(UNSEEN);
  });
});

/** What an editor shows of an answer: not what it writes into a file, nor addresses. */
function shownIn(value: unknown, key = ''): readonly string[] {
  if (typeof value === 'string')
    return /^(title|message|name|detail|label|containerName|words|folder|file|tooltip)$/.test(key) ? [value] : [];
  if (Array.isArray(value)) return value.flatMap((each) => shownIn(each, key));
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([name, each]) => shownIn(each, name));
}
