import { describe, expect, it } from 'vitest';
import type { ExampleEdits } from '../../server/src/engine/findings/texts.ts';
import type { CheckedFile, Finding } from '../../server/src/engine/index.ts';
import { checkEdited } from './example.ts';

function of(file: CheckedFile, id: string): readonly Finding[] {
  return file.findings.filter(({ check }) => check === id);
}

/** Severity and first message of a check on an edited base; undefined if it says nothing. */
function said(lift: 'linear' | 'rotary', edits: ExampleEdits, id: string): string | undefined {
  const [first] = of(checkEdited(lift, edits), id);
  return first && `${first.severity}: ${first.message}`;
}

function relatedOf(file: CheckedFile, id: string): string {
  return of(file, id)
    .flatMap(({ related }) => related.map(({ message }) => message))
    .join('\n');
}

const MAIN = 'equipment.cable.main';
const DRIFT = 'well.casing.drift';

describe('a limit is inclusive, and beyond the outer one is an error', () => {
  it.each([
    ['121.1 mm', undefined],
    // The tubing with its cable is 88.5 mm, the pump with its lead 105.5 mm, the motor 108 mm.
    ['111 mm', undefined],
    ['110.9 mm', 'warning'],
    ['108 mm', 'warning'],
    ['107.9 mm', 'error'],
  ])('a drift of %s', (drift, severity) => {
    expect(of(checkEdited('linear', { [DRIFT]: drift }), 'fit.clearance')[0]?.severity).toBe(severity);
  });

  it.each([
    ['42 kW', undefined],
    ['40 kW', 'warning'],
    ['35 kW', 'error'],
  ])('a plate of %s on a motor of 45 kW', (power, severity) => {
    expect(of(checkEdited('rotary', { 'equipment.motor.power': power }), 'nameplate.inconsistent')[0]?.severity).toBe(
      severity,
    );
  });

  it.each([
    ['1395 m', undefined],
    // 0.2 % of 1395 m is 2.79 m.
    ['1397.7 m', undefined],
    ['1397.9 m', 'warning'],
  ])('an intake at %s vertically, where the survey says 1395 m', (tvd, severity) => {
    expect(of(checkEdited('linear', { 'well.intake.tvd': tvd }), 'well.survey-disagrees')[0]?.severity).toBe(severity);
  });

  it.each([
    ['34 bar', undefined],
    ['100 bar', 'note'],
    ['140 bar', 'warning'],
  ])('a bubble point of %s, where the gas gives about 40 bar', (bubblePoint, severity) => {
    const file = checkEdited('linear', { 'reservoir.bubble_point': bubblePoint });
    expect(of(file, 'reservoir.bubble-point-disagrees')[0]?.severity).toBe(severity);
  });

  it('cable that ends at the motor reaches it', () => {
    expect(said('linear', { [`${MAIN}.length`]: '1408 m' }, 'cable.too-short')).toBeUndefined();
    expect(said('linear', { [`${MAIN}.length`]: '1407.9 m' }, 'cable.too-short')).toMatch(/^error: .* 0\.1 m less/);
  });

  it('cable is much too long only by 5 % and by 50 m', () => {
    const deep = { [`${MAIN}.length`]: '1478 m' };
    expect(said('linear', deep, 'cable.much-too-long')).toBeUndefined();
    const shallow = {
      'well.intake': '{ md: 400 m }',
      'well.perforations': '{ md: 480 m }',
      [`${MAIN}.length`]: '430 m',
    };
    expect(said('linear', shallow, 'cable.much-too-long')).toBeUndefined();
    expect(said('linear', { ...shallow, [`${MAIN}.length`]: '450 m' }, 'cable.much-too-long')).toMatch(/62 m more/);
  });
});

describe('a mistake of the pen is named', () => {
  it.each<['linear' | 'rotary', ExampleEdits, string, RegExp]>([
    ['rotary', { 'equipment.motor.power': '60.3 kW' }, 'nameplate.inconsistent', /hp that is entered in kW/],
    ['rotary', { 'equipment.motor.voltage': '664 V' }, 'nameplate.inconsistent', /phase voltage/],
    [
      'linear',
      { 'equipment.motor.pole_pitch': '90 mm' },
      'motor.speed-and-frequency-disagree',
      /enter half of it, 45 mm/,
    ],
    ['rotary', { 'equipment.motor.poles': '1' }, 'motor.speed-and-frequency-disagree', /Count poles, not pairs/],
    ['linear', { [`${MAIN}.resistance_20`]: '0.3505 ohm/km' }, 'cable.resistance-implausible', /per 1000 ft/],
    ['linear', { [`${MAIN}.resistance_20`]: '1.4 ohm/km' }, 'cable.resistance-implausible', /at 75 degC/],
    [
      'linear',
      { [`${MAIN}.conductor`]: '6 mm2', [`${MAIN}.resistance_20`]: '1.32 ohm/km' },
      'cable.size-not-standard',
      /resistance is that of 6 AWG/,
    ],
    ['linear', { [`${MAIN}.length`]: '4658 m' }, 'cable.shorter-than-depth-in-feet', /1420 m, in feet/],
  ])('%s %o: %s', (lift, edits, id, hint) => {
    expect(said(lift, edits, id)).toMatch(hint);
  });

  it('a conductor made to order is named by its area and is no mistake', () => {
    const edits = { [`${MAIN}.conductor`]: '250 kcmil', [`${MAIN}.resistance_20`]: null };
    expect(said('linear', edits, 'cable.size-not-standard')).toBeUndefined();
  });
});

describe('one cause is reported once', () => {
  const only = (lift: 'linear' | 'rotary', edits: ExampleEdits, cause: string, consequence: string) => {
    const file = checkEdited(lift, edits);
    expect(of(file, consequence)).toEqual([]);
    expect(relatedOf(file, cause)).toContain(`so also ${consequence}`);
  };

  it('a length in the other unit is not also a cable much too long with too large a drop', () => {
    const edits = { [`${MAIN}.length`]: '4658 m' };
    only('linear', edits, 'cable.shorter-than-depth-in-feet', 'cable.much-too-long');
    only('linear', edits, 'cable.shorter-than-depth-in-feet', 'cable.voltage-drop');
  });

  it('a cable too short keeps its error, with the unit as what may explain it', () => {
    only('linear', { [`${MAIN}.length`]: '1432 ft' }, 'cable.too-short', 'cable.shorter-than-depth-in-feet');
  });

  it('a linear motor too weak is told in newtons', () => {
    only('linear', { 'equipment.motor.thrust': '15 kN' }, 'pump.thrust', 'motor.overload');
  });

  it('an overloaded motor is not also close to its rating', () => {
    const file = checkEdited('rotary', { 'equipment.motor.power': '28 kW' });
    expect(of(file, 'motor.overload')).toHaveLength(1);
    expect(of(file, 'motor.near-rating')).toEqual([]);
  });

  it('a weak motor explains all that follows from it, however long the chain', () => {
    const edits = { 'equipment.motor.thrust': '10 kN', 'equipment.motor.insulation_temperature': '75 degC' };
    only('linear', edits, 'pump.thrust', 'motor.overload');
    only('linear', edits, 'pump.thrust', 'motor.winding-temperature');
  });

  it('tubing wider than the casing explains that nothing fits', () => {
    only('linear', { 'well.tubing.outer_diameter': '130 mm' }, 'well.tubing-in-casing', 'fit.clearance');
  });

  it('a plate that contradicts itself explains that it differs from its sheet', () => {
    only('rotary', { 'equipment.motor.power': '60 kW' }, 'nameplate.inconsistent', 'nameplate.differs');
  });

  it('a vertical depth beyond the hole is not also at odds with the survey', () => {
    only('linear', { 'well.intake.tvd': '1425 m' }, 'well.tvd-exceeds-md', 'well.survey-disagrees');
  });

  it('of several cases the worst is told', () => {
    const findings = of(checkEdited('linear', { 'equipment.motor.thrust': '15 kN' }), 'pump.thrust');
    expect(findings.map((each) => each.case)).toEqual(['pumped off']);
  });
});

describe('pump and well that do not come together', () => {
  const SLOW = { 'operation.cases[1].frequency': '30 Hz' };

  it('is one error, and what rests on the rate is not run', () => {
    const file = checkEdited('rotary', SLOW);
    expect(of(file, 'pump.no-operating-point').map(({ key }) => key)).toEqual(['operation.cases[1].frequency']);
    expect(said('rotary', SLOW, 'pump.no-operating-point')).toMatch(/does not reach the 732\.\d m/);
    for (const id of ['pump.shaft-power', 'motor.overload', 'cable.voltage-drop']) {
      expect([id, file.statuses.get(id)?.status]).toEqual([id, 'not_run']);
    }
  });

  it('says of a plunger that it draws more than the well gives', () => {
    const edits = { 'reservoir.productivity_index': '0.1 m3/d/bar' };
    expect(said('linear', edits, 'pump.no-operating-point')).toMatch(/^error: .*it pumps off/);
  });

  it('cannot be told without a reservoir, and says what it takes', () => {
    const { statuses } = checkEdited('rotary', { 'reservoir.pressure': null });
    expect(statuses.get('pump.no-operating-point')).toMatchObject({ status: 'not_run' });
    expect(JSON.stringify(statuses.get('pump.no-operating-point'))).toContain('reservoir.pressure');
  });
});

describe('a closed valve', () => {
  const RATING = 'well.wellhead.pressure_rating';
  const TRIP = 'setpoints.protection.wellhead_pressure_high';
  const shut = (trip: string | null) =>
    said('linear', { [RATING]: '70 bar', [TRIP]: trip }, 'pump.closed-valve-pressure');

  it('is harmless behind a trip that acts below the rating within a stroke', () => {
    expect(shut('{ trip: 60 bar, delay: 2 s }')).toBeUndefined();
  });

  it.each([
    ['none', null],
    ['one above the rating', '{ trip: 75 bar, delay: 2 s }'],
    ['one that is switched off', '{ enabled: no, trip: 60 bar, delay: 2 s }'],
    ['one that only warns', '{ trip: 60 bar, delay: 2 s, response: warn_only }'],
  ])('bursts the wellhead behind %s', (_, trip) => {
    expect(shut(trip)).toMatch(/^error: .*Set a high wellhead- or discharge-pressure trip/);
  });

  it('bursts it behind one that takes longer than a stroke', () => {
    expect(shut('{ trip: 60 bar, delay: 15 s }')).toMatch(/acts later than within a stroke/);
  });

  it('cannot be judged behind one whose delay is not entered', () => {
    const file = checkEdited('linear', { [RATING]: '70 bar', [TRIP]: '{ trip: 60 bar }' });
    expect(file.statuses.get('pump.closed-valve-pressure')).toMatchObject({ missing: [`${TRIP}.delay`] });
  });

  it('leaves a rotary pump time: it never passes its shut-off head', () => {
    const edits = { [RATING]: '100 bar', [TRIP]: '{ trip: 80 bar, delay: 60 s }' };
    expect(said('rotary', edits, 'pump.closed-valve-pressure')).toBeUndefined();
    expect(
      said(
        'rotary',
        { ...edits, [TRIP]: null, 'setpoints.protection.discharge_pressure_high': null },
        'pump.closed-valve-pressure',
      ),
    ).toMatch(/^error/);
  });
});

describe('who checked a revision', () => {
  const unreviewed = (edits: ExampleEdits) => checkEdited('linear', edits).statuses.get('revision.unreviewed')?.status;

  it('must be said, and be another person', () => {
    expect(unreviewed({ 'revision.checked_by': 'Drafting  Engineer' })).toBe('finding');
    expect(unreviewed({ 'revision.checked_by': '""' })).toBe('finding');
    expect(unreviewed({ 'revision.checked_by': null })).toBe('not_run');
    expect(unreviewed({ revision: null })).toBe('not_applicable');
  });
});

describe('what does not concern a lift', () => {
  it.each([
    ['linear', ['pump.shaft-power', 'pump.gas-interference', 'cable.start-voltage', 'pump.curve-not-falling']],
    ['rotary', ['pump.thrust', 'pump.differential-pressure', 'pump.cycle-inconsistent', 'motor.magnet-temperature']],
  ] as const)('is not applicable to a %s one', (lift, ids) => {
    const { statuses } = checkEdited(lift);
    expect(ids.map((id) => statuses.get(id)?.status)).toEqual(ids.map(() => 'not_applicable'));
  });
});

describe('an entry that overrides its data sheet', () => {
  const differs = (edits: ExampleEdits) => of(checkEdited('linear', edits), 'nameplate.differs').map(({ key }) => key);

  it('may say the same in other words', () => {
    expect(differs({ 'equipment.motor.voltage': '0.62 kV', 'equipment.pump.plunger_diameter': '4.4 cm' })).toEqual([]);
    expect(differs({ [`${MAIN}.ampacity`]: '{ conductor_rise: 35 K, current: 80 A }' })).toEqual([]);
  });

  it('differs where a part of it is left out, since it replaces all', () => {
    expect(differs({ [`${MAIN}.ampacity`]: '{ current: 80 A }' })).toEqual([`${MAIN}.ampacity`]);
  });
});
