import { describe, expect, it } from 'vitest';
import type { CheckedFile } from '../../server/src/engine/index.ts';
import { checkEdited } from './example.ts';

const TAP = 'setpoints.transformer.tap';
const VOLTAGE = 'setpoints.transformer.voltage';

/** The errors about transformer, drive and motor; what a trip makes of another tap is a matter of its own. */
function errors(file: CheckedFile): readonly string[] {
  const own = file.findings.filter(({ check }) => /^(tap|transformer|drive|motor)\./.test(check));
  return own.flatMap(({ check, severity }) => (severity === 'error' ? [check] : [])).sort();
}

function relatedOf(file: CheckedFile, id: string): string {
  return file.findings
    .filter(({ check }) => check === id)
    .flatMap(({ related }) => related.map(({ message }) => message))
    .join('\n');
}

describe('one cause is reported once', () => {
  it('a tap that is too low is the tap’s mistake, with what follows named beside it', () => {
    const file = checkEdited('linear', { [TAP]: '2', [VOLTAGE]: '800 V' });
    expect(errors(file)).toEqual(['tap.below-window']);
    expect(file.findings.find(({ check }) => check === 'tap.below-window')?.message).toMatch(
      /^Tap 2 \(800 V\) is 17(\.\d+)? V short: at least 817 V is needed in the case 'pumped off'\. Tap 3 \(900 V\) is the lowest that serves\.$/,
    );
    expect(relatedOf(file, 'tap.below-window')).toContain('so also transformer.saturates-at-low-frequency');
    expect(file.statuses.get('transformer.flux')?.status).not.toBe('passed');
  });

  it('a drive that a lower tap would relieve is not said to be too small', () => {
    const tooHigh = { [TAP]: '7', [VOLTAGE]: '1300 V', 'equipment.drive.output_current': '38 A' };
    const file = checkEdited('linear', tooHigh);
    expect(errors(file)).toEqual(['tap.above-window']);
    expect(relatedOf(file, 'tap.above-window')).toContain('so also drive.overcurrent');
  });

  it('a drive that no tap relieves is said to be too small, and that no tap serves', () => {
    const file = checkEdited('linear', { 'equipment.drive.output_current': '20 A' });
    expect(errors(file)).toEqual(['drive.overcurrent', 'tap.no-window']);
    expect(relatedOf(file, 'tap.no-window')).toContain('so tap.above-window');
  });

  it('phase voltages on the plate explain a tap that is far too low', () => {
    const file = checkEdited('rotary', {
      'equipment.transformer.taps': '[ { tap: 4, voltage: 762 V }, { tap: 5, voltage: 831 V } ]',
      [VOLTAGE]: '831 V',
    });
    expect(errors(file)).toEqual(['tap.phase-voltage']);
    expect(relatedOf(file, 'tap.phase-voltage')).toContain('so tap.below-window');
    expect(file.statuses.get('tap.below-window')?.status).toBe('finding');
  });

  it('√3 does not explain a tap that is one step short', () => {
    const file = checkEdited('rotary', { [TAP]: '4', [VOLTAGE]: '1320 V' });
    expect(errors(file)).toEqual(['tap.below-window']);
  });

  it('what rests on a tap that does not exist is not run, and says so', () => {
    const file = checkEdited('linear', { [TAP]: '9', [VOLTAGE]: null });
    expect(errors(file)).toEqual(['tap.not-on-transformer']);
    const status = file.statuses.get('tap.below-window');
    expect(status).toMatchObject({ status: 'not_run', missing: ['transformer.tap_voltage'] });
  });

  it('a tap above its window is not also said to be higher than needed', () => {
    const file = checkEdited('linear', { [TAP]: '7', [VOLTAGE]: '1300 V', 'equipment.drive.output_current': '38 A' });
    expect(file.statuses.get('tap.not-lowest')?.status).toBe('passed');
  });

  it('the loosest of the bounds that an intake-pressure trip is above is the mistake', () => {
    const file = checkEdited('linear', { 'setpoints.protection.intake_pressure_low.trip': '140 bar' });
    const trips = file.findings.filter(({ check }) => check.startsWith('intake-trip.'));
    const onTrip = trips.filter(({ key }) => key.endsWith('.trip'));
    expect(onTrip.map(({ check }) => check)).toEqual(['intake-trip.beyond-column']);
    expect(relatedOf(file, 'intake-trip.beyond-column')).toContain('so it is also above');
  });

  it('a set-aside cause leaves its consequence standing', () => {
    const policy = 'document: policy/1\nchecks: { tap.above-window: { set_aside: "the larger tap is ordered" } }\n';
    const tooHigh = { [TAP]: '7', [VOLTAGE]: '1300 V', 'equipment.drive.output_current': '38 A' };
    expect(errors(checkEdited('linear', tooHigh, { 'setproof.policy.yaml': policy }))).toEqual(['drive.overcurrent']);
  });
});

describe('one slip that makes many findings', () => {
  const serious = (file: CheckedFile) =>
    file.findings.flatMap(({ severity, check, key }) => (severity === 'note' ? [] : [`${severity} ${check} ${key}`]));
  const KILOVOLTS = { 'supply.voltage': '400 kV' };

  it('is one finding, as severe as the worst that goes back to it, with the offer that mends all', () => {
    const file = checkEdited('linear', KILOVOLTS);
    expect(serious(file)).toEqual(['error units.implausible supply.voltage']);
    const [slip] = file.findings.filter(({ check }) => check === 'units.implausible');
    expect(slip?.message).toMatch(/Was 400 V meant\? \d more findings go back to it, and are named with it\.$/);
    expect(relatedOf(file, 'units.implausible')).toContain('so also drive.input-mismatch');
    expect(slip?.fixes[0]?.title).toMatch(/^Write 400 V, and what rests on it follows; \d more findings go with it$/);
    expect(file.statuses.get('drive.input-mismatch')?.status).toBe('finding');
  });

  it('leaves standing what is wrong of itself', () => {
    const file = checkEdited('linear', { ...KILOVOLTS, 'setpoints.protection.overload.trip': '1.5 A' });
    expect(serious(file)).toContain('error overload.below-running setpoints.protection.overload.trip');
  });

  it('is told where it was made, though the numbers are wrong elsewhere', () => {
    const file = checkEdited('linear', { 'reservoir.pressure': '78 psi' });
    expect(serious(file)).toEqual(['error reservoir.pressure-gradient reservoir.pressure']);
  });

  it('does not take in findings that a deviation accepts, and a softened check stands for no other', () => {
    const policy = 'document: policy/1\nchecks: { units.implausible: { severity: note } }\n';
    const softened = checkEdited('linear', KILOVOLTS, { 'setproof.policy.yaml': policy });
    expect(serious(softened).map((each) => each.split(' ')[1])).toContain('drive.input-mismatch');
    const accepted = checkEdited('linear', {
      ...KILOVOLTS,
      deviations: '[ { check: drive.input-mismatch, reason: stated, approved_by: chief engineer, until: 2099-01-01 } ]',
    });
    expect(accepted.findings.filter(({ deviated }) => deviated).map(({ check }) => check)).toEqual([
      'drive.input-mismatch',
    ]);
  });

  it('also explains why a check that the policy requires could not be run', () => {
    const policy = 'document: policy/1\nrequire: [tap.below-window]\n';
    const file = checkEdited('linear', { 'well.perforations.tvd': '14800 m' }, { 'setproof.policy.yaml': policy });
    expect(file.findings.map(({ check }) => check)).not.toContain('policy.required-not-run');
    expect(relatedOf(file, 'units.implausible')).toContain('so also policy.required-not-run');
    const absent = checkEdited('linear', { 'reservoir.pressure': null }, { 'setproof.policy.yaml': policy });
    expect(absent.findings.map(({ check }) => check)).toContain('policy.required-not-run');
  });
});

describe('the intake-pressure trip', () => {
  const TRIP = 'setpoints.protection.intake_pressure_low.trip';
  const onTrip = (file: CheckedFile) => file.findings.filter(({ key }) => key === TRIP).map(({ check }) => check);

  it('is bounded hard, not softly, by a stated intake pressure', () => {
    const stated = (pressure: string) =>
      checkEdited('linear', { 'operation.cases[1]': `{ name: target, intake_pressure: ${pressure} }` });
    expect(onTrip(stated('17.2 bar(g)'))).toEqual([]);
    expect(onTrip(stated('16.5 bar(g)'))).toEqual(['intake-trip.above-flowing']);
  });

  it('is not bounded by the case at the trip itself', () => {
    expect(onTrip(checkEdited('linear', { 'operation.cases[1]': null }))).toEqual([]);
  });

  it('that is switched off is not judged, but missed', () => {
    const file = checkEdited('linear', { 'setpoints.protection.intake_pressure_low.enabled': 'no', [TRIP]: '80 bar' });
    expect(file.statuses.get('intake-trip.above-static')?.status).toBe('not_applicable');
    expect(file.statuses.get('intake-trip.missing')?.status).toBe('finding');
  });

  it('needs no correction for a gauge close to the intake, or for one that was allowed for', () => {
    const gaugeAt = (depth: string, trip: string) =>
      onTrip(checkEdited('linear', { 'equipment.gauge.below_intake': depth, [TRIP]: trip }));
    expect(gaugeAt('4 m', '15.5 bar')).toEqual([]);
    expect(gaugeAt('30 m', '17 bar')).toEqual(['intake-trip.gauge-depth']);
    expect(gaugeAt('30 m', '18.5 bar')).toEqual([]);
  });
});
