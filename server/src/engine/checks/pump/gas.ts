import { present, ROTARY } from '../../values/conditions.ts';
import { entry, limit, value } from '../../values/declare.ts';
import { NOT_AT_THE_TRIP } from '../case-keys.ts';
import { type Check, check } from '../declare.ts';
import { atMost } from '../within.ts';

const MOST = 'equipment.pump.free_gas_max';
const GAS = 'fluid.gas_oil_ratio';
const MEND = 'Hang the pump deeper, separate more of the gas, or draw the well down less.';

export const PUMP_FREE_GAS: Check = check({
  id: 'pump.free-gas',
  severity: 'warning',
  title: 'more free gas than the pump stands',
  compares:
    'the free gas that enters the pump in each case with the most on its data sheet; the trip has a bound of its own',
  why: 'Gas in the chamber or the stages lets the pump lock: it turns or strokes, and moves nothing.',
  mend: MEND,
  source: 'volume balance with Standing 1947; the pump’s data sheet',
  example: { lift: 'linear', fails: { [MOST]: '5 %' }, at: GAS },
  when: [present(MOST), NOT_AT_THE_TRIP],
  needs: { gas: value('fluid.free_gas_fraction'), most: entry(MOST) },
  run: ({ gas, most }, context) =>
    atMost(context, {
      key: GAS,
      kind: 'ratio',
      number: gas,
      limit: most,
      says: (own, allowed) =>
        `In the case '${context.caseName}' ${own} of what enters the pump is free gas, more than the ${allowed} that it stands. ${MEND}`,
      related: [
        { key: MOST, message: 'what the pump stands' },
        { key: 'operation.gas_separation', message: 'the separation that is counted on' },
      ],
    }),
});

export const PUMP_GAS_INTERFERENCE: Check = check({
  id: 'pump.gas-interference',
  severity: 'warning',
  title: 'gas makes the pump surge',
  compares: 'the gas interference of each case, 2000·(gas/liquid)/(3·p in psi absolute), with 1',
  why: 'Above it the head of a rotary pump breaks down: rate and current swing, and the unit trips on underload.',
  mend: MEND,
  source: 'Turpin, Lea and Bearden 1986 (from memory)',
  example: {
    lift: 'rotary',
    fails: {
      [GAS]: '190 m3/m3',
      'reservoir.bubble_point': '135 bar',
      [MOST]: '95 %',
      'equipment.pump.gas_separation': '0 %',
    },
    at: GAS,
  },
  when: [ROTARY],
  needs: { interference: value('fluid.gas_interference'), most: limit('pump.gas-interference') },
  run: ({ interference, most }, context) =>
    atMost(context, {
      key: GAS,
      kind: 'plain',
      number: interference,
      limit: most,
      says: (own, allowed) =>
        `In the case '${context.caseName}' the gas interference is ${own}; above ${allowed} a rotary pump surges. ${MEND}`,
      follows: ['pump.free-gas'],
    }),
});
