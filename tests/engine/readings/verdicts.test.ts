import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { buildChecklist, type Entry, judgeStep, readingsText, type Step } from '../../../server/src/engine/index.ts';
import { checked, openProject, SAMPLES } from '../../support/project.ts';

const VISIT = join(SAMPLES, 'visits/verdicts.yaml');

/** What is written at a step beside an end of its limit, in words of the unit. */
const NEAR: Readonly<Record<string, (limit: number, unit: string) => string>> = {
  'on it': (limit, unit) => `${limit} ${unit}`,
  'as little below as a conversion leaves': (limit, unit) => `${limit * (1 - 1e-12)} ${unit}`,
  'as little above as a conversion leaves': (limit, unit) => `${limit * (1 + 1e-12)} ${unit}`,
  'on it, in another unit': (limit, unit) => inOtherUnit(limit, unit),
  'a little below': (limit, unit) => `${limit - Math.abs(limit) * 1e-3} ${unit}`,
  'a little above': (limit, unit) => `${limit + Math.abs(limit) * 1e-3} ${unit}`,
  'far below': (limit, unit) => `${limit - Math.abs(limit) * 0.5} ${unit}`,
  'far above': (limit, unit) => `${limit + Math.abs(limit) * 0.5} ${unit}`,
  'an open end above': (limit, unit) => `> ${limit - Math.abs(limit) * 0.1} ${unit}`,
  'an open end below': (limit, unit) => `< ${limit + Math.abs(limit) * 0.1} ${unit}`,
  'no number': () => 'good',
};

function inOtherUnit(limit: number, unit: string): string {
  if (unit === 'Mohm') return `${limit / 1000} Gohm`;
  if (unit === 'ohm') return `${limit * 1000} mohm`;
  if (unit === 'bar(g)') return `${limit * 0.1} MPa(g)`;
  if (unit === 'degC') return `${(limit * 9) / 5 + 32} degF`;
  return unit === 'A' ? `${limit * 1000} mA` : `${limit} ${unit}`;
}

/** Readings that are not alike: the first by a share off the others. */
const SHARES = [0.01, 0.019, 0.02, 0.05, 0.3];

/** Checks that a field page makes too; others look at several steps, or at what is not there. */
const OF_ONE_STEP =
  /^readings\.(out-of-limit|running-differs|value-unreadable|insulation|winding-unbalance|unexpected-resistance|voltage-unbalance)$/;

describe.each(['pad-a/qm-a1.yaml', 'pad-a/qm-a3.yaml'])('the field page and the checks of %s', (well) => {
  const repository = openProject(join(SAMPLES, well));
  const checklist = buildChecklist(checked(repository, join(SAMPLES, well)), { units: 'as-written' });
  const steps = checklist.stages.flatMap((stage) => stage.steps).filter(({ kind, unit }) => kind === 'read' && unit);

  /** Judges the same texts on the page and in the document: both as what is wrong, by item. */
  function compare(textsOf: (step: Step) => readonly string[], temperature: string): void {
    const entries = new Map<string, Entry>();
    for (const step of steps) {
      const values = /^inspection\..*\.temperature$/.test(step.id) ? [temperature] : textsOf(step);
      if (values.length > 0) entries.set(step.id, { values });
    }
    const text = readingsText({ ...checklist, installation: `../${well}` }, entries);
    const file = checked(repository.update([{ path: VISIT, text }]), VISIT);
    const rows = [...entries.keys()];
    const found = file.findings.filter(({ check }) => OF_ONE_STEP.test(check));
    const degrees = Number(temperature.split(' ')[0]);
    for (const step of steps) {
      const values = entries.get(step.id)?.values;
      if (values === undefined) continue;
      const isAt = (key: string) => new RegExp(`^readings\\[${rows.indexOf(step.id)}\\](\\.|$)`).test(key);
      const told = found.filter(({ key }) => isAt(key)).map(({ message }) => message);
      const sure = told.filter((message) => !message.includes('either side'));
      const judged = judgeStep(step, values, step.temperatureStep === undefined ? undefined : degrees);
      const said = `${step.id}: ${values.join(', ')} at ${temperature}; page: ${judged.verdict} ${judged.messages.join(' ')}; checks: ${told.join(' ')}`;
      const isWrong = judged.verdict === 'outside' || judged.verdict === 'unreadable';
      expect(sure.length > 0, said).toBe(isWrong);
      expect(told.length > 0, said).toBe(isWrong || judged.verdict === 'unsure');
    }
  }

  it.each(Object.keys(NEAR))('agree on what lies near a limit: %s', (near) => {
    for (const end of ['min', 'max'] as const) {
      for (const temperature of ['20 degC', '55 degC']) {
        compare(({ limit, unit = '', fields = [''] }) => {
          const value = limit?.[end];
          return typeof value === 'number' ? fields.map(() => NEAR[near]?.(value, unit) ?? '') : [];
        }, temperature);
      }
    }
  });

  it.each(SHARES)('agree on readings of which one is off by %d', (share) => {
    for (const temperature of ['20 degC', '60 degC']) {
      compare(({ unbalanceMax, expected = 10, fields = [], unit = '' }) => {
        if (unbalanceMax === undefined) return [];
        return fields.map((_, at) => `${expected * (at === 0 ? 1 + share : 1)} ${unit}`);
      }, temperature);
    }
  });

  it('agree where only one of three is read', () => {
    compare(
      ({ limit, unit = '', fields = [] }) => (fields.length === 3 ? ['', `${limit?.max ?? 1} ${unit}`] : []),
      '20 degC',
    );
    compare(
      ({ expected = 1, unit = '', fields = [] }) => (fields.length === 3 ? [`${expected * 3} ${unit}`] : []),
      '20 degC',
    );
  });
});
