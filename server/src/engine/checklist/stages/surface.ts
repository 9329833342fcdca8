import { listed } from '../../text/words.ts';
import type { BoundReading, WindowReading } from '../../windows/reading.ts';
import { areaCautions, warn } from '../cautions.ts';
import { connectionsOf } from '../connections.ts';
import { throughCableDetails } from '../expected-resistance.ts';
import type { Facts } from '../facts.ts';
import { itemsOf } from '../items.ts';
import { connectionSteps } from '../make-up.ts';
import { rounded, shown } from '../notation.ts';
import { installedInsulation } from '../sheet-tests.ts';
import { act, hold, only, read, type Step, type StepDetails, set, under } from '../step.ts';
import { PHASES } from '../test-steps.ts';
import { windowOf, windowWords } from '../window-words.ts';

/** Stage 4: from the top of the cable to the supply, dead until the hold at its end. */
export function surface(facts: Facts): readonly Step[] {
  return [
    ...under('Isolation and earthing', isolation(facts)),
    ...under('Cable from surface', cable(facts)),
    ...only(facts.hasTransformer, ...under('Transformer', transformer(facts))),
    ...under('Wiring', wiring(facts)),
    ...under('Supply', supply(facts)),
    ...under('Before energising', [
      act(
        'surface.clear',
        'Remove portable earths and tools, close all covers, and see that nobody works on the line.',
      ),
      hold('surface.hold_energise', 'Hold: do not energise before earthing, wiring, tap and tests are accepted.'),
    ]),
  ];
}

function isolation(facts: Facts): readonly Step[] {
  return [
    warn('surface', 'earthing'),
    read(
      'surface.earth_resistance',
      `Earth ${listed(facts.surfaceEquipment)} together; read the resistance to earth.`,
      {
        unit: 'ohm',
        limit: { max: 5 },
        note: 'Or the site’s own rule where that is lower.',
        source: 'IEEE 142 (from memory)',
      },
    ),
    warn('surface', 'isolation'),
    act('surface.lockout', 'Isolate, lock out and tag the supply; write down whose locks hang where.'),
    act('surface.prove_dead', `Prove dead: the supply, and both sides of ${listed(facts.surfaceEquipment.slice(1))}.`),
    ...only(facts.hasMagnets, warn('surface', 'magnets')),
    ...only(facts.hasDrive || facts.hasFilter, warn('surface', 'stored')),
    ...areaCautions(facts, 'surface'),
    ...only(
      facts.isClassified,
      act(
        'surface.drive_location',
        'See that drive and transformer stand outside the classified area, or are made for it.',
      ),
    ),
  ];
}

function cable(facts: Facts): readonly Step[] {
  return [
    warn('surface', 'insulation'),
    insulation(facts),
    read('surface.cable.resistance', 'Winding resistance through the cable, line to line, A-B, B-C and C-A.', {
      fields: PHASES,
      ...throughCableDetails(facts),
    }),
    act('surface.cable.discharge', 'Discharge and earth the conductors after the tests.'),
  ];
}

function insulation(facts: Facts): Step {
  const test = installedInsulation(facts);
  const at = test?.voltage === undefined ? '' : ` at ${shown(test.voltage)} d.c.`;
  const held = test?.duration === undefined ? '' : ` after ${shown(test.duration)}`;
  return read(
    'surface.cable.insulation',
    `Insulation of cable and motor to earth${at}${held}, drive and gauge disconnected.`,
    {
      unit: test?.min?.unit ?? 'Mohm',
      limit: test?.min === undefined ? undefined : { min: test.min.number },
      note:
        test?.min === undefined
          ? "A limit is not known: enter 'limit.min' of the insulation test under 'equipment.motor.inspection'."
          : 'Compare it with the reading when landed.',
      source: test?.min === undefined ? undefined : 'data sheet of the motor',
    },
  );
}

function transformer(facts: Facts): readonly Step[] {
  const plate = facts.rows('equipment.transformer.taps').flatMap((row) => {
    const voltage = row.measure('voltage');
    return voltage === undefined ? [] : [`${row.text('tap') ?? '?'}: ${shown(voltage)}`];
  });
  const listed =
    plate.length === 0
      ? "The plate’s taps are not known: enter 'equipment.transformer.taps'."
      : `Taps by the file: ${plate.join(', ')}.`;
  return [
    act(
      'surface.transformer.plate',
      'Compare the transformer’s plate with the file: taps and voltages, primary voltage, connection.',
      { note: listed },
    ),
    warn('surface', 'tap'),
    tap(facts),
    read(
      'surface.transformer.ratio',
      'Read the ratio at that tap, or the resistance of the secondary windings, all three alike.',
      { fields: PHASES, note: ratio(facts) },
    ),
  ];
}

function tap(facts: Facts): Step {
  const planned = facts.text('setpoints.transformer.tap');
  const voltage = facts.show('setpoints.transformer.voltage');
  const reading = windowOf(facts, 'setpoints.transformer.tap');
  const note = [windowWords(facts, reading), reason(facts, reading)].filter((each) => each !== '').join(' ');
  if (planned === undefined) {
    return set('surface.transformer.tap', "Do not connect a tap: the file has none ('setpoints.transformer.tap').", {
      note,
    });
  }
  const named = voltage === undefined ? `tap ${planned}` : `tap ${planned}, ${voltage}`;
  return set('surface.transformer.tap', `Connect ${named}, on all three phases.`, { planned, note: note || undefined });
}

/** Why this tap: the bound from below that decides, with its case. */
function reason(facts: Facts, reading: WindowReading | undefined): string {
  const lowest = reading?.bounds
    .filter(({ bound, number }) => bound.side === 'lower' && bound.hard && Number.isFinite(number))
    .sort((a, b) => b.number - a.number)[0];
  return lowest === undefined ? '' : decisive(facts, lowest);
}

function decisive(facts: Facts, { bound, number, caseIndex }: BoundReading): string {
  const inCase = caseIndex === undefined ? '' : ` in the case '${facts.evaluation.caseName(caseIndex)}'`;
  return `It follows from ${bound.limitName}${inCase}, ${facts.showNumber(number, 'voltage', 'setpoints.transformer.voltage')}: below it ${bound.consequence}.`;
}

function ratio(facts: Facts): string | undefined {
  const primary = facts.number('equipment.transformer.primary_voltage');
  const secondary = facts.number('setpoints.transformer.voltage');
  return primary === undefined || secondary === undefined || primary <= 0
    ? "The ratio is not known: enter 'equipment.transformer.primary_voltage' and 'setpoints.transformer.voltage'."
    : `Expected ratio ${rounded(secondary / primary)}.`;
}

function wiring(facts: Facts): readonly Step[] {
  return [...connecting(facts), ...signalling(facts), ...filtering(facts), EMERGENCY];
}

function connecting(facts: Facts): readonly Step[] {
  return [
    act(
      'surface.wiring.cable',
      'Connect the cable at the wellhead box, phase to phase as marked; tighten and mark each point.',
    ),
    act(
      'surface.wiring.vented_box',
      'See that a vented box stands between wellhead and drive, so that gas inside the cable cannot travel on.',
      {
        source: 'common practice, no source',
      },
    ),
    ...itemsOf(facts)
      .filter(({ downhole }) => !downhole)
      .flatMap((item) => connectionsOf(facts, item))
      .flatMap((each) => connectionSteps(facts, each, 'surface')),
    act(
      'surface.wiring.points',
      'Check each wiring point against the diagram, from the wellhead to the supply, and pull at it.',
    ),
  ];
}

function signalling(facts: Facts): readonly Step[] {
  const star = facts.hasGauge && facts.text('equipment.gauge.signal') !== 'separate_conductor';
  return [
    ...only(star, act('surface.wiring.star_point', starPoint(facts))),
    ...only(
      facts.hasGauge && !star,
      act('surface.wiring.signal', 'Connect the gauge’s own conductor to its surface unit; screen earthed at one end.'),
    ),
    ...only(
      facts.hasGauge,
      act('surface.wiring.gauge_reads', 'See that the gauge reads at surface, with the unit stopped.'),
    ),
  ];
}

function filtering(facts: Facts): readonly Step[] {
  return [
    ...only(
      facts.hasFilter,
      act(
        'surface.filter',
        'Connect the output filter between drive and transformer; see that it is for this frequency and current.',
      ),
    ),
    ...only(
      facts.hasDrive && facts.hasTransformer && !facts.hasFilter,
      act(
        'surface.no_filter',
        'Confirm that the drive is meant to work without an output filter into transformer and cable.',
      ),
    ),
  ];
}

const EMERGENCY = act(
  'surface.wiring.emergency',
  'Wire and try the emergency stop and the high-pressure contact: the circuit opens when a wire breaks.',
);

function starPoint(facts: Facts): string {
  const connection = facts.text('equipment.transformer.star_point');
  const says =
    connection === undefined
      ? "the file does not say ('equipment.transformer.star_point')"
      : `the file says ${connection}`;
  return `Connect the gauge’s surface unit to the secondary’s star point; it is accessible and not earthed (${says}).`;
}

function supply(facts: Facts): readonly Step[] {
  return [
    act('surface.supply.sequence', sequence(facts)),
    read(
      'surface.supply.voltage',
      'Read the supply’s voltage before the isolator, A-B, B-C and C-A, under the permit.',
      { fields: PHASES, ...supplyLimits(facts) },
    ),
  ];
}

function sequence(facts: Facts): string {
  const drive = 'Read the phase sequence of the supply and write down that of the drive’s output.';
  if (facts.hasDrive) return facts.isLinear ? drive : `${drive} It decides the direction of the pump.`;
  return 'Read the phase sequence of the supply: without a drive it decides the direction of the pump.';
}

function supplyLimits(facts: Facts): StepDetails {
  const nominal = facts.measure('supply.voltage');
  const tolerance = facts.number('supply.tolerance');
  const unbalanceMax = facts.evaluation.limit('voltage-unbalance.high');
  const unbalance = `No voltage is more than ${rounded(unbalanceMax * 100)} % of the mean away from the mean.`;
  if (nominal === undefined || tolerance === undefined) {
    return {
      unit: nominal?.unit ?? 'V',
      expected: nominal?.number,
      unbalanceMax,
      note: `${unbalance} A limit is not known: enter 'supply.voltage' and 'supply.tolerance'.`,
    };
  }
  return {
    unit: nominal.unit,
    expected: nominal.number,
    limit: { min: rounded(nominal.number * (1 - tolerance)), max: rounded(nominal.number * (1 + tolerance)) },
    unbalanceMax,
    note: `Nominal ± ${facts.show('supply.tolerance')}, as the file has it. ${unbalance}`,
  };
}
