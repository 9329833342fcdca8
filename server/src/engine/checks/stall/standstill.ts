import { DIRECT_ON_LINE, switchedOn, WITH_DRIVE } from '../../values/conditions.ts';
import { type Condition, entry, optionalValue, text, value } from '../../values/declare.ts';
import type { CheckContext } from '../context.ts';
import { type Check, check, checkOfParts, type Judgement, type Offer, part, type Verdict } from '../declare.ts';

/** A protection that stops a motor which does not move: of a plunger that is stuck, of a rotor that is held. */
interface Standstill {
  readonly name: 'stall' | 'locked_rotor';
  /** First part of the ids of its checks. */
  readonly id: string;
  /** As one says it before "trip". */
  readonly title: string;
}

const STALL: Standstill = { name: 'stall', id: 'stall', title: 'stall' };
const LOCKED_ROTOR: Standstill = { name: 'locked_rotor', id: 'locked-rotor', title: 'locked-rotor' };

const group = ({ name }: Standstill) => `setpoints.protection.${name}`;

/** A trip at the motor's side of the transformer that is switched on. */
function inUse(protection: Standstill): readonly Condition[] {
  return [...switchedOn(protection.name), { path: `${group(protection)}.side`, isNot: ['drive'] }];
}

function belowRunning(protection: Standstill): Check {
  const { id, title } = protection;
  const key = `${group(protection)}.trip`;
  return check({
    id: `${id}.below-running`,
    severity: 'error',
    title: `${title} trip that normal running sets off`,
    compares: `the ${title} trip with the running current in every case, at the peak of a stroke or over the cycle as its basis says`,
    why: 'The motor draws this current whenever it runs, so the unit would stop as if it stood still.',
    mend: 'Set the trip above the highest running current.',
    source: 'logic of limits',
    example: {
      lift: 'linear',
      fails: { [group(protection)]: '{ trip: 8 A, delay: 3 s, basis: stroke_peak }' },
      passes: { [group(protection)]: '{ trip: 18 A, delay: 3 s, basis: stroke_peak }' },
      at: key,
    },
    when: inUse(protection),
    needs: {
      trip: entry(key),
      basis: text(`${group(protection)}.basis`, 'cycle_rms'),
      peak: value('motor.current'),
      average: value('motor.current_rms'),
      most: optionalValue('drive.current_limit_at_motor'),
    },
    run: ({ trip, basis, peak, average, most }, context) => {
      const running = basis === 'stroke_peak' ? peak : average;
      if (trip > running) return { margin: { number: trip - running, kind: 'current' } };
      const show = (current: number) => context.show(current, 'current', key);
      return {
        ...measured(key, trip, running),
        message: `The ${title} trip of ${show(trip)} is not above the running current, ${show(running)} in the case '${context.caseName}': normal running would stop the unit. Set it above ${show(running)}.`,
        fixes: most === undefined ? [] : midway(key, title, running, most, show),
      };
    },
  });
}

/** The offer of a trip between what the motor draws running and the most that it can be given, as far from both. */
function midway(
  key: string,
  title: string,
  running: number,
  most: number,
  show: (current: number) => string,
): readonly Offer[] {
  if (running >= most) return [];
  const newText = show(Number(Math.sqrt(running * most).toPrecision(3)));
  return [
    {
      title: `Set the ${title} trip to ${newText}, midway to the ${show(most)} that the drive can push`,
      kind: 'offer',
      key,
      newText,
    },
  ];
}

function measured(key: string, trip: number, limit: number): Omit<Judgement, 'message'> {
  return { key, value: { number: trip, kind: 'current' }, limit: { number: limit, kind: 'current' } };
}

function neverActs(protection: Standstill): Check {
  const { id, title } = protection;
  const key = `${group(protection)}.trip`;
  const judge = (trip: number, most: number, what: string, context: CheckContext): Verdict => {
    if (trip < most) return { margin: { number: most - trip, kind: 'current' } };
    const show = (current: number) => context.show(current, 'current', key);
    return {
      ...measured(key, trip, most),
      message: `The ${title} trip of ${show(trip)} is not below ${what}, ${show(most)}: it would never act. Lower it.`,
    };
  };
  return checkOfParts(
    {
      id: `${id}.never-acts`,
      severity: 'error',
      title: `${title} trip that is never reached`,
      compares:
        `the ${title} trip with the most that the drive can push at the motor’s side; on the line, with the current of ` +
        'the locked rotor at the voltage that cable, transformer and a low supply leave it',
      why: 'The motor stands still and heats within seconds, and the protection for just that does not act.',
      mend: 'Lower the trip below the current of the standing motor.',
      source: 'the drive’s data sheet; the locked rotor as an impedance, any machines text',
      example: {
        lift: 'linear',
        fails: { [group(protection)]: '{ trip: 90 A, delay: 3 s, basis: stroke_peak }' },
        passes: { [group(protection)]: '{ trip: 18 A, delay: 3 s, basis: stroke_peak }' },
        at: key,
      },
    },
    [
      part({
        when: [...inUse(protection), WITH_DRIVE],
        needs: { trip: entry(key), most: value('drive.current_limit_at_motor') },
        run: ({ trip, most }, context) => judge(trip, most, 'the most that the drive pushes', context),
      }),
      part({
        when: [...inUse(protection), DIRECT_ON_LINE],
        needs: {
          trip: entry(key),
          locked: entry('equipment.motor.locked_rotor_current'),
          left: value('cable.start_voltage_by_impedance'),
        },
        run: ({ trip, locked, left }, context) =>
          judge(trip, locked * left, 'what the locked rotor draws behind its cable', context),
      }),
    ],
  );
}

/** Trips on the current of a motor that stands. */
export const STANDSTILL_CHECKS: readonly Check[] = [STALL, LOCKED_ROTOR].flatMap((protection) => [
  belowRunning(protection),
  neverActs(protection),
]);
