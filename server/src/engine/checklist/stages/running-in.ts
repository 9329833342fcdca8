import { BAND_SOURCE, bandAround, bandRule } from '../bands.ts';
import { gasCautions, warn } from '../cautions.ts';
import { connectionsOf } from '../connections.ts';
import { throughCableDetails } from '../expected-resistance.ts';
import type { Facts } from '../facts.ts';
import { cablesOf, type Item, itemsOf } from '../items.ts';
import { connectionSteps } from '../make-up.ts';
import { shown } from '../notation.ts';
import { installedInsulation } from '../sheet-tests.ts';
import { act, hold, only, read, type Step, type StepDetails, under } from '../step.ts';
import { PHASES } from '../test-steps.ts';

/** Stage 3: from the open well to the landed string. */
export function runningIn(facts: Facts): readonly Step[] {
  return [
    ...under('Before the first joint', preparation(facts)),
    ...under('Make-up', makeUp(facts)),
    ...under('Cable', cable(facts)),
    ...under('On the way down', wayDown(facts)),
    ...under('Landing', landing(facts)),
  ];
}

function preparation(facts: Facts): readonly Step[] {
  return [
    warn('running_in', 'pressure'),
    ...gasCautions(facts, 'running_in'),
    act('running_in.barriers', 'Confirm the barriers: who has tested which one, and what closes the well if it flows.'),
    act('running_in.kill_fluid', `Confirm that the well is dead and the kill fluid stands${killFluid(facts)}.`),
    read('running_in.drift', 'Enter the diameter of the drift that went down to setting depth.', drift(facts)),
    act('running_in.order', 'Lay out the items in the order of assembly and read their serial numbers once more.'),
    warn('running_in', 'load'),
    warn('running_in', 'reel'),
    act('running_in.exclusion', 'Close the exclusion zone, agree on signals, and try the brake of the reel.'),
    hold('running_in.hold', 'Hold: do not run in before barriers, permits, lifting gear and inspection are accepted.'),
  ];
}

function killFluid(facts: Facts): string {
  const at = facts.evaluation.installation.caseNodes.findIndex((_, index) =>
    facts.evaluation.caseHas(index, 'fluid_density'),
  );
  const located = at < 0 ? undefined : facts.evaluation.locateInCase(at, 'fluid_density');
  const density = located === undefined ? undefined : facts.notation.ofEntry(located);
  return density === undefined ? '' : `, ${shown(density)} as planned`;
}

function drift(facts: Facts): StepDetails {
  const entry = 'well.casing.drift';
  const planned = facts.measure(entry);
  const widest = itemsOf(facts)
    .filter(({ downhole, kind }) => downhole && kind !== 'cable')
    .flatMap(({ key, title }) => {
      const diameter = facts.number(`${key}.outer_diameter`);
      return diameter === undefined ? [] : [{ diameter, title }];
    })
    .sort((a, b) => b.diameter - a.diameter)[0];
  const least = widest && facts.notation.ofNumber(widest.diameter, 'small_length', facts.quantity(entry));
  const note =
    widest === undefined
      ? "A limit is not known: enter 'outer_diameter' in the data sheets."
      : `The widest item is the ${widest.title}, without cable and bands: leave room for them.`;
  const missing = planned === undefined ? ` The drift is not in the file: enter '${entry}'.` : '';
  return {
    unit: least?.unit ?? planned?.unit ?? facts.notation.unit('mm'),
    planned: planned?.number,
    limit: least === undefined ? undefined : { min: least.number },
    note: `${note}${missing}`,
  };
}

/** From the bottom of the string up: gauge, motor, pump, then the lead beside them. */
const ASSEMBLY = ['gauge', 'motor', 'pump', 'motor_lead'];

function makeUp(facts: Facts): readonly Step[] {
  const items = ASSEMBLY.flatMap((id) => itemsOf(facts).filter((item) => item.id === id));
  return [
    ...only(facts.hasMagnets, warn('running_in', 'magnets'), warn('running_in', 'magneticField')),
    warn('running_in', 'sling'),
    ...items.flatMap((item) => itemMakeUp(facts, item)),
    ...only(
      facts.has('equipment.motor'),
      warn('running_in.make_up', 'insulation'),
      insulation(facts, 'after_make_up', 'after the last joint of the unit'),
    ),
  ];
}

function itemMakeUp(facts: Facts, item: Item): readonly Step[] {
  const connections = connectionsOf(facts, item);
  if (connections.length > 0) return connections.flatMap((each) => connectionSteps(facts, each, 'running_in'));
  if (item.id === 'motor_lead') return [];
  const note = `Torque, fasteners and seals are not known: enter '${item.key}.connections' in its data sheet.`;
  return [
    act(
      `running_in.${item.id}.make_up`,
      `Make up the ${item.title} as its manual says; write torque and seals in the remarks.`,
      { note },
    ),
  ];
}

/** What the installed string must hold: the motor’s own limit, at a voltage that the gauge stands. */
function insulation(facts: Facts, name: string, when: string, fields?: readonly string[]): Step {
  const test = installedInsulation(facts);
  const voltage = test?.voltage;
  const at = voltage === undefined ? '' : ` at ${shown(voltage)} d.c.`;
  const limit = test?.min === undefined ? undefined : { min: test.min.number };
  const unknown =
    limit === undefined
      ? "A limit is not known: enter 'limit.min' of the insulation test under 'equipment.motor.inspection'."
      : '';
  return read(`running_in.insulation.${name}`, `Insulation of cable and motor to earth${at}, ${when}.`, {
    unit: test?.min?.unit ?? 'Mohm',
    limit,
    fields,
    note: [unknown, gaugeVoltage(facts)].filter((each) => each !== '').join(' ') || undefined,
    source: limit === undefined ? undefined : 'data sheet of the motor',
  });
}

function gaugeVoltage(facts: Facts): string {
  if (!facts.hasGauge) return '';
  const most = facts.show('equipment.gauge.test_voltage_max');
  if (most === undefined)
    return "What the connected gauge stands is not known: enter 'equipment.gauge.test_voltage_max'.";
  return `With the gauge connected, never above ${most}.`;
}

function cable(facts: Facts): readonly Step[] {
  const sections = cablesOf(facts).length;
  return [
    ...coldHandling(facts),
    act('running_in.bend_radius', `Lead the cable over the sheave without kinks${bend(facts)}.`, bendNote(facts)),
    act(
      'running_in.lead_connection',
      'Connect the lead to the motor: dry, clean, phases in order, no force; prove that it is seated.',
    ),
    insulation(facts, 'after_lead', 'after the lead is connected'),
    ...splice(facts),
    ...only(
      sections > 1,
      act('running_in.section_splices', `Splice the ${sections} sections of the main cable, phase to phase as marked.`),
    ),
    act('running_in.phase_marks', 'Carry the phase marks through to the top end of the cable.'),
  ];
}

/** The joints of the cable as its sheet has them; a splice to the lead in any case. */
function splice(facts: Facts): readonly Step[] {
  const joints = cablesOf(facts).flatMap((item) => connectionsOf(facts, item));
  const hasLead = facts.has('equipment.cable.motor_lead');
  const onSheet = joints.some(({ name }) => /splice/i.test(name));
  const text = 'Splice lead and main cable, phase to phase as marked; let it cool; write down who made it.';
  return [
    ...joints.flatMap((each) => connectionSteps(facts, each, 'running_in')),
    ...only(hasLead && !onSheet, act('running_in.splice', text)),
    ...only(hasLead, insulation(facts, 'after_splice', 'after the splice')),
  ];
}

function mainCable(facts: Facts, key: string): string | undefined {
  const first = cablesOf(facts)[0];
  return first === undefined ? undefined : facts.show(`${first.key}.${key}`);
}

function coldHandling(facts: Facts): readonly Step[] {
  const first = cablesOf(facts)[0];
  if (first === undefined) return [];
  const entry = `${first.key}.handling_temperature_min`;
  const least = facts.measure(entry);
  const note =
    least === undefined
      ? `A limit is not known: enter '${entry}'.`
      : 'Warm the reel in a tent if it is colder: a stiff cable cracks.';
  return [
    read('running_in.cable_temperature', 'Read the temperature of the cable on the reel.', {
      unit: least?.unit ?? facts.notation.unit('degC'),
      limit: least === undefined ? undefined : { min: least.number },
      note,
    }),
  ];
}

function bend(facts: Facts): string {
  const least = mainCable(facts, 'min_bend_radius');
  return least === undefined ? '' : `, never tighter than a radius of ${least}`;
}

function bendNote(facts: Facts): StepDetails {
  const known = mainCable(facts, 'min_bend_radius') !== undefined;
  return known ? {} : { note: "The least radius is not known: enter 'min_bend_radius' in the cable’s data sheet." };
}

function wayDown(facts: Facts): readonly Step[] {
  const depths = depthsOfChecks(facts);
  return [
    act(
      'running_in.bands',
      'Set bands or protectors at each joint: one at mid joint, one across the coupling, one each side of a splice.',
      {
        source: 'common practice, no source',
      },
    ),
    act(
      'running_in.speed',
      `Run no faster than ${facts.showNumber(600, 'length', 'well.intake.md')} in an hour, slower through doglegs; the cable is never pulled.`,
      {
        source: 'common practice, no source',
      },
    ),
    warn('running_in.way_down', 'insulation'),
    insulation(facts, 'running', 'at each of these depths; stop and find the cause when it falls to a tenth', depths),
    read(
      'running_in.resistance.running',
      'Winding resistance line to line, one pair, at the same depths: it stays as it is.',
      {
        unit: 'ohm',
        fields: depths,
      },
    ),
    act('running_in.count', 'Count joints and bands; write each splice with its depth into the tally.'),
  ];
}

/** About every ten joints of tubing; common practice, no source. */
const CHECK_EVERY = { metric: { step: 100, unit: 'm' }, oilfield: { step: 300, unit: 'ft' } } as const;
const METRES_PER_FOOT = 0.3048;
const MOST_CHECKS = 20;

function depthsOfChecks(facts: Facts): readonly string[] {
  const depth = facts.number('well.intake.md');
  if (depth === undefined) return ['at', 'at', 'at', 'at', 'at', 'landed'];
  const inFeet = facts.measure('well.intake.md')?.unit === 'ft';
  const { step, unit } = CHECK_EVERY[inFeet ? 'oilfield' : 'metric'];
  const total = inFeet ? depth / METRES_PER_FOOT : depth;
  const every = step * Math.max(1, Math.ceil(total / step / MOST_CHECKS));
  const count = Math.max(0, Math.ceil(total / every) - 1);
  return [...Array.from({ length: count }, (_, index) => `${(index + 1) * every} ${unit}`), 'landed'];
}

function landing(facts: Facts): readonly Step[] {
  const depth = facts.measure('well.intake.md');
  return [
    read('running_in.tally', 'Enter the depth of the intake by the tally.', {
      unit: depth?.unit ?? facts.notation.unit('m'),
      expected: depth?.number,
      limit: depth === undefined ? undefined : bandAround(depth, 'depth'),
      note:
        depth === undefined
          ? "A limit is not known: enter 'well.intake.md'."
          : `Setting depth ${bandRule('depth', depth.unit)}; outside it the cable, the trips and the expected pressures change.`,
      source: BAND_SOURCE,
    }),
    cableLeft(facts),
    act('running_in.check_valve', checkValve(facts)),
    act('running_in.penetrator', 'Seat the hanger and make up the penetrator without turning or crushing the cable.'),
    act('running_in.pressure_test', `Test hanger and penetrator by the well programme${ratingText(facts)}.`),
    ...only(facts.hasMagnets, warn('running_in.landing', 'column')),
    insulation(facts, 'landed', 'landed, at the top end of the cable'),
    read('running_in.resistance.landed', 'Winding resistance at the top end of the cable, A-B, B-C and C-A.', {
      fields: PHASES,
      ...throughCableDetails(facts),
    }),
    act('running_in.caps', 'Cap and insulate the top end of the cable until it is wired.'),
  ];
}

function cableLeft(facts: Facts): Step {
  const answer = facts.value('cable.length_margin');
  const measure = facts.valueMeasure('cable.length_margin');
  const text = 'Enter the length of cable that is left over at the top.';
  if (measure === undefined) {
    const entries = answer !== undefined && answer.number === undefined ? answer.missing : ['equipment.cable.main'];
    return read('running_in.cable_left', text, {
      unit: facts.notation.unit('m'),
      note: `It is not computed: enter ${entries.map((each) => `'${each}'`).join(', ')}.`,
    });
  }
  return read('running_in.cable_left', text, {
    unit: measure.unit,
    expected: measure.number,
    limit: { min: 0 },
    note: 'If it is far from what is expected, depth or cable is not what the file says: stop and find out which.',
  });
}

function checkValve(facts: Facts): string {
  const valve = facts.text('well.tubing.check_valve');
  if (valve === 'yes' || valve === 'true') return 'Confirm that the check valve is in the string, the right way up.';
  if (valve === undefined)
    return "Write down whether the string has a check valve: the file does not say ('well.tubing.check_valve').";
  return 'Confirm that there is no check valve: the column falls back through the pump at each stop.';
}

function ratingText(facts: Facts): string {
  const rating = facts.show('well.wellhead.pressure_rating');
  return rating === undefined ? '' : `, not above the wellhead’s rating of ${rating}`;
}
