import type { CheckTexts } from '../findings/texts.ts';
import { notSwitchedOff } from '../values/conditions.ts';
import { entry, limit, value } from '../values/declare.ts';
import { bound, recommend, type Window } from './declare.ts';
import { WINDOW_EMPTY } from './emptiness.ts';
import { readable, within } from './rounding.ts';
import { namedWithSide } from './sides.ts';

/** How far beyond the supply's own tolerance a trip is recommended (common practice, no source). */
const ROOM = 0.05;
const OVER = 'setpoints.protection.overvoltage.trip';

const insideTolerance: CheckTexts = {
  id: 'voltage.trip-inside-supply-tolerance',
  severity: 'warning',
  title: 'voltage trip within the supply’s own tolerance',
  compares: 'over- and undervoltage trip with the band in which the supply is allowed to lie',
  why: 'The unit trips on a supply that is as good as was agreed.',
  mend: 'Move the trip beyond the tolerance of the supply.',
  source: 'definition of a tolerance',
  example: { lift: 'linear', fails: { [OVER]: '420 V' }, at: OVER },
};
const useless: CheckTexts = {
  id: 'voltage.trip-useless',
  severity: 'warning',
  title: 'voltage trip too far out to protect anything',
  compares: 'over- and undervoltage trip with what motor, drive and transformer stand: 20 % from what is healthy',
  why: 'By the time the trip acts, insulation or core have had more, or the motor less, than they stand.',
  mend: 'Bring the trip to within 20 % of the healthy voltage.',
  source: 'common practice, no source',
  example: { lift: 'linear', fails: { [OVER]: '600 V' }, at: OVER },
};

/** The window of a trip on one side of the healthy voltage; `sign` is 1 for over- and −1 for undervoltage. */
function voltageTrip(protection: 'overvoltage' | 'undervoltage', sign: 1 | -1): Window {
  const trip = `setpoints.protection.${protection}.trip`;
  const healthy = value(`${protection}.healthy_voltage`);
  const tolerance = entry('supply.tolerance');
  return {
    setpoint: trip,
    title: `the ${protection} trip`,
    kind: 'voltage',
    compared: entry(trip),
    when: notSwitchedOff(protection),
    emptiness: WINDOW_EMPTY,
    named: namedWithSide(protection, protection, 'supply'),
    bounds: [
      bound({
        check: insideTolerance,
        id: `voltage.trip-inside-supply-tolerance.${protection}`,
        side: sign > 0 ? 'lower' : 'upper',
        hard: false,
        kind: 'voltage',
        limitName: 'the end of the supply’s tolerance',
        consequence: 'the unit would trip on a supply that is as agreed',
        formula: `V·(1 ${sign > 0 ? '+' : '−'} tolerance)`,
        inputs: { healthy, tolerance },
        compute: ({ healthy: voltage, tolerance: share }) => voltage * (1 + sign * share),
      }),
      bound({
        check: useless,
        id: `voltage.trip-useless.${protection}`,
        side: sign > 0 ? 'upper' : 'lower',
        hard: false,
        kind: 'voltage',
        limitName: 'what motor, drive and transformer stand',
        consequence: 'it would act too late to protect anything',
        formula: `V·(1 ${sign > 0 ? '+' : '−'} 20 %)`,
        inputs: { healthy, share: limit('voltage.trip-useless') },
        compute: ({ healthy: voltage, share }) => voltage * (1 + sign * share),
      }),
    ],
    recommendation: recommend({
      rule: 'the tolerance of the supply and 5 % more, within the window',
      inputs: { healthy, tolerance },
      choose: ({ healthy: voltage, tolerance: share }, { lower, upper }) =>
        readable(within(voltage * (1 + sign * (share + ROOM)), lower, upper), lower, upper),
    }),
  };
}

export const OVERVOLTAGE_TRIP = voltageTrip('overvoltage', 1);
export const UNDERVOLTAGE_TRIP = voltageTrip('undervoltage', -1);
