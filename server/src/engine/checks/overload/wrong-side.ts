import { switchedOn, WITH_TRANSFORMER } from '../../values/conditions.ts';
import { eachCase, entry, limit, text, value } from '../../values/declare.ts';
import { type Check, check } from '../declare.ts';

const TRIP = 'setpoints.protection.overload.trip';
const WORDS = { motor: 'the motor side of the transformer', drive: 'the drive side of the transformer' } as const;

export const OVERLOAD_WRONG_SIDE: Check = check({
  id: 'overload.wrong-side',
  severity: 'warning',
  title: 'overload trip for the other side of the transformer',
  compares:
    'the overload trip with running and rated motor current: wrong on the side that is stated, right on the other side ' +
    'of the transformer',
  why: 'The transformer changes the current with the voltage. A trip for the other side never acts, or acts at once.',
  mend: "State the side that the drive measures at, under 'side', or enter the trip for the side that is stated.",
  source: 'current ratio of a transformer, any machines text',
  example: { lift: 'linear', fails: { 'setpoints.protection.overload.trip': '33 A' }, at: TRIP },
  when: [...switchedOn('overload'), WITH_TRANSFORMER],
  needs: {
    trip: entry(TRIP),
    side: text('setpoints.protection.overload.side', 'motor'),
    basis: text('setpoints.protection.overload.basis', 'cycle_rms'),
    peaks: eachCase('motor.current'),
    averages: eachCase('motor.current_rms'),
    rated: entry('equipment.motor.current'),
    most: limit('overload.above-motor'),
    tap: value('transformer.tap_voltage'),
    primary: entry('equipment.transformer.primary_voltage'),
  },
  run: ({ trip, side, basis, peaks, averages, rated, most, tap, primary }, context) => {
    const running = Math.max(...(basis === 'stroke_peak' ? peaks : averages).filter(Number.isFinite));
    const fits = (atMotor: number) => atMotor > running && atMotor <= most * rated;
    const atMotor = { motor: trip, drive: (trip * primary) / tap };
    const [stated, other] = side === 'drive' ? (['drive', 'motor'] as const) : (['motor', 'drive'] as const);
    if (fits(atMotor[stated]) || !fits(atMotor[other])) return undefined;
    const show = (current: number) => context.show(current, 'current', TRIP);
    return {
      key: TRIP,
      message: `The overload trip of ${show(trip)} does not fit ${WORDS[stated]}, where the motor is rated ${show(stated === 'motor' ? rated : (rated * tap) / primary)}, and fits ${WORDS[other]}. Say which side is measured.`,
      value: { number: trip, kind: 'current' },
      related: [{ key: 'setpoints.transformer.tap', message: 'the tap, which sets the ratio' }],
    };
  },
});
