import { capitalise } from '../../text/words.ts';
import { warn } from '../cautions.ts';
import { ofConductors, throughLead } from '../expected-resistance.ts';
import type { Facts } from '../facts.ts';
import { type Item, itemsOf, nameOf } from '../items.ts';
import { rounded, shown } from '../notation.ts';
import { type ItemTest, testsOf } from '../sheet-tests.ts';
import { act, caution, only, read, type Step, type StepDetails, type StepLimit, under } from '../step.ts';
import { insulationStep, PHASES } from '../test-steps.ts';

/** Stage 2: every item against the file and its data sheet, before it is assembled. */
export function inspection(facts: Facts): readonly Step[] {
  return [
    ...under('Unloading', unloading(facts)),
    ...itemsOf(facts).flatMap((item) => under(capitalise(item.title), inspectItem(facts, item))),
  ];
}

function unloading(facts: Facts): readonly Step[] {
  return [
    warn('inspection', 'load'),
    warn('inspection', 'sling'),
    ...only(facts.hasMagnets, warn('inspection', 'magnets'), warn('inspection', 'magneticField')),
    act(
      'inspection.unloading',
      'Unload with the lifting gear of this sheet; lay long items on at least three supports.',
    ),
    act('inspection.shocks', 'Look at shock indicators and packing before opening; photograph what is broken.'),
  ];
}

function inspectItem(facts: Facts, item: Item): readonly Step[] {
  const id = (name: string) => `inspection.${item.id}.${name}`;
  const own = facts.rows(`${item.key}.cautions`);
  return [
    ...own.map((row, index) =>
      caution(id(`caution_${index + 1}`), row.own, { source: `data sheet of ${nameOf(facts, item)}` }),
    ),
    serial(facts, item),
    nameplate(facts, item),
    act(id('transport'), `Look for transport damage on the ${item.title}: dents, bends, cuts, leaks, corrosion.`),
    act(id('covers'), coversText(item)),
    ...tests(facts, item),
    ...only(item.kind === 'gauge', ...gaugeReadings(facts)),
  ];
}

function serial(facts: Facts, item: Item): Step {
  const entry = `${item.key}.serial`;
  const planned = facts.text(entry);
  const note = planned === undefined ? `The file has none to compare with: enter '${entry}'.` : undefined;
  return read(
    `inspection.${item.id}.serial`,
    `Read the serial number of the ${item.title} and compare it with the file.`,
    { planned, note },
  );
}

const PLATE: Readonly<Record<Item['kind'], readonly (readonly [title: string, key: string])[]>> = {
  motor: [
    ['voltage', 'voltage'],
    ['current', 'current'],
    ['frequency', 'frequency'],
    ['power', 'power'],
    ['thrust', 'thrust'],
    ['speed', 'speed'],
    ['outer diameter', 'outer_diameter'],
  ],
  pump: [
    ['plunger', 'plunger_diameter'],
    ['longest stroke', 'stroke_max'],
    ['stages', 'stages'],
    ['outer diameter', 'outer_diameter'],
  ],
  gauge: [
    ['intake pressure up to', 'measures.intake_pressure.max'],
    ['temperature up to', 'temperature_max'],
  ],
  cable: [
    ['conductor', 'conductor'],
    ['voltage class', 'voltage_class'],
    ['length', 'length'],
    ['insulation', 'insulation'],
  ],
  transformer: [
    ['power', 'power'],
    ['primary', 'primary_voltage'],
    ['frequency', 'frequency'],
    ['impedance', 'impedance'],
  ],
  drive: [
    ['input', 'input_voltage'],
    ['output', 'output_voltage'],
    ['output current', 'output_current'],
  ],
};

function nameplate(facts: Facts, item: Item): Step {
  const plate = PLATE[item.kind].flatMap(([title, key]) => {
    const value = facts.show(`${item.key}.${key}`);
    return value === undefined ? [] : [`${title} ${value}`];
  });
  const text = `Compare the nameplate with the file: ${nameOf(facts, item)}${plate.length === 0 ? '' : `: ${plate.join(', ')}`}.`;
  const note = plate.length === 0 ? `Nothing is known of it: enter '${item.key}.datasheet'.` : undefined;
  return act(`inspection.${item.id}.nameplate`, text, { note });
}

function coversText({ kind, title }: Item): string {
  if (kind === 'cable')
    return `See that both ends of the ${title} are capped and dry, the armour whole, the reel sound.`;
  if (kind === 'transformer')
    return 'See that the transformer’s covers and bushings are whole, and the oil, if any, at its mark.';
  if (kind === 'drive') return 'See that the drive’s doors, fans and filters are whole and that it is dry inside.';
  return `See that shipping covers and seals of the ${title} are in place and unbroken; leave them on until make-up.`;
}

function tests(facts: Facts, item: Item): readonly Step[] {
  const all = testsOf(facts, item);
  const insulated = all.some(({ nature }) => nature === 'insulation');
  const temperature = facts.notation.unit('degC');
  const temperatureStep = insulated ? `inspection.${item.id}.temperature` : undefined;
  return [
    ...only(
      insulated,
      read(
        `inspection.${item.id}.temperature`,
        `Read the temperature of the ${item.title}: insulation and resistance go with it.`,
        { unit: temperature },
      ),
    ),
    ...all.flatMap((test) => testSteps(facts, item, test, temperatureStep)),
  ];
}

function testSteps(facts: Facts, item: Item, test: ItemTest, temperatureStep: string | undefined): readonly Step[] {
  const at = `inspection.${item.id}`;
  switch (test.nature) {
    case 'insulation':
      return [warn(at, 'insulation'), insulationStep(facts, item, test, `${at}.${test.id}`)];
    case 'resistance':
      return [{ ...resistanceStep(facts, item, test), temperatureStep }];
    case 'movement':
      return [...only(moves(facts, item), warn(at, 'movement')), movementStep(item, test)];
    case 'other':
      return [otherStep(item, test)];
  }
}

/** Whether moving it by hand can generate voltage: the motor itself, or a pump that is coupled to its mover. */
function moves(facts: Facts, item: Item): boolean {
  return facts.hasMagnets && (item.kind === 'motor' || item.kind === 'pump');
}

function movementStep(item: Item, test: ItemTest): Step {
  const text = `${capitalise(test.name)}: move the ${item.title} by hand over its full travel; it goes evenly, without catching or scraping.`;
  return measured(item, test, text);
}

function otherStep(item: Item, test: ItemTest): Step {
  const held = test.duration === undefined ? '' : ` for ${shown(test.duration)}`;
  const live = test.voltage === undefined ? '' : ` at ${shown(test.voltage)}`;
  return measured(item, test, `${capitalise(test.name)} of the ${item.title}${live}${held}, as its data sheet asks.`);
}

/** A number to read where the sheet gives a limit, else a tick. */
function measured(item: Item, test: ItemTest, text: string): Step {
  const id = `inspection.${item.id}.${test.id}`;
  const limit = limitOf(test);
  const unit = (test.min ?? test.max)?.unit;
  if (limit !== undefined) return read(id, text, { limit, unit, source: 'data sheet' });
  return test.instrument === undefined ? act(id, text) : read(id, text, { note: `With: ${test.instrument}.` });
}

function limitOf({ min, max }: ItemTest): StepLimit | undefined {
  return min === undefined && max === undefined ? undefined : { min: min?.number, max: max?.number };
}

function resistanceStep(facts: Facts, item: Item, test: ItemTest): Step {
  const id = `inspection.${item.id}.${test.id}`;
  const share = test.unbalance ?? facts.evaluation.limit('readings.winding-unbalance');
  const unbalance = `No reading is more than ${rounded(share * 100)} % of the mean away from the mean.`;
  const what = item.kind === 'cable' ? 'both far ends joined' : 'line to line';
  const text = `${capitalise(test.name)} of the ${item.title}, ${what}, A-B, B-C and C-A. ${unbalance}`;
  return read(id, text, { fields: PHASES, unbalanceMax: share, ...resistanceDetails(facts, item, test) });
}

function resistanceDetails(facts: Facts, item: Item, test: ItemTest): StepDetails {
  const limit = limitOf(test);
  const expected =
    item.kind === 'motor' ? throughLead(facts) : item.kind === 'cable' ? ofConductors(facts, item) : undefined;
  const unit = (test.min ?? test.max)?.unit ?? 'ohm';
  if (expected === undefined) {
    const entry = item.kind === 'motor' ? 'equipment.motor.phase_resistance' : `${item.key}.inspection`;
    return {
      unit,
      limit,
      note: limit === undefined ? `A limit is not known: enter '${entry}', or the test’s 'limit'.` : undefined,
    };
  }
  const note = `Expected ${facts.showNumber(expected.ohms, 'resistance', 'equipment.motor.phase_resistance')} ${expected.basis}; 0.39 % more for each K above.`;
  if (limit !== undefined) return { unit, limit, note, source: 'data sheet' };
  const measure = facts.notation.ofNumber(
    expected.ohms,
    'resistance',
    facts.quantity('equipment.motor.phase_resistance'),
  );
  const share = facts.evaluation.limit('readings.unexpected-resistance');
  return {
    unit: measure.unit,
    expected: measure.number,
    limit: { min: rounded(measure.number * (1 - share)), max: rounded(measure.number * (1 + share)) },
    note,
    source: 'policy readings.unexpected-resistance; common practice, no source',
  };
}

function gaugeReadings(facts: Facts): readonly Step[] {
  return [
    act(
      'inspection.gauge.warm_up',
      `Connect the gauge to its surface unit and let it warm up${waiting(facts)} before reading.`,
    ),
    ...only(facts.measures('intake_pressure'), gaugePressure(facts)),
    ...only(facts.measures('motor_temperature') || facts.measures('intake_temperature'), gaugeTemperature(facts)),
  ];
}

function waiting(facts: Facts): string {
  const time = facts.show('equipment.gauge.warm_up');
  return time === undefined ? " (its data sheet gives no 'warm_up')" : ` for ${time}`;
}

/** In the workshop a gauge shows zero gauge pressure, or the air's pressure if it reads absolute. */
function gaugePressure(facts: Facts): Step {
  const channel = 'equipment.gauge.measures.intake_pressure';
  const reference = facts.text('equipment.gauge.pressure_reference') === 'absolute' ? 'absolute' : 'gauge';
  const air = facts.evaluation.installation.atmosphere;
  const like = facts.quantity(`${channel}.max`);
  const expected = facts.notation.ofNumber(air, 'pressure', like, reference);
  const accuracy = facts.number(`${channel}.accuracy`);
  const text =
    'Read the gauge’s pressure in open air: zero gauge pressure, or the air’s own pressure where it reads absolute.';
  if (accuracy === undefined) {
    return read('inspection.gauge.zero', text, {
      unit: expected.unit,
      expected: expected.number,
      note: `A limit is not known: enter '${channel}.accuracy'.`,
    });
  }
  const end = (sign: number) => facts.notation.ofNumber(air + sign * accuracy, 'pressure', like, reference).number;
  return read('inspection.gauge.zero', text, {
    unit: expected.unit,
    expected: expected.number,
    limit: { min: end(-1), max: end(1) },
    note: 'Within the gauge’s accuracy of the air’s pressure at this elevation.',
    source: 'data sheet',
  });
}

function gaugeTemperature(facts: Facts): Step {
  const channel = facts.measures('motor_temperature') ? 'motor_temperature' : 'intake_temperature';
  const entry = `equipment.gauge.measures.${channel}.accuracy`;
  const accuracy = facts.show(entry);
  return read(
    'inspection.gauge.ambient',
    'Read the gauge’s temperature beside a thermometer, both after an hour in the shade.',
    {
      unit: facts.notation.unit(facts.quantity(`equipment.gauge.measures.${channel}.max`)?.unit ?? 'degC'),
      fields: ['gauge', 'thermometer'],
      note: accuracy === undefined ? `A limit is not known: enter '${entry}'.` : `The two agree within ${accuracy}.`,
    },
  );
}
