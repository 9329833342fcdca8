import { absent, VOLTS_PER_HERTZ, WITH_DRIVE, WITH_TRANSFORMER } from '../conditions.ts';
import { declareValue, entry, entryOr, type Input, method, type ValueDeclaration, value, valueBy } from '../declare.ts';

const OVERLOAD = entryOr(
  'equipment.drive.overload.ratio',
  1,
  'no current beyond the rating where the sheet states no overload',
);

/** The most that the drive pushes, by a rating of it, brought to the motor's side of the transformer. */
function limitAtMotor(id: string, title: string, rating: Input<number>): ValueDeclaration {
  return valueBy(id, title, 'current', [
    method({
      when: [WITH_DRIVE, WITH_TRANSFORMER],
      formula: 'rating × overload ratio × V_1/V_t',
      source: 'current ratio of a transformer, any machines text',
      inputs: {
        rating,
        overload: OVERLOAD,
        primary: entry('equipment.transformer.primary_voltage'),
        tap: value('transformer.tap_voltage'),
      },
      compute: ({ rating: current, overload, primary, tap }) => (current * overload * primary) / tap,
    }),
    method({
      when: [WITH_DRIVE, absent('equipment.transformer')],
      formula: 'rating × overload ratio',
      source: 'no transformer between drive and motor',
      inputs: { rating, overload: OVERLOAD },
      compute: ({ rating: current, overload }) => current * overload,
    }),
  ]);
}

export const DRIVE_LIMIT: readonly ValueDeclaration[] = [
  declareValue({
    id: 'drive.matching_base_frequency',
    title: 'base frequency that gives the motor the volts per hertz of its nameplate',
    kind: 'frequency',
    when: [WITH_DRIVE, VOLTS_PER_HERTZ],
    formula: 'V_output·(V_t/V_1)·f_r/V_r',
    source: 'constant volts per hertz, any drives text',
    inputs: {
      output: entry('equipment.drive.output_voltage'),
      tap: value('transformer.tap_voltage'),
      primary: entry('equipment.transformer.primary_voltage'),
      voltage: entry('equipment.motor.voltage'),
      frequency: entry('equipment.motor.frequency'),
    },
    compute: ({ output, tap, primary, voltage, frequency }) => (output * (tap / primary) * frequency) / voltage,
  }),
  limitAtMotor(
    'drive.current_limit_at_motor',
    'most current that the drive pushes, at the motor side',
    entry('equipment.drive.output_current'),
  ),
  limitAtMotor(
    'drive.derated_limit_at_motor',
    'most current that the drive pushes when derated for heat and altitude, at the motor side',
    value('drive.current_rating'),
  ),
];
