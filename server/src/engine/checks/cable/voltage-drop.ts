import { entry, limit, type Seen, value } from '../../values/declare.ts';
import type { CheckContext } from '../context.ts';
import { type Check, check, type Verdict } from '../declare.ts';
import { atMost } from '../within.ts';
import { MAIN_KEY } from './runs.ts';

/** Below this share of its rated frequency a motor needs so little voltage that a share of it says nothing. */
const SLOW = 0.5;
/** Mistakes that make the drop larger than it is. */
const CAUSES = ['cable.shorter-than-depth-in-feet', 'cable.much-too-long', 'cable.resistance-implausible'];
const MEND = 'Use a thicker conductor, or a motor for a higher voltage.';

const NEEDS = {
  drop: value('cable.voltage_drop'),
  perLength: value('cable.drop_per_length'),
  frequency: value('motor.frequency'),
  ratedFrequency: entry('equipment.motor.frequency'),
  rated: entry('equipment.motor.voltage'),
  voltage: value('motor.voltage'),
  share: limit('cable.voltage-drop'),
  most: limit('cable.voltage-drop.per-length'),
};

function asShare(context: CheckContext, seen: Seen<typeof NEEDS>): Verdict {
  const { drop, frequency, ratedFrequency, rated, voltage, share } = seen;
  const isSlow = frequency < SLOW * ratedFrequency;
  const of = isSlow ? rated : Math.min(rated, voltage);
  if (!(of > 0)) return undefined;
  const words = of === voltage ? 'what the motor needs there' : 'the rated voltage of the motor';
  return atMost(context, {
    key: MAIN_KEY,
    kind: 'ratio',
    number: drop / of,
    limit: share,
    says: (own, most) =>
      `In the case '${context.caseName}' the cable drops ${context.show(drop, 'voltage')}, ${own} of ${words}, ${context.show(of, 'voltage')}; ${most} is the limit. ${MEND}`,
    follows: CAUSES,
  });
}

function perLength(context: CheckContext, { perLength: drop, most }: Seen<typeof NEEDS>): Verdict {
  return atMost(context, {
    key: MAIN_KEY,
    kind: 'voltage_per_length',
    number: drop,
    limit: most,
    says: (own, allowed) =>
      `In the case '${context.caseName}' the cable drops ${own}, more than the ${allowed} that is usual. ${MEND}`,
    follows: CAUSES,
  });
}

export const CABLE_VOLTAGE_DROP: Check = check({
  id: 'cable.voltage-drop',
  severity: 'warning',
  title: 'large voltage drop in the cable',
  compares:
    'the drop of each case with 10 % of the motor’s rated voltage, at half its rated frequency and above also of ' +
    'the voltage ' +
    'that it needs there, and with 30 V/1000 ft',
  why: 'What the cable drops it turns into heat and into money; the motor’s voltage swings with its load.',
  mend: MEND,
  source: 'common practice; 30 V/1000 ft is widely quoted as an API recommended practice (from memory)',
  example: {
    lift: 'rotary',
    fails: { [`${MAIN_KEY}.conductor`]: '6 mm2', [`${MAIN_KEY}.resistance_20`]: '3.08 ohm/km' },
    at: MAIN_KEY,
  },
  needs: NEEDS,
  run: (seen, context) => {
    const share = asShare(context, seen);
    // The drop per length is the same drop; it is only told where the share of the voltage is well.
    return share !== undefined && 'message' in share ? share : (beyondPerLength(context, seen) ?? share);
  },
});

function beyondPerLength(context: CheckContext, seen: Seen<typeof NEEDS>): Verdict {
  const verdict = perLength(context, seen);
  return verdict !== undefined && 'message' in verdict ? verdict : undefined;
}
