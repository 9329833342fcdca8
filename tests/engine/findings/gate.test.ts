import { describe, expect, it } from 'vitest';
import { readDeviations } from '../../../server/src/engine/findings/deviations.ts';
import { admit, atLeast, capped } from '../../../server/src/engine/findings/gate.ts';
import { placeOfDocument, placeOfKey } from '../../../server/src/engine/findings/places.ts';
import { readPolicy } from '../../../server/src/engine/findings/policy.ts';
import type { RawFinding } from '../../../server/src/engine/findings/raw.ts';
import { readDocument } from '../../../server/src/engine/index.ts';

const TEXT = 'document: cable/1\nname: an invented cable\nlist: [ 1, 2 ]\n';
const DOCUMENT = readDocument('/a.yaml', TEXT);
const asItIs = ({ severity }: RawFinding) => ({ severity, deviated: false });

function finding(key: string, more: Partial<RawFinding> = {}): RawFinding {
  return { check: 'a.b', severity: 'warning', message: 'm', place: placeOfKey(DOCUMENT, key), ...more };
}

describe('the gate', () => {
  it('orders by place, severity, check and message, whatever the order of finding', () => {
    const raw = [
      finding('list'),
      finding('name', { message: 'n' }),
      finding('name'),
      finding('name', { check: 'a.a' }),
      finding('name', { severity: 'error', message: 'z' }),
    ];
    const told = (from: readonly RawFinding[]) =>
      admit(from, asItIs).map(({ key, severity, check, message }) => [key, severity, check, message].join(' '));
    const inOrder = ['name error a.b z', 'name warning a.a m', 'name warning a.b m', 'name warning a.b n'];
    expect(told(raw)).toEqual([...inOrder, 'list warning a.b m']);
    expect(told([...raw].reverse())).toEqual(told(raw));
    expect(told([finding('name'), finding('name')])).toHaveLength(2);
  });

  it('keeps what mends', () => {
    const fixes = [{ title: 'Mend', kind: 'offer' as const, edits: [] }];
    expect(admit([finding('name', { fixes }), finding('list')], asItIs).map((each) => each.fixes)).toEqual([fixes, []]);
  });

  it('ranks severities', () => {
    expect(atLeast('error', 'warning')).toBe(true);
    expect(atLeast('note', 'warning')).toBe(false);
  });

  it('softens, and hardens nothing', () => {
    expect(capped('error', undefined)).toBe('error');
    expect(capped('error', 'note')).toBe('note');
    expect(capped('note', 'error')).toBe('note');
  });

  it.each([
    [-1, 3],
    [5, 4],
    [0, TEXT.length + 1],
  ])('refuses a place from %i to %i, which is none of the text', (start, end) => {
    const place = { ...placeOfDocument(DOCUMENT), span: { start, end } };
    expect(() => admit([finding('', { place })], asItIs)).toThrow('a.b reports a place outside of /a.yaml');
  });

  it('gives places in this file and in others to what a finding rests on', () => {
    const range = { start: { line: 4, character: 0 }, end: { line: 4, character: 3 } };
    const elsewhere = { path: '/b.yaml', key: 'site.well', span: { start: 40, end: 43 }, range };
    const related = [
      { place: placeOfKey(DOCUMENT, 'list[1]'), message: 'here' },
      { elsewhere, message: 'there' },
    ];
    expect(admit([finding('name', { related })], asItIs)[0]?.related).toMatchObject([
      { path: '/a.yaml', key: 'list[1]', range: { start: { line: 2, character: 11 } }, message: 'here' },
      { path: '/b.yaml', key: 'site.well', range, message: 'there' },
    ]);
  });

  it('lists a hundred findings of a check, and counts the rest in the last', () => {
    const of = (count: number) => Array.from({ length: count }, (_, at) => finding('name', { message: `${at}` }));
    const admitted = admit(of(250), asItIs);
    expect(admitted).toHaveLength(100);
    expect(admitted.at(-1)?.message).toBe('… and 151 more of a.b in this file.');
    expect(admit(of(100), asItIs).at(-1)?.message).toBe('99');
    expect(
      admit(
        [...admitted.slice(0, 99)].map(() => finding('name')),
        asItIs,
      ),
    ).toHaveLength(99);
  });
});

describe('a deviation', () => {
  const read = (text: string) => readDeviations(readDocument('/w.yaml', `document: installation/1\n${text}`));

  it('accepts a pressure as the document means pressures, unless it says itself', () => {
    const list = 'deviations: [ { up_to: 5 bar }, { up_to: 5 bar(g) }, { up_to: 5 bar(a) } ]\n';
    const references = (text: string) => read(text).map(({ upTo }) => upTo?.reference);
    expect(references(list)).toEqual(['gauge', 'gauge', 'absolute']);
    expect(references(`conventions: { pressure: absolute }\n${list}`)).toEqual(['absolute', 'gauge', 'absolute']);
  });

  it('accepts nothing by a value that cannot be read, and is empty where nothing is written', () => {
    const [many, empty] = read('deviations:\n  - { check: a.b, up_to: many }\n  - { check: , key: }\n');
    expect(many?.upTo?.value).toBeNaN();
    expect(empty).toMatchObject({ check: '', reason: '', approvedBy: '', until: '' });
    expect([empty?.key, empty?.case, empty?.upTo]).toEqual([undefined, undefined, undefined]);
  });
});

describe('a place', () => {
  const underlined = (text: string, key: string) => {
    const { span } =
      key === '' ? placeOfDocument(readDocument('/b.yaml', text)) : placeOfKey(readDocument('/b.yaml', text), key);
    return text.slice(span.start, span.end);
  };

  it.each([
    ['a value', TEXT, 'name', 'an invented cable'],
    ['the key of a list', TEXT, 'list', 'list'],
    ['the key of a value that is not there', `${TEXT}mass:\n`, 'mass', 'mass'],
    ['the closest entry above an absent one', TEXT, 'list[7].depth', 'list'],
    ['the label for what is nowhere', TEXT, 'mass', 'document: cable/1'],
    ['the label for the whole', TEXT, '', 'document: cable/1'],
    ['the first key without a label', 'a: 1\nb: 2\n', '', 'a'],
    ['the first character of a list', '- 1\n', '', '-'],
    ['nothing in an empty text', '', '', ''],
  ])('is %s', (_, text, key, expected) => {
    expect(underlined(text, key)).toBe(expected);
  });
});

describe('a policy', () => {
  it('takes no limit of a name or dimension that there is not', () => {
    const policy = readDocument(
      '/p.yaml',
      'document: policy/1\nlimits: { intake-trip.gauge-depth: 9 m, motor.near-rating: 92 %, other: 1 }\n',
    );
    expect([...readPolicy(policy).limits.keys()]).toEqual(['intake-trip.gauge-depth', 'motor.near-rating']);
    const taken = readPolicy(policy, (name) => name === 'motor.near-rating').limits;
    expect([...taken]).toEqual([['motor.near-rating', 0.92]]);
  });

  it('takes only what is written in its lists', () => {
    const policy = readDocument(
      '/p.yaml',
      'document: policy/1\nrequire: [ "", tap.below-window ]\nchecks: { a.b: { set_aside: }, c.d: 1 }\n',
    );
    const { required, setAside, severities } = readPolicy(policy);
    expect(required).toEqual(['tap.below-window']);
    expect([setAside.size, severities.size]).toEqual([0, 0]);
  });
});
