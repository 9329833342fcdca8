import { describe, expect, it } from 'vitest';
import { Repository } from '../../../server/src/engine/index.ts';
import { checkedIn, fleet, saidBy, wellText } from './wells.ts';

const ACROSS = [
  'identity.duplicate-well',
  'identity.duplicate-serial',
  'identity.half-edited-copy',
  'restart.same-as-neighbour',
];

describe('an installation by itself', () => {
  it.each(ACROSS)('leaves %s not run, for there is nothing to compare it with', (check) => {
    const { statuses } = checkedIn(fleet({ 'a.yaml': wellText(1) }), 'a.yaml');
    expect(statuses.get(check)).toEqual({ status: 'not_run', missing: ['other installations of the repository'] });
  });

  it.each(ACROSS)('lets %s pass beside a well that shares nothing', (check) => {
    const { statuses } = checkedIn(fleet({ 'a.yaml': wellText(1), 'b.yaml': wellText(2) }), 'a.yaml');
    expect(statuses.get(check)?.status).toBe('passed');
  });
});

describe('two files for one well', () => {
  it('are an error in both, each related to the other', () => {
    const wells = fleet({ 'a.yaml': wellText(1, { well: 'QM-A1' }), 'b.yaml': wellText(2, { well: 'qm a1' }) });
    const [finding] = saidBy('identity.duplicate-well', wells, 'a.yaml');
    expect(finding).toMatchObject({ severity: 'error', key: 'site.well' });
    expect(finding?.message).toContain('b.yaml');
    expect(finding?.related).toMatchObject([{ path: 'b.yaml', key: 'site.well' }]);
    expect(saidBy('identity.duplicate-well', wells, 'b.yaml')).toHaveLength(1);
  });

  it('may have one name in two fields', () => {
    const wells = fleet({
      'a.yaml': wellText(1, { well: 'A1' }),
      'b.yaml': wellText(2, { well: 'A1', field: 'Other' }),
    });
    expect(saidBy('identity.duplicate-well', wells, 'a.yaml')).toEqual([]);
  });

  it('are found where only one of them states its field, from both sides', () => {
    const open = wellText(2, { well: 'A1' }).replace('field: Testfield, ', '');
    const wells = fleet({ 'a.yaml': wellText(1, { well: 'A1' }), 'b.yaml': open });
    for (const path of ['a.yaml', 'b.yaml']) expect(saidBy('identity.duplicate-well', wells, path)).toHaveLength(1);
  });

  it('are not told again for each serial number that follows from it', () => {
    const wells = fleet({ 'a.yaml': wellText(1), 'b.yaml': wellText(1) });
    expect(saidBy('identity.duplicate-serial', wells, 'a.yaml')).toEqual([]);
    expect(saidBy('identity.half-edited-copy', wells, 'a.yaml')).toEqual([]);
  });
});

describe('one serial number in two wells', () => {
  it('is an error at the serial number, related to the other', () => {
    const wells = fleet({ 'a.yaml': wellText(1), 'b.yaml': wellText(2, { serials: ['P-2', 'm-1'] }) });
    const findings = saidBy('identity.duplicate-serial', wells, 'a.yaml');
    expect(findings).toMatchObject([
      {
        severity: 'error',
        key: 'equipment.motor.serial',
        related: [{ path: 'b.yaml', key: 'equipment.motor.serial' }],
      },
    ]);
    expect(findings[0]?.message).toContain('M-1 also stands in T-2');
  });

  it('may be that of a pump and of a motor', () => {
    const wells = fleet({
      'a.yaml': wellText(1, { serials: ['0815', 'M-1'] }),
      'b.yaml': wellText(2, { serials: ['P-2', '0815'] }),
    });
    expect(saidBy('identity.duplicate-serial', wells, 'a.yaml')).toEqual([]);
  });

  it.each(['TBD', 'n/a', '-'])('is none where %s stands for a number that is not known yet', (text) => {
    const serials = [`"${text}"`, `"${text}"`] as const;
    const wells = fleet({ 'a.yaml': wellText(1, { serials }), 'b.yaml': wellText(2, { serials }) });
    expect(saidBy('identity.duplicate-serial', wells, 'a.yaml')).toEqual([]);
  });
});

describe('a copy that was not edited through', () => {
  const copy = (number: number, told = {}) => wellText(1, { well: `T-${number}`, serials: ['P-9', 'M-9'], ...told });

  it('is a warning that counts and names what is equal', () => {
    const wells = fleet({ 'a.yaml': wellText(1), 'b.yaml': copy(2) });
    const [finding] = saidBy('identity.half-edited-copy', wells, 'b.yaml');
    expect(finding).toMatchObject({ severity: 'warning', key: 'site.well', related: [{ path: 'a.yaml' }] });
    expect(finding?.message).toMatch(/^12 of 14 .* T-1 .*'well\.intake\.md'/);
  });

  it('is not one when half of it was edited', () => {
    const edited = copy(2, { current: 30 });
    const wells = fleet({ 'a.yaml': wellText(1), 'b.yaml': edited });
    expect(saidBy('identity.half-edited-copy', wells, 'b.yaml')).toEqual([]);
  });

  it('is not one when only the digits agree and the numbers are written in other units', () => {
    const feet = copy(2).replaceAll(' m,', ' ft,').replaceAll(' m }', ' ft }').replaceAll(' A', ' kA');
    const wells = fleet({ 'a.yaml': wellText(1), 'b.yaml': feet });
    expect(saidBy('identity.half-edited-copy', wells, 'b.yaml')).toEqual([]);
  });

  it('needs as many equal entries as the policy says', () => {
    const policy = (count: number) => `document: policy/1\nlimits: { identity.half-edited-copy: ${count} }\n`;
    const wells = { 'a.yaml': wellText(1), 'b.yaml': copy(2) };
    const at = (count: number) => fleet({ ...wells, 'setproof.policy.yaml': policy(count) });
    expect(saidBy('identity.half-edited-copy', at(12), 'b.yaml')).toHaveLength(1);
    expect(saidBy('identity.half-edited-copy', at(13), 'b.yaml')).toHaveLength(0);
  });

  it('names at most three others', () => {
    const paths = Object.fromEntries([2, 3, 4, 5, 6].map((number) => [`${number}.yaml`, copy(number)]));
    const [finding] = saidBy('identity.half-edited-copy', fleet(paths), '4.yaml');
    expect(finding?.related.map(({ path }) => path)).toEqual(['2.yaml', '3.yaml', '5.yaml']);
  });
});

describe('wells of a pad that restart together', () => {
  const restart = (delay: string) => `{ mode: automatic, delay: ${delay}, after: [undervoltage] }`;
  const two = (a: string, b: string, pad = 'T') =>
    fleet({ 'a.yaml': wellText(1, { restart: a }), 'b.yaml': wellText(2, { restart: b, pad }) });

  it('are a note at the delay, in whatever unit it is written', () => {
    const [finding] = saidBy('restart.same-as-neighbour', two(restart('2 h'), restart('120 min')), 'a.yaml');
    expect(finding).toMatchObject({ severity: 'note', key: 'setpoints.restart.delay', related: [{ path: 'b.yaml' }] });
  });

  it.each([
    ['another delay', two(restart('2 h'), restart('2.2 h'))],
    ['another pad', two(restart('2 h'), restart('2 h'), 'U')],
    [
      'no restart after a failure of the supply',
      two(restart('2 h'), '{ mode: automatic, delay: 2 h, after: [underload] }'),
    ],
    ['a start by hand', two(restart('2 h'), '{ mode: manual, delay: 2 h, after: [undervoltage] }')],
  ])('are none with %s', (_, wells) => {
    expect(saidBy('restart.same-as-neighbour', wells, 'a.yaml')).toEqual([]);
  });
});

describe('a crowd of copies', () => {
  it('is named in short: three of them and how many more', () => {
    const texts = Object.fromEntries(
      Array.from({ length: 30 }, (_, at) => [`w${String(at).padStart(2, '0')}.yaml`, wellText(1)]),
    );
    const [finding] = saidBy('identity.duplicate-well', fleet(texts), 'w00.yaml');
    expect(finding?.message).toContain('w01.yaml, w02.yaml, w03.yaml and 26 more');
    expect(finding?.related).toHaveLength(3);
  });
});

describe('a set of documents', () => {
  it('compares with installations that it let go of, until they are gone', () => {
    const both = fleet({ 'a.yaml': wellText(1), 'b.yaml': wellText(2, { serials: ['P-1', 'M-2'] }) });
    const shelved = both.shelve(['b.yaml']);
    expect(shelved.document('b.yaml')).toBeUndefined();
    expect(saidBy('identity.duplicate-serial', shelved, 'a.yaml')).toHaveLength(1);
    expect(saidBy('identity.duplicate-serial', shelved.without(['b.yaml']), 'a.yaml')).toHaveLength(0);
    const absent = shelved.update([{ path: 'b.yaml', absent: true }]);
    expect(saidBy('identity.duplicate-serial', absent, 'a.yaml')).toHaveLength(0);
  });

  it('keeps a result as long as neither the file nor a neighbour changes', () => {
    const wells = fleet({
      'a.yaml': wellText(1),
      'b.yaml': wellText(2),
      'c.yaml': wellText(3, { serials: ['P-1', 'M-3'] }),
    });
    const before = wells.check('a.yaml');
    const stranger = wells.update([{ path: 'b.yaml', text: wellText(2, { depth: 1500 }) }]);
    expect(stranger.check('a.yaml')).toBe(before);
    const neighbour = stranger.update([{ path: 'c.yaml', text: wellText(3) }]);
    expect(neighbour.check('a.yaml')).not.toBe(before);
    expect(saidBy('identity.duplicate-serial', neighbour, 'a.yaml')).toEqual([]);
  });

  it('that was changed does not change the one before', () => {
    const before = fleet({ 'a.yaml': wellText(1), 'b.yaml': wellText(2) });
    const after = before.update([{ path: 'b.yaml', text: wellText(2, { serials: ['P-1', 'M-2'] }) }]);
    expect(saidBy('identity.duplicate-serial', after, 'a.yaml')).toHaveLength(1);
    expect(saidBy('identity.duplicate-serial', before, 'a.yaml')).toHaveLength(0);
  });

  it('of another kind does not count as an installation', () => {
    const wells = Repository.empty({ root: '', today: '2026-06-01' }).update([
      { path: 'a.yaml', text: wellText(1) },
      { path: 'm.yaml', text: 'document: motor/1\nname: motor\n' },
    ]);
    expect(checkedIn(wells, 'a.yaml').statuses.get('identity.duplicate-well')?.status).toBe('not_run');
  });
});
