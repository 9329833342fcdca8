import { describe, expect, it, test } from 'vitest';
import { buildChecklist, Repository } from '../../../server/src/engine/index.ts';
import { checklistOf, PLAIN_ROTARY, stepNamed, stepsOf } from './project.ts';

const WELL = 'wells/t2-07.yaml';
const LINEAR = checklistOf();

function idsOf(checklist: typeof LINEAR): readonly string[] {
  return stepsOf(checklist).map(({ id }) => id);
}

describe('a joint that two sheets tell of', () => {
  const twice = checklistOf({ 'eq/pump.yaml': [['joins: pump to tubing', 'joins: Motor to pump']] });

  it('is told to be one at both', () => {
    const steps = stepsOf(twice).filter(({ note = '' }) => note.includes('The same joint as'));
    expect(steps.map(({ id }) => id).sort()).toEqual([
      'running_in.motor.head_flange',
      'running_in.pump.discharge_head',
    ]);
    expect(stepNamed(twice, 'running_in.motor.head_flange').note).toContain("'running_in.pump.discharge_head'");
  });

  it('is not seen where there is none', () => {
    expect(stepsOf(LINEAR).filter(({ note = '' }) => note.includes('The same joint as'))).toEqual([]);
  });
});

describe('shape', () => {
  it('has the eight stages in working order, none empty', () => {
    const ids = ['cover', 'before_leaving', 'inspection', 'running_in', 'surface', 'settings', 'start', 'handover'];
    for (const checklist of [LINEAR, checklistOf(PLAIN_ROTARY)]) {
      expect(checklist.stages.map(({ id }) => id)).toEqual(ids);
      expect(checklist.stages.every(({ steps }) => steps.length > 0)).toBe(true);
    }
  });

  it('has well over fifty steps for a linear well', () => {
    expect(stepsOf(LINEAR).length).toBeGreaterThan(150);
  });

  it('gives every step an id of its own, a kind and a text', () => {
    const ids = idsOf(LINEAR);
    expect(new Set(ids).size).toBe(ids.length);
    for (const each of stepsOf(LINEAR)) {
      expect(each.text, each.id).toMatch(/\S/);
      expect(`${each.text} ${each.note ?? ''}`, each.id).not.toMatch(/undefined|NaN|Infinity|\[object/);
    }
  });

  it('keeps ids when numbers, names of people and serial numbers change', () => {
    const revised = checklistOf({
      [WELL]: [
        ['md: 1420 m, tvd: 1395 m', 'md: 1425 m, tvd: 1400 m'],
        ['tap: 6, voltage: 1200 V', 'tap: 1, voltage: 900 V'],
        ['trip: 12 bar, alarm: 15 bar', 'trip: 13 bar, alarm: 16 bar'],
        ['number: B', 'number: C'],
        ['LM-0472', 'LM-0500'],
      ],
      'eq/motor.yaml': [['min: 200 Mohm', 'min: 300 Mohm']],
    });
    expect(idsOf(revised)).toEqual(idsOf(LINEAR));
    expect(revised.fingerprint).not.toBe(LINEAR.fingerprint);
  });

  it('is the same for the same file', () => {
    expect(JSON.stringify(checklistOf())).toBe(JSON.stringify(LINEAR));
  });

  it('refuses a document that is no installation', () => {
    const repository = Repository.empty({ root: '/p', today: '2026-03-20' }).update([
      { path: '/p/pump.yaml', text: 'document: pump/1\nname: x\n' },
    ]);
    const pump = repository.check('/p/pump.yaml');
    expect(() => buildChecklist(pump!, { units: 'as-written' })).toThrow(/no checklist.*pump\/1/);
  });
});

describe('cautions', () => {
  /** Step, and the caution that must have been read before it in its stage. */
  const PAIRS = [
    ['inspection.unloading', 'inspection.caution_load'],
    ['inspection.unloading', 'inspection.caution_magnets'],
    ['inspection.motor.free_movement', 'inspection.motor.caution_movement'],
    ['inspection.motor.free_movement', 'inspection.caution_magnetic_field'],
    ['inspection.motor.insulation', 'inspection.motor.caution_insulation'],
    ['inspection.cable.insulation', 'inspection.cable.caution_insulation'],
    ['inspection.motor.serial', 'inspection.motor.caution_1'],
    ['running_in.barriers', 'running_in.caution_pressure'],
    ['running_in.barriers', 'running_in.caution_sour'],
    ['running_in.exclusion', 'running_in.caution_reel'],
    ['running_in.motor.head_flange', 'running_in.caution_magnets'],
    ['running_in.insulation.running', 'running_in.way_down.caution_insulation'],
    ['running_in.insulation.landed', 'running_in.landing.caution_column'],
    ['surface.lockout', 'surface.caution_isolation'],
    ['surface.earth_resistance', 'surface.caution_earthing'],
    ['surface.wiring.cable', 'surface.caution_stored'],
    ['surface.wiring.cable', 'surface.caution_magnets'],
    ['surface.cable.insulation', 'surface.caution_insulation'],
    ['surface.transformer.tap', 'surface.caution_tap'],
    ['settings.start.override', 'settings.caution_override'],
    ['settings.restart.mode', 'settings.caution_automatic'],
    ['start.first', 'start.caution_closed_valve'],
    ['start.first', 'start.caution_automatic'],
    ['start.first', 'start.caution_override'],
    ['before_leaving.lifting.heaviest', 'before_leaving.caution_sling'],
  ] as const;

  test.each(PAIRS)('before %s stands %s', (step, caution) => {
    const ids = idsOf(LINEAR);
    expect(stepNamed(LINEAR, caution).kind).toBe('caution');
    expect(ids).toContain(step);
    expect(ids.indexOf(caution)).toBeLessThan(ids.indexOf(step));
  });

  it('says what is dangerous in plain words', () => {
    const all = stepsOf(LINEAR)
      .filter(({ kind }) => kind === 'caution')
      .map(({ text }) => text)
      .join('\n');
    for (const word of [
      /prove it dead/,
      /generates voltage whenever it is turned or moved/,
      /pacemakers/,
      /discharge time/,
      /drive and the gauge/,
      /both sides isolated/,
      /Earthing comes before anything else/,
      /bleed down/,
      /never started against a closed valve/,
      /breathing apparatus/,
      /fit for the zone/,
      /suspended load/,
      /angle/,
      /exclusion zone/,
      /reel/,
      /at any time, without warning/,
      /Somebody attends/,
    ]) {
      expect(all).toMatch(word);
    }
  });

  it('defers to the maker, the site, the codes and licensed people', () => {
    expect(LINEAR.deferral).toMatch(/maker’s manual.*site’s rules.*local codes.*licensed practice/);
    expect(stepNamed(LINEAR, 'cover.deferral').kind).toBe('caution');
  });
});

describe('only what concerns the installation', () => {
  const plain = checklistOf(PLAIN_ROTARY);
  const text = JSON.stringify(plain.stages);

  test.each([
    ['magnets', /permanent-magnet|Magnets|magnets/],
    ['hydrogen sulphide', /hydrogen sulphide|H2S/],
    ['a classified area', /classified/],
    ['automatic restart', /restarts by itself|Starts by itself/],
    ['the override', /first-start override/],
    ['strokes', /strokes|plunger pump has/i],
    ['a gauge', /star point|gauge’s surface unit/],
  ])('a plain rotary well says nothing of %s', (_, words) => {
    expect(JSON.stringify(LINEAR.stages)).toMatch(words);
    expect(text).not.toMatch(words);
  });

  it('has the direction of rotation for a rotary pump and no drive where there is none', () => {
    const ids = idsOf(plain);
    expect(ids).toContain('start.direction');
    expect(ids.some((id) => id.startsWith('inspection.drive.'))).toBe(false);
    expect(stepNamed(plain, 'surface.earth_resistance').text).not.toContain('drive');
  });

  it('treats a motor whose type is not known as one with magnets', () => {
    const unknown = checklistOf({ 'eq/motor.yaml': [['type: linear_permanent_magnet\n', '']] });
    expect(idsOf(unknown)).toContain('surface.caution_magnets');
  });

  it('asks about H2S where the file does not say', () => {
    const silent = checklistOf({ [WELL]: [[', h2s: 40 ppm', '']] });
    expect(stepNamed(silent, 'before_leaving.documents.sour_unknown').text).toContain("'fluid.h2s'");
  });
});

describe('numbers', () => {
  it('takes test voltage, duration and minimum of an insulation test from the sheet', () => {
    const step = stepNamed(LINEAR, 'inspection.motor.insulation');
    expect(step).toMatchObject({ kind: 'read', unit: 'Mohm', limit: { min: 200 } });
    expect(step.text).toContain('1000 V d.c. after 1 min');
  });

  it('never tests the installed string above what its gauge stands', () => {
    const weak = checklistOf({ 'eq/gauge.yaml': [['test_voltage_max: 1000 V', 'test_voltage_max: 500 V']] });
    for (const id of ['running_in.insulation.running', 'running_in.insulation.landed', 'surface.cable.insulation']) {
      expect(stepNamed(weak, id).text).toContain('at 500 V d.c.');
    }
    expect(stepNamed(weak, 'inspection.motor.insulation').text).toContain('at 1000 V d.c.');
  });

  it('expects the winding resistance through the lead, with the sheet’s unbalance', () => {
    const step = stepNamed(LINEAR, 'inspection.motor.winding_resistance');
    // 6 ohm and twice 12 m of 1.83 ohm/km (IEC 60228, 10 mm2); ±10 %.
    expect(step).toMatchObject({ expected: 6.044, limit: { min: 5.44, max: 6.648 }, fields: ['A-B', 'B-C', 'C-A'] });
    expect(step.text).toContain('2 %');
  });

  it('works out the least insulation of the cable from its length', () => {
    expect(stepNamed(LINEAR, 'inspection.cable.insulation').limit).toEqual({ min: 347.2 });
  });

  it('shows the gauge zero in open air within its accuracy', () => {
    const step = stepNamed(LINEAR, 'inspection.gauge.zero');
    expect(step).toMatchObject({ unit: 'bar(g)', expected: 0, limit: { min: -0.5, max: 0.5 } });
  });

  it('shows the air’s own pressure for a gauge that reads absolute', () => {
    const absolute = checklistOf({
      'eq/gauge.yaml': [['signal: star_point', 'signal: star_point\npressure_reference: absolute']],
    });
    const step = stepNamed(absolute, 'inspection.gauge.zero');
    // ISO 2533 at 340 m: 0.973 bar.
    expect(step).toMatchObject({ unit: 'bar(a)', expected: 0.9731 });
  });

  it('plans each setpoint with its unit and its window', () => {
    expect(stepNamed(LINEAR, 'settings.protection.overload.trip')).toMatchObject({
      kind: 'set',
      planned: 15,
      unit: 'A',
    });
    const trip = stepNamed(LINEAR, 'settings.protection.intake_pressure_low.trip');
    expect(trip).toMatchObject({ planned: 12, unit: 'bar(g)' });
    expect(trip.limit?.min).toBeLessThan(12);
    expect(trip.limit?.max).toBeGreaterThan(12);
    expect(stepNamed(LINEAR, 'settings.transformer.tap').planned).toBe('6');
    expect(stepNamed(LINEAR, 'settings.restart.after').planned).toBe('underload, intake pressure low');
  });

  it('names the tap with its voltage, window and reason', () => {
    const step = stepNamed(LINEAR, 'surface.transformer.tap');
    expect(step.text).toBe('Connect tap 6, 1200 V, on all three phases.');
    expect(step.note).toMatch(/Window: \d+ V to \d+ V\..*in the case 'start on kill fluid'/);
  });

  it('expects currents, voltages and pressures case by case, each with a band', () => {
    const step = stepNamed(LINEAR, 'start.case.target.motor_current');
    expect(step).toMatchObject({ case: 'target', unit: 'A', source: 'common practice, no source' });
    expect(step.limit?.min).toBeCloseTo((step.expected ?? 0) * 0.8, 1);
    expect(step.limit?.max).toBeCloseTo((step.expected ?? 0) * 1.1, 1);
    for (const name of ['frequency', 'surface_voltage', 'drive_voltage', 'drive_current', 'motor_temperature']) {
      expect(stepNamed(LINEAR, `start.case.pumped_off.${name}`).limit, name).toBeDefined();
    }
  });

  it('lets the motor’s sensor read less than the winding that is computed', () => {
    const { expected = 0, limit, note } = stepNamed(LINEAR, 'start.case.target.motor_temperature');
    expect(limit?.min).toBeCloseTo(expected - 25, 1);
    expect(limit?.max).toBeCloseTo(expected + 10, 1);
    expect(note).toBe('Band −25/+10 K.');
  });

  it('adds the column between intake and gauge to the expected pressure', () => {
    const atIntake = checklistOf({ [WELL]: [[', below_intake: 6 m', '']] });
    const id = 'start.case.start_on_kill_fluid.intake_pressure';
    const difference = (stepNamed(LINEAR, id).expected ?? 0) - (stepNamed(atIntake, id).expected ?? 0);
    // 1180 kg/m3 × 9.80665 m/s2 × 6 m = 0.694 bar.
    expect(difference).toBeCloseTo(0.694, 1);
  });

  it('holds torque limits, and collects wrenches, seals and fills from the joints', () => {
    expect(stepNamed(LINEAR, 'running_in.motor.head_flange')).toMatchObject({
      unit: 'N.m',
      limit: { min: 48, max: 52 },
    });
    expect(stepNamed(LINEAR, 'running_in.motor.head_flange').note).toContain('lbf.ft');
    expect(stepNamed(LINEAR, 'before_leaving.tools.17_mm_12_point_socket').text).toContain('17 mm (0.669 in)');
    expect(stepNamed(LINEAR, 'before_leaving.tools.torque_wrench').note).toContain('48 N.m');
    expect(stepNamed(LINEAR, 'before_leaving.tools.torque_wrench').note).toContain('2100 N.m');
    const ids = idsOf(LINEAR);
    expect(ids.indexOf('running_in.motor.head_flange.fill')).toBeLessThan(ids.indexOf('running_in.motor.head_flange'));
    expect(ids).toContain('before_leaving.consumables.seal_2_o_rings_78_x_3_5');
  });

  it('holds the sling against the heaviest lift', () => {
    const step = stepNamed(LINEAR, 'before_leaving.lifting.sling');
    expect(step).toMatchObject({ unit: 'kg', planned: 4000, limit: { min: 3625 } });
  });

  it('says the length of cable left over', () => {
    expect(stepNamed(LINEAR, 'running_in.cable_left')).toMatchObject({ unit: 'm', expected: 32 });
  });

  it('has the times of the first day', () => {
    const step = stepNamed(LINEAR, 'start.log.current_a');
    expect(step.fields).toEqual(['0 min', '5 min', '15 min', '30 min', '60 min', '2 h', '4 h', '8 h', '24 h']);
    expect(step.source).toBe('common practice, no source');
  });

  it('writes in the other system when asked', () => {
    const oilfield = checklistOf({}, 'oilfield');
    expect(stepNamed(oilfield, 'settings.protection.intake_pressure_low.trip')).toMatchObject({
      planned: 174,
      unit: 'psi(g)',
    });
    expect(stepNamed(oilfield, 'running_in.cable_left')).toMatchObject({ unit: 'ft', expected: 105 });
    expect(stepNamed(oilfield, 'running_in.motor.head_flange').unit).toBe('lbf.ft');
    expect(idsOf(oilfield)).toEqual(idsOf(LINEAR));
    const metric = checklistOf({ [WELL]: [['trip: 12 bar,', 'trip: 174 psi,']] }, 'metric');
    expect(stepNamed(metric, 'settings.protection.intake_pressure_low.trip')).toMatchObject({
      planned: 12,
      unit: 'bar(g)',
    });
  });
});

describe('what is not known', () => {
  test.each([
    ['inspection.motor.insulation', { 'eq/motor.yaml': [[', limit: { min: 200 Mohm }', '']] }, 'limit.min'],
    ['inspection.motor.serial', { [WELL]: [[', serial: LM-0472', '']] }, 'equipment.motor.serial'],
    ['inspection.gauge.zero', { 'eq/gauge.yaml': [[', accuracy: 0.5 bar', '']] }, 'accuracy'],
    ['running_in.motor.head_flange', { 'eq/motor.yaml': [[', torque: { min: 48 N.m, max: 52 N.m }', '']] }, 'torque'],
    ['running_in.bend_radius', { 'eq/cable.yaml': [['min_bend_radius: 600 mm\n', '']] }, 'min_bend_radius'],
    ['surface.supply.voltage', { [WELL]: [[', tolerance: 10 %', '']] }, 'supply.tolerance'],
    ['start.case.target.motor_current', { 'eq/motor.yaml': [['thrust: 20 kN\n', '']] }, 'equipment.motor.thrust'],
  ] as const)('%s says which entry would give its limit', (id, changes, entry) => {
    const step = stepNamed(checklistOf(changes), id);
    expect(step.limit).toBeUndefined();
    expect(step.note).toContain(entry);
  });

  it('asks for a setpoint that has a window and is not in the file', () => {
    const without = checklistOf({ [WELL]: [['trip: 12 bar, ', '']] });
    expect(stepNamed(without, 'settings.missing.protection.intake_pressure_low.trip').note).toMatch(
      /Window: .*Recommended: /,
    );
  });

  it('has every stage for an installation that says next to nothing', () => {
    const repository = Repository.empty({ root: '/p', today: '2026-03-20' }).update([
      { path: '/p/w.yaml', text: 'document: installation/1\nsite: { well: W }\nlift: linear\n' },
    ]);
    const bare = buildChecklist(repository.check('/p/w.yaml')!, { units: 'as-written' });
    expect(bare.stages).toHaveLength(8);
    expect(bare.stages.every(({ steps }) => steps.length > 0)).toBe(true);
  });
});

describe('open points', () => {
  it('bands an installation with errors and says so on the cover', () => {
    const broken = checklistOf({ [WELL]: [['trip: 12 bar,', 'trip: 900 bar,']] });
    expect(broken.overview.counts.errors).toBeGreaterThan(0);
    expect(broken.band).toContain('Do not set up the well from this sheet');
    expect(stepNamed(broken, 'cover.errors').kind).toBe('caution');
    expect(broken.overview.findings.some(({ check }) => check.startsWith('intake-trip.'))).toBe(true);
    expect(LINEAR.band).toBeUndefined();
  });

  it('is signed before running in, before energising, before automatic operation and at handover', () => {
    const holds = stepsOf(LINEAR).flatMap(({ id, kind }) => (kind === 'hold' ? [id] : []));
    expect(holds).toEqual([
      'running_in.hold',
      'surface.hold_energise',
      'start.hold',
      'start.hold_automatic',
      'handover.hold',
    ]);
  });

  it('carries the company’s own steps in their stage, before the signature that closes it', () => {
    const policy = `document: policy/1
steps:
  surface:
    - { id: company.photo, text: Photograph the box., kind: read, unit: pieces, limit: { min: 2 } }
    - { id: surface.lockout, text: Twice the same name. }
`;
    const own = checklistOf({}, 'as-written', policy);
    const ids = own.stages.find(({ id }) => id === 'surface')?.steps.map(({ id }) => id) ?? [];
    expect(ids.slice(-3)).toEqual(['company.photo', 'surface.lockout_2', 'surface.hold_energise']);
    expect(new Set(idsOf(own)).size).toBe(idsOf(own).length);
  });
});
