import { present } from '../../values/conditions.ts';
import { entry } from '../../values/declare.ts';
import { type Check, checkOfParts, type Part, part } from '../declare.ts';

/** Below it a share of this sort is hardly ever meant; nothing at all is. */
const LEAST = 0.01;

interface Share {
  readonly key: string;
  /** With its article, as the subject of a sentence. */
  readonly title: string;
}

/** Shares that are either nothing or some per cent. */
const SHARES: readonly Share[] = [
  { key: 'fluid.water_cut', title: 'A water cut' },
  { key: 'supply.tolerance', title: 'A tolerance of the supply' },
  { key: 'operation.gas_separation', title: 'A gas separation' },
  { key: 'operation.stroke.up_fraction', title: 'An up-stroke' },
  { key: 'equipment.pump.volumetric_efficiency', title: 'A volumetric efficiency' },
  { key: 'equipment.pump.gas_separation', title: 'A gas separation' },
  { key: 'equipment.pump.free_gas_max', title: 'A limit of free gas' },
  { key: 'equipment.motor.efficiency', title: 'An efficiency' },
  { key: 'setpoints.protection.current_unbalance.trip', title: 'A trip on current unbalance' },
  { key: 'setpoints.protection.voltage_unbalance.trip', title: 'A trip on voltage unbalance' },
];

function partFor({ key, title }: Share): Part {
  return part({
    when: [present(key)],
    needs: { share: entry(key) },
    run: ({ share }, context) => {
      if (!(share > 0 && share < LEAST)) return undefined;
      const meant = context.show(100 * share, 'ratio', key);
      return {
        key,
        message: `${title} of ${context.text(key)} is next to nothing. If ${meant} is meant, the fraction was written with a per cent sign: write '${meant}'.`,
        value: { number: share, kind: 'ratio' },
        limit: { number: LEAST, kind: 'ratio' },
        fixes: [{ title: `Write ${meant}, a hundred times as much`, kind: 'offer', key, newText: meant }],
      };
    },
  });
}

export const FRACTION_FOR_PERCENT: Check = checkOfParts(
  {
    id: 'units.fraction-for-percent',
    severity: 'warning',
    title: 'share that looks like a fraction with a per cent sign',
    compares: 'shares that are mostly nothing or some per cent, such as the water cut, with 1 %',
    why: '0.6 % for 60 % is off by a hundred, and every number that rests on it with it.',
    mend: 'Write the share in per cent, or set the check aside where so little is meant.',
    source: 'common practice, no source',
    example: { lift: 'linear', fails: { 'fluid.water_cut': '0.4 %' }, at: 'fluid.water_cut' },
  },
  SHARES.map(partFor),
);
