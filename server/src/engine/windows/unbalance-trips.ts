import type { CheckTexts } from '../findings/texts.ts';
import { notSwitchedOff } from '../values/conditions.ts';
import { entry, limit, value } from '../values/declare.ts';
import { bound, recommend, type Window } from './declare.ts';
import { WINDOW_EMPTY } from './emptiness.ts';

const VOLTAGE = 'setpoints.protection.voltage_unbalance.trip';
const ALARM = 'setpoints.protection.voltage_unbalance.alarm';
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

const belowNatural = (id: string, quantity: 'voltage' | 'current', at: string): CheckTexts => ({
  id,
  severity: 'warning',
  title: `${quantity}-unbalance protection below what the cable makes by itself`,
  compares: `alarm and trip on ${quantity} unbalance with the unbalance that a flat cable makes by itself`,
  why: 'The middle phase of a flat cable differs from the outer two, so that a healthy unit would be stopped.',
  mend: 'Raise it above the natural unbalance, or transpose the phases half way down.',
  source:
    quantity === 'voltage'
      ? 'geometric mean distances of three conductors in a row, any power text'
      : 'the same, times ten in the current (common practice, no source)',
  example: { lift: 'rotary', fails: { [at]: '0.01 %' }, at },
});
const voltageNatural = belowNatural('voltage-unbalance.below-natural', 'voltage', VOLTAGE);
const currentNatural = belowNatural('current-unbalance.below-natural', 'current', CURRENT);

const alarmUseless: CheckTexts = {
  id: 'voltage-unbalance.alarm-useless',
  severity: 'warning',
  title: 'voltage-unbalance alarm that says nothing, or too late',
  compares: 'the voltage-unbalance alarm with what the cable makes by itself, and with 5 %',
  why: 'An alarm below the natural unbalance is always on, and one above what harms the winding comes too late.',
  mend: 'Set the alarm to about 2 %.',
  source: 'NEMA MG-1 12.45 and 14.36 (from memory); geometric mean distances, any power text',
  example: { lift: 'rotary', fails: { [ALARM]: '8 %' }, at: ALARM },
};

/** How much an unbalance of the voltage grows in the current of a motor: six to ten times (common practice, no source). */
const IN_CURRENT = 10;

interface Unbalance {
  readonly protection: 'voltage_unbalance' | 'current_unbalance';
  readonly high: CheckTexts;
  readonly natural: CheckTexts;
  readonly times: number;
}

const IN_VOLTAGES: Unbalance = {
  protection: 'voltage_unbalance',
  high: voltageHigh,
  natural: voltageNatural,
  times: 1,
};
const IN_CURRENTS: Unbalance = {
  protection: 'current_unbalance',
  high: currentHigh,
  natural: currentNatural,
  times: IN_CURRENT,
};

function windowOf({ protection, high, natural, times }: Unbalance, part: 'trip' | 'alarm', usual: number): Window {
  const setpoint = `setpoints.protection.${protection}.${part}`;
  return {
    setpoint,
    title: `the ${protection.replace('_', '-')} ${part}`,
    kind: 'ratio',
    compared: entry(setpoint),
    when: notSwitchedOff(protection),
    emptiness: WINDOW_EMPTY,
    bounds: [
      bound({
        check: natural,
        id: part === 'alarm' ? `${natural.id}.natural` : natural.id,
        side: 'lower',
        hard: false,
        kind: 'ratio',
        limitName: 'what the cable makes by itself',
        consequence: 'a healthy unit would be stopped, or alarmed for nothing',
        formula: times === 1 ? 'natural unbalance' : `${times} × natural unbalance`,
        inputs: { unbalance: value('cable.natural_unbalance') },
        compute: ({ unbalance }) => times * unbalance,
      }),
      bound({
        check: high,
        id: part === 'alarm' ? `${high.id}.high` : high.id,
        side: 'upper',
        hard: false,
        kind: 'ratio',
        limitName: 'the most unbalance that a motor should see',
        consequence: 'the winding would be harmed before it acts',
        formula: 'limit',
        inputs: { most: limit(`${protection.replace('_', '-')}.high`) },
        compute: ({ most }) => most,
      }),
    ],
    recommendation: recommend({
      rule: `${usual * 100} %, within the window`,
      inputs: {},
      choose: (_, { lower, upper }) => Math.max(lower, Math.min(usual, upper)),
    }),
  };
}

// The usual trips and the usual alarm are common practice, no source.
export const VOLTAGE_UNBALANCE_TRIP = windowOf(IN_VOLTAGES, 'trip', 0.04);
export const VOLTAGE_UNBALANCE_ALARM = windowOf(
  { ...IN_VOLTAGES, high: alarmUseless, natural: alarmUseless },
  'alarm',
  0.02,
);
export const CURRENT_UNBALANCE_TRIP = windowOf(IN_CURRENTS, 'trip', 0.15);
