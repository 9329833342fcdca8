import type { Measure } from '../../findings/finding.ts';
import { GRAVITY } from '../../values/physics.ts';
import { BAND_SOURCE, type BandName, bandAround, bandRule } from '../bands.ts';
import { gasCautions, restartCautions, warn } from '../cautions.ts';
import { type Facts, lacking } from '../facts.ts';
import { act, caution, hold, only, read, type Step, slugs, under } from '../step.ts';

/** Stage 6: permission, the start itself, what the instruments should show, and the first hours. */
export function start(facts: Facts): readonly Step[] {
  return [
    ...under('Before the start', before(facts)),
    ...under('Start', starting(facts)),
    ...expectedReadings(facts),
    ...under('When a reading is outside its band', outside()),
    ...under('First hours', firstHours(facts)),
    ...under('Automatic operation', automatic(facts)),
  ];
}

function before(facts: Facts): readonly Step[] {
  const pressure = facts.notation.ofNumber(facts.evaluation.installation.atmosphere, 'pressure').unit;
  return [
    warn('start', 'closedValve'),
    ...only(facts.isLinear, warn('start', 'plunger')),
    ...gasCautions(facts, 'start'),
    act('start.valves', 'Open wellhead, wing and flow-line valves, and see that tank or separator is ready.'),
    read('start.tubing_pressure', 'Read the tubing pressure before the start.', {
      unit: pressure,
      note: planned(facts, 'well.wellhead.tubing_pressure'),
    }),
    read('start.casing_pressure', 'Read the casing pressure before the start.', {
      unit: pressure,
      note: planned(facts, 'well.wellhead.casing_pressure'),
    }),
    ...only(facts.measures('intake_pressure'), restingIntake(facts)),
    ...only(facts.measures('intake_temperature'), restingTemperature(facts)),
    ...restartCautions(facts, 'start'),
    ...only(facts.holdsOffTrips, warn('start', 'override')),
    ...only(facts.hasMagnets || !facts.isLinear, warn('start', 'column')),
    act('start.people', 'See that nobody is at wellhead, cable or transformer, and that the site knows of the start.'),
    hold('start.hold', 'Hold: do not start without the permission of the site and the person in charge.'),
  ];
}

function planned(facts: Facts, key: string): string {
  const value = facts.show(key);
  return value === undefined ? `The file has none to compare with: enter '${key}'.` : `The file has ${value}.`;
}

/** With the well at rest the gauge shows whether reservoir pressure and depth are what the file says. */
function restingIntake(facts: Facts): Step {
  const at = Math.max(0, facts.evaluation.eachCaseText('intake').indexOf('static'));
  const text = 'Read the intake pressure before the start, the well at rest.';
  const answer = facts.value('intake.static_pressure', at);
  const measure = atGauge(facts, answer?.number, at);
  if (measure === undefined) {
    const entries = answer?.number === undefined ? (answer?.missing ?? ['reservoir.pressure']) : [];
    return read('start.intake_pressure', text, {
      unit: gaugeUnit(facts),
      note: lacking('The expected value', entries),
    });
  }
  return read(
    'start.intake_pressure',
    text,
    banded(measure, 'pressure', `Static pressure of the case '${facts.evaluation.caseName(at)}'`),
  );
}

function restingTemperature(facts: Facts): Step {
  const measure = facts.valueMeasure('intake.temperature');
  const text = 'Read the temperature at the intake before the start.';
  if (measure === undefined) return read('start.intake_temperature', text, { unit: facts.notation.unit('degC') });
  return read('start.intake_temperature', text, banded(measure, 'temperature', 'By the well’s temperatures'));
}

function gaugeUnit(facts: Facts): string {
  const channel = facts.quantity('equipment.gauge.measures.intake_pressure.max');
  return facts.notation.ofNumber(0, 'pressure', channel, gaugeReference(facts)).unit;
}

function gaugeReference(facts: Facts): 'gauge' | 'absolute' | undefined {
  const reference = facts.text('equipment.gauge.pressure_reference');
  return reference === 'gauge' || reference === 'absolute' ? reference : undefined;
}

/** What the gauge shows for a pressure at the intake: it may hang below it, and count from vacuum. */
function atGauge(facts: Facts, pressure: number | undefined, caseIndex: number): Measure | undefined {
  if (pressure === undefined) return undefined;
  const below = facts.number('equipment.gauge.below_intake') ?? 0;
  const density = facts.value('fluid.liquid_density', caseIndex)?.number ?? 0;
  const channel =
    facts.quantity('setpoints.protection.intake_pressure_low.trip') ??
    facts.quantity('equipment.gauge.measures.intake_pressure.max');
  return facts.notation.ofNumber(pressure + density * GRAVITY * below, 'pressure', channel, gaugeReference(facts));
}

function banded(measure: Measure, band: BandName, basis?: string) {
  return {
    unit: measure.unit,
    expected: measure.number,
    limit: bandAround(measure, band),
    note: `${basis === undefined ? '' : `${basis}. `}Band ${bandRule(band, measure.unit)}.`,
    source: BAND_SOURCE,
  };
}

function starting(facts: Facts): readonly Step[] {
  return [
    act(
      'start.first',
      facts.isLinear ? 'Start at the slowest stroke rate, and let it make a few strokes.' : startRotary(facts),
    ),
    read('start.time', 'Write down the time of the start.', { fields: ['date', 'time'] }),
    ...direction(facts),
    act(
      'start.closed_valve_watch',
      'Watch tubing pressure and current through the first minutes; stop at once if the pressure climbs without flow.',
    ),
    ...only(facts.holdsOffTrips, act('start.attend', attend(facts))),
    ...fill(facts),
  ];
}

function startRotary(facts: Facts): string {
  return facts.hasDrive
    ? 'Start at the minimum frequency, and raise it when the current is steady.'
    : 'Start direct on line, and watch the current fall from its peak.';
}

function direction(facts: Facts): readonly Step[] {
  if (facts.isLinear) {
    return [
      read('start.stroke_count', 'Count the strokes in five minutes and compare them with the set rate.', {
        unit: '/min',
        fields: ['strokes', 'per minute'],
      }),
      act(
        'start.stroke_reversal',
        'See that current rises on the loaded stroke and that both ends of the stroke are reversed without a knock.',
      ),
    ];
  }
  return [
    read(
      'start.direction',
      'Run in both directions for a few minutes each; the right one gives the higher pressure and flow. Enter both.',
      {
        fields: ['direction 1', 'direction 2', 'chosen'],
      },
    ),
  ];
}

function attend(facts: Facts): string {
  return `Attend for the whole override of ${facts.show('setpoints.start.override')}: underload and intake-pressure trips are held off.`;
}

function fill(facts: Facts): readonly Step[] {
  const time = facts.showValue('start.fill_time');
  if (time === undefined) return [];
  return [
    read('start.fluid_at_surface', 'Write down when fluid reaches the surface.', {
      fields: ['time'],
      note: `Expected about ${time} after the start.`,
    }),
  ];
}

interface Expected {
  readonly name: string;
  readonly text: string;
  readonly id: string;
  readonly band: BandName;
  readonly when?: (facts: Facts) => boolean;
}

const EXPECTED: readonly Expected[] = [
  {
    name: 'frequency',
    text: 'Output frequency',
    id: 'motor.frequency',
    band: 'frequency',
    when: (facts) => facts.hasDrive,
  },
  {
    name: 'motor_current',
    text: 'Motor current',
    id: 'motor.current',
    band: 'current',
    when: (facts) => !facts.isLinear,
  },
  {
    name: 'motor_current',
    text: 'Motor current, loaded stroke',
    id: 'motor.current',
    band: 'current',
    when: (facts) => facts.isLinear,
  },
  {
    name: 'motor_current_rms',
    text: 'Motor current, root mean square over the cycle',
    id: 'motor.current_rms',
    band: 'current',
    when: (facts) => facts.isLinear,
  },
  { name: 'surface_voltage', text: 'Voltage at the top of the cable', id: 'surface.required_voltage', band: 'voltage' },
  {
    name: 'drive_voltage',
    text: 'Output voltage of the drive',
    id: 'drive.output_voltage',
    band: 'voltage',
    when: (facts) => facts.hasDrive && facts.hasTransformer,
  },
  {
    name: 'drive_current',
    text: 'Output current of the drive',
    id: 'drive.output_current',
    band: 'current',
    when: (facts) => facts.hasDrive && facts.hasTransformer,
  },
  {
    name: 'intake_pressure',
    text: 'Intake pressure at the gauge',
    id: 'intake.pressure',
    band: 'pressure',
    when: (facts) => facts.measures('intake_pressure'),
  },
  {
    name: 'motor_temperature',
    text: 'Motor temperature',
    id: 'motor.winding_temperature',
    band: 'motor_temperature',
    when: (facts) => facts.measures('motor_temperature'),
  },
  {
    name: 'intake_temperature',
    text: 'Temperature at the intake',
    id: 'intake.temperature',
    band: 'temperature',
    when: (facts) => facts.measures('intake_temperature'),
  },
  { name: 'rate', text: 'Liquid rate at surface', id: 'pump.surface_rate', band: 'rate' },
];

/** For each operating case what the instruments should show, each with its band. */
function expectedReadings(facts: Facts): readonly Step[] {
  const ids = slugs(facts.caseNames, 'case');
  return facts.caseNames.flatMap((name, at) => {
    const steps = EXPECTED.filter(({ when }) => when?.(facts) ?? true).flatMap((row) =>
      expectedStep(facts, row, at, `start.case.${ids[at]}.${row.name}`),
    );
    return under(`Expected in the case “${name}”`, steps);
  });
}

function expectedStep(facts: Facts, row: Expected, at: number, id: string): readonly Step[] {
  const answer = facts.value(row.id, at);
  if (answer === undefined) return [];
  const inCase = facts.evaluation.caseName(at);
  if (answer.number === undefined) {
    return [read(id, row.text, { case: inCase, note: lacking('The expected value', answer.missing) })];
  }
  const measure =
    row.id === 'intake.pressure'
      ? atGauge(facts, answer.number, at)
      : facts.notation.ofNumber(answer.number, answer.kind);
  if (measure === undefined) return [];
  return [read(id, row.text, { case: inCase, ...banded(measure, row.band) })];
}

function outside(): readonly Step[] {
  return [
    caution(
      'start.caution_outside',
      'A reading outside its band is a question, not a setting to be changed: no trip is widened to keep the unit running.',
    ),
    act(
      'start.outside.stop',
      'Stop when current, temperature or pressure runs away, and when there is no flow after the expected time.',
    ),
    act(
      'start.outside.check',
      'Otherwise look in this order: right case, right unit, right side of the transformer, valve positions, direction, tap.',
    ),
    act(
      'start.outside.report',
      'Write the reading down as it is, and tell the person who prepared this sheet before going on.',
    ),
  ];
}

/** Times of the readings in the first day; common practice, no source. */
const TIMES = ['0 min', '5 min', '15 min', '30 min', '60 min', '2 h', '4 h', '8 h', '24 h'] as const;

function firstHours(facts: Facts): readonly Step[] {
  const pressure = facts.notation.ofNumber(0, 'pressure').unit;
  const degrees = facts.notation.ofNumber(0, 'temperature').unit;
  const row = (name: string, text: string, unit: string) =>
    read(`start.log.${name}`, text, { unit, fields: TIMES, source: 'common practice, no source' });
  return [
    ...only(facts.hasDrive, row('frequency', 'Frequency', 'Hz')),
    row('current_a', 'Current, phase A', 'A'),
    row('current_b', 'Current, phase B', 'A'),
    row('current_c', 'Current, phase C', 'A'),
    row('voltage', facts.hasDrive ? 'Drive voltage' : 'Voltage', 'V'),
    ...only(facts.measures('intake_pressure'), row('intake_pressure', 'Intake pressure', gaugeUnit(facts))),
    ...only(facts.measures('discharge_pressure'), row('discharge_pressure', 'Discharge pressure', gaugeUnit(facts))),
    ...only(facts.measures('motor_temperature'), row('motor_temperature', 'Motor temperature', degrees)),
    ...only(facts.measures('intake_temperature'), row('intake_temperature', 'Intake temperature', degrees)),
    row('tubing_pressure', 'Tubing pressure', pressure),
    row('casing_pressure', 'Casing pressure', pressure),
    row('rate', 'Rate at surface', facts.notation.ofNumber(0, 'volume_rate').unit),
  ];
}

function automatic(facts: Facts): readonly Step[] {
  const trip = facts.show('setpoints.protection.underload.trip');
  return [
    act(
      'start.underload_review',
      `After the first steady hour compare the underload trip${trip === undefined ? '' : ` of ${trip}`} with the running current; a change goes through the file.`,
    ),
    ...only(
      facts.holdsOffTrips,
      act(
        'start.override_ended',
        'See that the first-start override has ended and that underload and intake-pressure trips are in force.',
      ),
    ),
    ...restartCautions(facts, 'start.operation'),
    ...only(
      facts.restartsItself,
      act('start.sign', 'Post the sign “Starts by itself, without warning” at wellhead and drive.'),
    ),
    hold('start.hold_automatic', 'Hold: do not hand the unit to automatic operation before the readings are accepted.'),
  ];
}
