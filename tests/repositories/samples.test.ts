import { readdirSync, readFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { type Change, type Finding, Repository } from '../../server/src/engine/index.ts';

const ROOT = fileURLToPath(new URL('../../samples', import.meta.url));
const MISTAKES = join(ROOT, 'with-mistakes');

/** Every YAML file under the samples, as the host would tell the engine of it. */
const paths = (readdirSync(ROOT, { recursive: true, encoding: 'utf8' }) as string[])
  .filter((name) => name.endsWith('.yaml'))
  .map((name) => join(ROOT, name))
  .sort();

function withWanted(repository: Repository): Repository {
  const wanted = repository.wanted();
  if (wanted.length === 0) return repository;
  // All files are told already: what is still wanted is not there.
  return withWanted(repository.update(wanted.map((path): Change => ({ path, absent: true }))));
}

/** The folder with mistakes has a policy of its own, and so is a root of its own. */
const rootOf = (path: string) => (path.startsWith(MISTAKES) ? MISTAKES : ROOT);
const changes = paths.map((path): Change => ({ path, text: readFileSync(path, 'utf8'), root: rootOf(path) }));
const samples = withWanted(Repository.empty({ root: ROOT, today: '2026-11-25' }).update(changes));

function serious(path: string): readonly Finding[] {
  return samples.check(path)?.findings.filter(({ severity }) => severity !== 'note') ?? [];
}

/** A mistake as its comment names it: the check, and the line on which it stands. */
function said({ check, range }: Finding): string {
  return `${check} in line ${range.start.line + 1}`;
}

interface Expected {
  /** Checks with the line that each must point to. */
  readonly planted: readonly string[];
  /** Checks that may speak up as well, wherever. */
  readonly follows: ReadonlySet<string>;
}

/** Reads `# planted: check.id; follows: other.id, another.id` comments. */
function expectedIn(path: string): Expected {
  const planted: string[] = [];
  const follows = new Set<string>();
  readFileSync(path, 'utf8')
    .split('\n')
    .forEach((text, at) => {
      const [, check, others = ''] = /# planted: ([\w.-]+)(?:; follows: (.+))?$/.exec(text) ?? [];
      if (check === undefined) return;
      planted.push(`${check} in line ${at + 1}`);
      for (const other of others.split(', ').filter(Boolean)) follows.add(other);
    });
  return { planted, follows };
}

/** Files under their short names, as the tests are called. */
const named = (files: readonly string[]) => files.map((path): [string, string] => [basename(path), path]);

const isWell = (path: string) => samples.document(path)?.kind === 'installation';
const wells = paths.filter((path) => isWell(path) && !path.startsWith(MISTAKES));
const mistaken = paths.filter((path) => isWell(path) && path.startsWith(MISTAKES));

describe('the sample wells', () => {
  it('are ten, five of each lift', () => {
    const lifts = wells.map((path) => /^lift: (\w+)$/m.exec(readFileSync(path, 'utf8'))?.[1]);
    expect(lifts.filter((lift) => lift === 'linear')).toHaveLength(5);
    expect(lifts.filter((lift) => lift === 'rotary')).toHaveLength(5);
  });

  it.each(named(wells))('%s has no error and no warning', (_, path) => {
    expect(serious(path).map(({ check, key, message }) => `${check} ${key}: ${message}`)).toEqual([]);
  });

  it.each(named(wells))('%s works out in every case: all that its lift needs is known', (_, path) => {
    const evaluation = samples.check(path)?.worked?.evaluation;
    for (let at = 0; at < (evaluation?.caseCount ?? 0); at++) {
      expect(evaluation?.number('transformer.tap_need', at), evaluation?.caseName(at)).toBeGreaterThan(0);
    }
    expect(evaluation?.caseCount).toBeGreaterThanOrEqual(3);
    expect(evaluation?.number('restart.refill_time', 0)).toBeGreaterThan(0);
  });

  it.each(named(wells))('%s is set to the recommended tap', (_, path) => {
    const window = samples
      .check(path)
      ?.worked?.windows.find((each) => each.window.setpoint.endsWith('transformer.tap'));
    expect(window?.recommended).toBeGreaterThan(0);
    expect(window?.setpoint).toBe(window?.recommended);
  });
});

describe('the other sample files', () => {
  // What is wrong with the readings of `visits/with-mistakes/` is told by the test of the visits.
  const others = paths.filter((path) => !isWell(path) && !path.includes('visits/with-mistakes/'));

  it.each(named(others))('%s is free of findings', (_, path) => {
    expect(samples.check(path)?.findings.map(({ check, message }) => `${check}: ${message}`)).toEqual([]);
  });

  it('are all used: each data sheet hangs in a well', () => {
    const idle = paths.filter((path) => dirname(path).includes('equipment') && samples.usersOf(path).length === 0);
    expect(idle).toEqual([]);
  });
});

describe('the wells with mistakes', () => {
  it('hold eight planted mistakes or more each', () => {
    expect(mistaken).toHaveLength(2);
    for (const path of mistaken) expect(expectedIn(path).planted.length).toBeGreaterThanOrEqual(8);
  });

  it.each(named(mistaken))('%s has each found in its line, and nothing else', (_, path) => {
    const { planted, follows } = expectedIn(path);
    const found = serious(path)
      .filter(({ check }) => !follows.has(check))
      .map(said);
    expect(found.sort()).toEqual([...planted].sort());
  });
});
