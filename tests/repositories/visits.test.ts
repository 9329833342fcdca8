import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import {
  buildChecklist,
  type CheckedFile,
  type Checklist,
  type Entries,
  type Entry,
  type Repository,
  readingsText,
} from '../../server/src/engine/index.ts';
import { goodEntries } from '../support/good-visit.ts';
import { checked, openProject, SAMPLES } from '../support/project.ts';

// The sample visits are made from the checklist. When the well, its data sheets or the policy change, renew them:
// npx vitest run visits -u
const WELL = join(SAMPLES, 'pad-a/qm-a1.yaml');
const GOOD = join(SAMPLES, 'visits/qm-a1-2026-05-04.yaml');
const FAULTY = join(SAMPLES, 'visits/with-mistakes/qm-a1-2026-05-04.yaml');
const DATE = '2026-05-04';
const HEAD = '# Invented, as everything in these samples: nobody was there, and nothing was measured.\n';
const PLANTED =
  '# Planted: insulation of the motor low, another tap left than planned, the hold before the start not signed.\n';

/** What three mistakes change in a complete visit. */
const MISTAKES: Readonly<Record<string, Entry | undefined>> = {
  'inspection.motor.insulation': { values: ['12 Mohm'] },
  'surface.transformer.tap': { done: true, values: ['1'] },
  'settings.transformer.tap': { done: true, values: ['1'] },
  'start.hold': undefined,
};

let repository: Repository;
let checklist: Checklist;

beforeAll(() => {
  repository = openProject(WELL);
  checklist = buildChecklist(checked(repository, WELL), { units: 'as-written' });
});

function visitText(entries: Entries, installation: string, head: string): string {
  const [first, ...rest] = readingsText({ ...checklist, installation }, entries).split('\n');
  return `${head}${first}\n${rest.join('\n')}`;
}

function goodText(): string {
  return visitText(goodEntries(checklist, DATE), '../pad-a/qm-a1.yaml', HEAD);
}

function faultyText(): string {
  const entries = [...goodEntries(checklist, DATE)].flatMap(([id, entry]): [string, Entry][] => {
    const changed = id in MISTAKES ? MISTAKES[id] : entry;
    return changed === undefined ? [] : [[id, changed]];
  });
  return visitText(new Map(entries), '../../pad-a/qm-a1.yaml', HEAD + PLANTED);
}

function checkedAt(path: string, text: string): CheckedFile {
  return checked(repository.update([{ path, text }]), path);
}

describe('the sample visits', () => {
  it('the good one is as it is made, and has no finding', async () => {
    const text = goodText();
    await expect(text).toMatchFileSnapshot(GOOD);
    expect(checkedAt(GOOD, text).findings.map(({ check, message }) => `${check}: ${message}`)).toEqual([]);
  });

  it('the faulty one is as it is made, and each mistake is found at its reading', async () => {
    const text = faultyText();
    await expect(text).toMatchFileSnapshot(FAULTY);
    const { findings, document } = checkedAt(FAULTY, text);
    const rowOf = (key: string) =>
      document.tree.scalar(document.tree.find(`${/^readings\[\d+\]/.exec(key)?.[0]}.item`));
    const found = findings.map(({ check, key }) => `${check} at ${key.startsWith('readings[') ? rowOf(key) : key}`);
    expect(found.sort()).toEqual([
      'readings.as-left-differs at as_left.transformer.tap',
      'readings.hold-unsigned at readings',
      'readings.insulation at inspection.motor.insulation',
      'tap.below-window at as_left.transformer.tap',
      'tap.voltage-disagrees at as_left.transformer.voltage',
    ]);
  });
});
