import { present } from '../../values/conditions.ts';
import { entry, optionalRows } from '../../values/declare.ts';
import type { CheckContext } from '../context.ts';
import { type Check, checkOfParts, type Judgement, part } from '../declare.ts';

const MOST = 'equipment.gauge.test_voltage_max';
const MOTOR = 'equipment.motor.inspection';

/** Least direct voltage at which the insulation of a winding says anything, by its rated voltage line to line, V. */
function leastTelling(rated: number): number {
  return rated > 2500 ? 1000 : 500;
}

function show(context: CheckContext, voltage: number): string {
  return context.show(voltage, 'voltage', MOST);
}

/** The gauge hangs on the motor's star point: the installed string is tested with no more than it stands. */
const installed = part({
  when: [present(MOST)],
  needs: { most: entry(MOST), rated: entry('equipment.motor.voltage') },
  run: ({ most, rated }, context) => {
    const least = leastTelling(rated);
    if (most >= least) return { margin: { number: most - least, kind: 'voltage' } };
    return {
      key: MOST,
      message: `The gauge stands a test voltage of ${show(context, most)}, and the insulation of a motor of ${show(context, rated)} is tested with ${show(context, least)} at least: with this gauge on it, nobody can tell whether the string is sound. Look at the number, or agree how the gauge is parted for the test.`,
      value: { number: most, kind: 'voltage' },
      limit: { number: least, kind: 'voltage' },
      related: [{ key: 'equipment.motor.voltage', message: 'the rated voltage of the motor' }],
    };
  },
});

/** A test on the motor's sheet that the gauge does not stand is for a motor without it; that has to be said. */
const onTheSheet = part({
  when: [present(MOST), present(MOTOR)],
  needs: {
    most: entry(MOST),
    rated: entry('equipment.motor.voltage'),
    tests: optionalRows(MOTOR, { test_voltage: 'number?' }),
  },
  run: ({ most, rated, tests }, context): Judgement | undefined => {
    const highest = Math.max(0, ...(tests ?? []).map(({ test_voltage = 0 }) => test_voltage));
    if (highest <= most || most < leastTelling(rated)) return undefined;
    return {
      key: MOST,
      severity: 'note',
      message: `The motor’s sheet tests its insulation with ${show(context, highest)}, and the gauge stands ${show(context, most)}: that test is for the motor before the gauge is on it. The checklist tests the string with ${show(context, most)}.`,
      value: { number: highest, kind: 'voltage' },
      limit: { number: most, kind: 'voltage' },
    };
  },
});

export const GAUGE_TEST_VOLTAGE: Check = checkOfParts(
  {
    id: 'gauge.test-voltage',
    severity: 'warning',
    title: 'gauge that stands less than the insulation is tested with',
    compares:
      'the highest test voltage of the gauge with the least that tells something of the motor’s insulation, 500 V, above ' +
      '2500 V rated 1000 V, and with the insulation test on the motor’s sheet',
    why:
      'The gauge stays on the motor’s star point. An insulation test with more than it stands destroys it; a test with ' +
      'less than the insulation asks for finds no fault.',
    mend: 'Look at the number on the gauge’s sheet, or take a gauge that stands the test.',
    source: 'IEEE 43, table of test voltages (from memory); the gauge’s data sheet',
    example: { lift: 'linear', fails: { [MOST]: '100 V' }, passes: { [MOST]: '1000 V' }, at: MOST },
  },
  [installed, onTheSheet],
);
