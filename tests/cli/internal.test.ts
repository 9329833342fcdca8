import { cpSync, readFileSync } from 'node:fs';
import { afterAll, describe, expect, test, vi } from 'vitest';
import type { Check } from '../../server/src/engine/checks/declare.ts';
import type { ValueDeclaration } from '../../server/src/engine/values/declare.ts';
import type { Window } from '../../server/src/engine/windows/declare.ts';
import { HOME, makeFolder, removeFolder, run, WELL } from './support.ts';

const outOfOrder = (): never => {
  throw new Error('out of order');
};

function broken(declaration: ValueDeclaration): ValueDeclaration {
  return { ...declaration, methods: declaration.methods.map((each) => ({ ...each, compute: outOfOrder })) };
}

vi.mock('../../server/src/engine/checks/catalogue.ts', async (importOriginal) => {
  const { CATALOGUE } = await importOriginal<{ CATALOGUE: readonly Check[] }>();
  const { check: declare } = await import('../../server/src/engine/checks/declare.ts');
  const texts = { id: 'test.broken', title: 'a check that throws', compares: '', why: '', mend: '', source: '' };
  return { CATALOGUE: [...CATALOGUE, declare({ ...texts, severity: 'note', needs: {}, run: outOfOrder })] };
});

vi.mock('../../server/src/engine/values/handbook.ts', async (importOriginal) => {
  const { HANDBOOK } = await importOriginal<{ HANDBOOK: readonly ValueDeclaration[] }>();
  return { HANDBOOK: HANDBOOK.map((each) => (each.id === 'motor.winding_temperature' ? broken(each) : each)) };
});

// One bound of the first window, what the second recommends, and how the third words what it finds.
vi.mock('../../server/src/engine/windows/all.ts', async (importOriginal) => {
  const { WINDOWS } = await importOriginal<{ WINDOWS: readonly Window[] }>();
  const parts: Readonly<Record<string, (window: Window) => Partial<Window>>> = {
    'setpoints.protection.overload.trip': ({ bounds }) => ({
      bounds: bounds.map((each, at) => (at === 0 ? { ...each, value: broken(each.value) } : each)),
    }),
    'setpoints.protection.underload.trip': ({ recommendation }) => ({
      recommendation: recommendation && { ...recommendation, choose: outOfOrder },
    }),
    'setpoints.protection.intake_pressure_low.trip': ({ bounds }) => ({
      bounds: bounds.map((each) => ({ ...each, says: outOfOrder })),
    }),
  };
  return { WINDOWS: WINDOWS.map((each) => ({ ...each, ...parts[each.setpoint]?.(each) })) };
});

const { check } = await import('../../server/src/commands/check.ts');

interface Found {
  readonly check: string;
  readonly message: string;
}

async function checked(folder: string, path: string) {
  const { status, out } = await run(folder, (surroundings) =>
    check({ paths: [path], format: 'json', show: ['passed', 'not-run'] }, surroundings),
  );
  const [file] = JSON.parse(out).files;
  const findings: readonly Found[] = file.findings;
  const failed = findings.filter((each) => each.check === 'internal').map(({ message }) => message);
  return { status, failed, ids: findings.map((each) => each.check), file };
}

const folder = makeFolder({
  'a.yaml': `${WELL}reservoir: { pressure: 78 }\n`,
  'setproof.policy.yaml':
    'document: policy/1\nchecks:\n  internal: { set_aside: true, reason: we do not want to know }\n',
});
afterAll(() => removeFolder(folder));

describe('what fails itself becomes a finding with its id, ends with 2, and all else goes on', async () => {
  const { status, failed, ids, file } = await checked(`${HOME}/samples`, 'pad-a/qm-a1.yaml');

  test.each([
    ['a check', "The check 'test.broken' failed itself (out of order)."],
    ['a value', "The value 'motor.winding_temperature' failed itself (out of order)."],
    ['a bound', /^The value 'bound:overload\.[a-z-]+' failed itself \(out of order\)\./],
    ['a recommendation', "The window of 'setpoints.protection.underload.trip' failed itself (out of order)."],
  ])('%s', (_, message) => {
    const heard = failed.filter((each) =>
      typeof message === 'string' ? each.startsWith(message) : message.test(each),
    );
    expect(heard, failed.join('\n')).toHaveLength(1);
  });

  test('nothing else failed, and the run ends with 2', () => {
    expect(failed).toHaveLength(4);
    expect(status).toBe(2);
  });

  test('checks that rest on a value that failed are not run, and name it', () => {
    const lacking = file.checks.notRun.filter(({ missing }: { missing: string[] }) =>
      missing.includes('motor.winding_temperature'),
    );
    expect(lacking.length).toBeGreaterThan(0);
  });

  test('the other checks have their say', () => {
    expect(file.checks.passed.length).toBeGreaterThan(100);
    expect(ids).toContain('document.not-run');
  });
});

test('how a bound words what it finds may fail too', async () => {
  const text = readFileSync(`${HOME}/samples/pad-a/qm-a1.yaml`, 'utf8').replace('trip: 17 bar', 'trip: 3 bar');
  const other = makeFolder({ 'pad/a.yaml': text });
  cpSync(`${HOME}/samples/equipment`, `${other}/equipment`, { recursive: true });
  const { status, failed } = await checked(other, 'pad/a.yaml');
  removeFolder(other);
  expect(status).toBe(2);
  expect(failed.join('\n')).toContain("The window of 'setpoints.protection.intake_pressure_low.trip' failed itself");
});

test('a policy cannot hide it', async () => {
  const { status, failed, ids } = await checked(folder, 'a.yaml');
  expect(status).toBe(2);
  expect(failed.length).toBeGreaterThan(0);
  expect(ids).toContain('units.missing');
});
