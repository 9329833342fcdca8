import type { CheckTexts } from '../findings/texts.ts';
import { switchedOn } from '../values/conditions.ts';
import { entry, limit } from '../values/declare.ts';
import { bound, recommend, type Window } from './declare.ts';
import { WINDOW_EMPTY } from './emptiness.ts';

const VOLTAGE = 'setpoints.protection.voltage_unbalance.trip';
const CURRENT = 'setpoints.protection.current_unbalance.trip';

const voltageHigh: CheckTexts = {
  id: 'voltage-unbalance.high',
  severity: 'warning',
  title: 'voltage-unbalance trip high',
  compares: 'the voltage-unbalance trip with 5 %',
  why: 'A few per cent of unbalance in the voltage heat the winding like a heavy overload; motors are not made for 5 %.',
  mend: 'Lower the trip to 5 % or less; 4 % is usual.',
  source: 'NEMA MG-1 12.45 and 14.36 (from memory)',
  example: { lift: 'linear', fails: { [VOLTAGE]: '8 %' }, at: VOLTAGE },
};
const currentHigh: CheckTexts = {
  id: 'current-unbalance.high',
  severity: 'warning',
  title: 'current-unbalance trip high',
  compares: 'the current-unbalance trip with 20 %',
  why: 'A parted strand, a bad splice or a lost turn shows first as unbalance: a trip this high sees it too late.',
  mend: 'Lower the trip to 20 % or less; 15 % is usual.',
  source: 'common practice, no source',
  example: { lift: 'linear', fails: { [CURRENT]: '35 %' }, at: CURRENT },
};

function unbalanceTrip(
  protection: 'voltage_unbalance' | 'current_unbalance',
  check: CheckTexts,
  usual: number,
): Window {
  const trip = `setpoints.protection.${protection}.trip`;
  return {
    setpoint: trip,
    title: `the ${protection.replace('_', '-')} trip`,
    kind: 'ratio',
    compared: entry(trip),
    when: switchedOn(protection),
    emptiness: WINDOW_EMPTY,
    bounds: [
      bound({
        check,
        side: 'upper',
        hard: false,
        kind: 'ratio',
        limitName: 'the most unbalance that a motor should see',
        consequence: 'the winding would be harmed before it acts',
        formula: 'limit',
        inputs: { most: limit(check.id) },
        compute: ({ most }) => most,
      }),
    ],
    recommendation: recommend({
      rule: `${usual * 100} %, within the window`,
      inputs: {},
      choose: (_, { upper }) => Math.min(usual, upper),
    }),
  };
}

// Both usual trips are common practice, no source.
export const VOLTAGE_UNBALANCE_TRIP = unbalanceTrip('voltage_unbalance', voltageHigh, 0.04);
export const CURRENT_UNBALANCE_TRIP = unbalanceTrip('current_unbalance', currentHigh, 0.15);
