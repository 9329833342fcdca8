import { entry, isPresent, value } from '../../values/declare.ts';
import { type Check, check } from '../declare.ts';

const WINDING = 'equipment.motor.phase_resistance';
/** Share of the rated frequency below which the winding's drop is no longer small against the rest. */
const LOW = 0.5;

export const VOLTAGE_UNCERTAIN: Check = check({
  id: 'motor.voltage-uncertain',
  severity: 'warning',
  title: 'voltage of the motor uncertain at low frequency',
  compares: 'the frequency of each case with half the rated one, where the winding’s resistance is not given',
  why:
    'Voltage in proportion to frequency leaves out the winding’s own drop, which does not shrink: at a few hertz ' +
    'it is ' +
    'most of the voltage, and the tap comes out too low.',
  mend: 'Enter the resistance of the winding, line to line at 20 degC, from the sheet or measured.',
  source: 'any machines text',
  example: {
    lift: 'linear',
    fails: { 'equipment.motor.datasheet': 'equipment/sparse.yaml' },
    beside: {
      'equipment/sparse.yaml':
        'document: motor/1\nname: an example\ntype: linear_permanent_magnet\nfrequency: 8 Hz\npole_pitch: 45 mm\n',
    },
    at: WINDING,
  },
  needs: {
    isGiven: isPresent(WINDING),
    frequency: value('motor.frequency'),
    rated: entry('equipment.motor.frequency'),
  },
  run: ({ isGiven, frequency, rated }, context) => {
    if (isGiven || frequency >= LOW * rated) return undefined;
    const show = (number: number) => context.show(number, 'frequency', 'equipment.motor.frequency');
    return {
      key: WINDING,
      message: `The case '${context.caseName}' runs at ${show(frequency)}, below half of the motor’s ${show(rated)}, and the winding’s resistance is not given: the voltage that it needs is a guess. Enter phase_resistance.`,
      value: { number: frequency, kind: 'frequency' },
      limit: { number: LOW * rated, kind: 'frequency' },
    };
  },
});
