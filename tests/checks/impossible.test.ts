import { describe, expect, it } from 'vitest';
import { checked, edited, LINEAR } from '../engine/values/project.ts';

const errorsOf = (project: typeof LINEAR) =>
  checked(project).findings.flatMap(({ severity, check, key }) => (severity === 'error' ? [`${check} ${key}`] : []));

/** The errors that the toy project gets beyond its own. */
function newErrors(key: string, text: string) {
  const own = errorsOf(LINEAR);
  return errorsOf(edited(LINEAR, { [key]: text })).filter((each) => !own.includes(each));
}

describe('a number that cannot be', () => {
  it.each([
    ['supply.voltage', '0 V'],
    ['supply.voltage', '400 MV'],
    ['well.wellhead.casing_pressure', '-3 bar'],
    ['setpoints.protection.overload.trip', '0 A'],
    ['setpoints.transformer.voltage', '-900 V'],
  ])('%s: %s is one error, at its entry', (key, text) => {
    expect(newErrors(key, text)).toEqual([`units.implausible ${key}`]);
  });

  it('leaves what is merely unusual a warning', () => {
    const found = checked(edited(LINEAR, { 'well.tubing.pressure_rating': '2500 bar' })).findings;
    expect(found.filter(({ check }) => check === 'units.implausible').map(({ severity }) => severity)).toEqual([
      'warning',
    ]);
  });
});
