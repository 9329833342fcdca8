import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { checked, edited, openProject, SAMPLES } from '../../support/project.ts';

const LINEAR = join(SAMPLES, 'pad-a/qm-a1.yaml');
const ROTARY = join(SAMPLES, 'pad-b/qm-b1.yaml');
const linear = openProject(LINEAR);
const rotary = openProject(ROTARY);
const PROTECTION = 'setpoints.protection';

/** What a check says of a clean well with one protection entered anew. */
function said(check: string, protection: string, text: string, well = LINEAR) {
  const project = well === LINEAR ? linear : rotary;
  const file = checked(edited(project, well, { [`${PROTECTION}.${protection}`]: text }), well);
  const findings = file.findings.filter((each) => each.check === check);
  return findings.map(({ severity, key }) => `${severity} ${key.slice(PROTECTION.length + 1)}`);
}

describe('the order of alarm, trip and reset', () => {
  it.each([
    ['rising', 'wellhead_pressure_high', '60 bar', '45 bar', '30 bar'],
    ['rising', 'overvoltage', '460 V', '440 V', '430 V'],
    ['rising', 'current_unbalance', '15 %', '10 %', '8 %'],
    ['falling', 'underload', '4.8 A', '5.1 A', '6 A'],
    ['falling', 'undervoltage', '340 V', '360 V', '380 V'],
    ['falling', 'earth_fault', '0.1 Mohm', '1 Mohm', '2 Mohm'],
  ])('is that of a %s %s', (_, name, trip, alarm, reset) => {
    const entered = (a: string, b: string, c: string) => `{ trip: ${a}, alarm: ${b}, reset: ${c}, delay: 20 s }`;
    expect(said('protection.order', name, entered(trip, alarm, reset))).toEqual([]);
    expect(said('protection.order', name, entered(alarm, trip, reset))).toEqual([`error ${name}.alarm`]);
    expect(said('protection.order', name, entered(trip, trip, reset))).toEqual([`error ${name}.alarm`]);
    expect(said('protection.order', name, entered(alarm, reset, trip))).toHaveLength(1);
    expect(said('protection.order', name, `{ trip: ${trip}, enabled: no, alarm: ${trip} }`)).toEqual([]);
  });

  it('leaves the reset of the intake pressure to its window', () => {
    const below = '{ trip: 17 bar, reset: 15 bar, delay: 60 s }';
    expect(said('protection.order', 'intake_pressure_low', below)).toEqual([]);
  });
});

describe('a protection that every unit needs', () => {
  it.each([
    ['overload', 'error'],
    ['short_circuit', 'error'],
    ['earth_fault', 'error'],
    ['underload', 'warning'],
    ['motor_temperature_high', 'warning'],
  ])('%s is missed, switched off or without a trip, as an %s', (name, severity) => {
    for (const text of ['', '{ enabled: no }', '{ delay: 5 s }']) {
      expect(said('protection.missing', name, text)).toEqual([`${severity} ${name}`]);
    }
  });

  it('is not missed where its name is misspelt: that is the mistake', () => {
    const text = linear.document(LINEAR)?.source.text.replace('overload:', 'overlaod:') ?? '';
    const file = checked(linear.update([{ path: LINEAR, text }]), LINEAR);
    const checks = file.findings.filter(({ severity }) => severity === 'error').map(({ check }) => check);
    expect(checks).toEqual(['document.unknown-key']);
  });
});

describe('the delay of a protection', () => {
  it.each([
    ['protection.no-delay', 'underload', '{ trip: 4.8 A, delay: 0 s }', 'error'],
    ['protection.delay-unusual', 'overvoltage', '{ trip: 460 V, delay: 5 min }', 'warning'],
    ['protection.delay-unusual', 'short_circuit', '{ trip: 24 A, delay: 2 s }', 'warning'],
    // The slowest case has 5.2 strokes in a minute.
    ['protection.delay-shorter-than-stroke', 'underload', '{ trip: 4.8 A, delay: 11.5 s }', 'error'],
    ['protection.delay-shorter-than-stroke', 'overload', '{ trip: 15 A, delay: 11.5 s }', 'warning'],
    // The quickest has 6.2: half of its 9.7 s is loaded.
    ['protection.delay-shorter-than-stroke', 'underload', '{ trip: 4.8 A, delay: 4.9 s, basis: stroke_peak }', 'error'],
    ['protection.delay-shorter-than-gauge', 'motor_temperature_high', '{ trip: 125 degC, delay: 1.9 s }', 'error'],
  ])('gives %s of %s %s', (check, name, text, severity) => {
    expect(said(check, name, text)).toEqual([`${severity} ${name}.delay`]);
  });

  it.each([
    ['short_circuit', '{ trip: 24 A, delay: 0 s }'],
    ['earth_fault', '{ trip: 0.1 Mohm, delay: 0 s }'],
    ['underload', '{ trip: 4.8 A, delay: 12 s }'],
    ['underload', '{ trip: 4.8 A, delay: 4.8 s, basis: stroke_peak }'],
    ['stall', '{ trip: 18 A, delay: 3 s }'],
    ['motor_temperature_high', '{ trip: 125 degC, delay: 2 s }'],
  ])('is fine for %s %s', (name, text) => {
    const checks = ['no-delay', 'delay-shorter-than-stroke', 'delay-shorter-than-gauge'];
    for (const check of checks) expect(said(`protection.${check}`, name, text)).toEqual([]);
  });

  it('has nothing to do with strokes in a rotary pump', () => {
    expect(said('protection.delay-shorter-than-stroke', 'overload', '{ trip: 28.5 A, delay: 2 s }', ROTARY)).toEqual(
      [],
    );
  });

  it('is told once where it is too short for everything', () => {
    for (const check of ['protection.delay-unusual', 'protection.no-delay']) {
      expect(said(check, 'underload', '{ trip: 4.8 A, delay: 1 s }')).toEqual([]);
    }
  });
});

describe('an earth-fault trip', () => {
  it.each([
    ['9 kohm', 1],
    ['10 kohm', 0],
    ['0.01 Mohm', 0],
    ['100000000 mohm', 1],
  ])('of %s is asked about: %i', (trip, count) => {
    expect(said('earth-fault.low', 'earth_fault', `{ trip: ${trip}, delay: 1 s }`)).toHaveLength(count);
  });
});

describe('an overload trip at the drive side', () => {
  it('is fine where the file says so, and asked about where it does not', () => {
    // Tap 900 V at 400 V primary: 15 A at the motor are 33.75 A at the drive.
    expect(said('overload.wrong-side', 'overload', '{ trip: 33.75 A, delay: 30 s, side: drive }')).toEqual([]);
    expect(said('overload.wrong-side', 'overload', '{ trip: 33.75 A, delay: 30 s }')).toEqual([
      'warning overload.trip',
    ]);
    expect(said('overload.wrong-side', 'overload', '{ trip: 15 A, delay: 30 s, side: drive }')).toHaveLength(1);
  });
});
