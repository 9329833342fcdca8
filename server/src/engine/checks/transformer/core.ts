import { WITH_TRANSFORMER } from '../../values/conditions.ts';
import {
  eachCase,
  eachCaseText,
  entry,
  knownCases,
  limit,
  optionalEntry,
  type Seen,
  value,
} from '../../values/declare.ts';
import { FLUX, fluxLimit, loadFactor, TRANSFORMER } from '../../values/transformer/core.ts';
import type { CheckContext } from '../context.ts';
import { type Check, check, type Judgement, type Verdict } from '../declare.ts';
import { following, mendedByHigherTap, TAP_CHOICE } from '../tap/alternatives.ts';

/*
 * Three checks look at one thing, a core that cannot follow: it is reported once. A tap that is too low is the tap's
 * mistake; else below half of the rated frequency it is that the winding's drop rules there, above it the flux.
 */

const RATED = 'equipment.transformer.frequency';
const LOWEST_SET = 'setpoints.drive.min_frequency';
const FLUX_ID = 'transformer.flux';
const SATURATES_ID = 'transformer.saturates-at-low-frequency';
const BELOW_WINDOW = ['tap.below-window', 'tap.phase-voltage'];
const IEC = 'IEC 60076-1 5.4.3, 1.10 − 0.05·K of rated volts per hertz (from memory)';

function isLow(frequency: number, rated: number): boolean {
  return frequency < rated / 2;
}

const FLUX_INPUTS = {
  ...TAP_CHOICE,
  ...FLUX,
  ...TRANSFORMER,
  flux: value('transformer.flux'),
  current: value('motor.current'),
  frequency: value('motor.frequency'),
  tap: value('transformer.tap_voltage'),
  comfortable: limit('transformer.flux'),
};

export const CORE_FLUX: Check = check({
  id: FLUX_ID,
  severity: 'error',
  title: 'too many volts per hertz on the transformer’s core',
  compares:
    'the volts per hertz that the drive must give over the transformer’s rated ones, with 1.10 less 0.05 at full load; ' +
    'above 1.05 is a warning',
  why: 'A saturated core draws a current without measure: the drive trips, or the core heats.',
  mend: 'Take a higher tap if one serves, else a transformer for this frequency.',
  source: IEC,
  example: { lift: 'rotary', fails: { [RATED]: '85 Hz' }, at: RATED },
  when: [WITH_TRANSFORMER],
  needs: FLUX_INPUTS,
  run: (seen, context) => {
    const most = fluxLimit(seen.fluxNoLoad, loadFactor(seen, seen.current, seen.tap));
    if (seen.flux > most) return linked(seen, overfluxed(context, seen, most, 'error'));
    if (seen.flux > seen.comfortable) return overfluxed(context, seen, seen.comfortable, 'warning');
    return { margin: { number: seen.comfortable - seen.flux, kind: 'plain' } };
  },
});

type FluxSeen = Seen<typeof FLUX_INPUTS>;

function overfluxed(context: CheckContext, seen: FluxSeen, most: number, severity: 'error' | 'warning'): Judgement {
  const show = (number: number) => context.show(number, 'plain');
  return {
    key: RATED,
    severity,
    message: `The core carries ${show(seen.flux)} times its rated volts per hertz at ${context.show(seen.frequency, 'frequency', RATED)} in the case '${context.caseName}', above ${show(most)}. ${CORE_FLUX.mend}`,
    value: { number: seen.flux, kind: 'plain' },
    limit: { number: most, kind: 'plain' },
  };
}

function linked(seen: FluxSeen, judgement: Judgement): Verdict {
  if (mendedByHigherTap(seen)) return { ...judgement, follows: BELOW_WINDOW };
  return following(judgement, isLow(seen.frequency, seen.ratedFrequency), SATURATES_ID);
}

const SATURATION_INPUTS = {
  ...TAP_CHOICE,
  lowest: knownCases('transformer.lowest_frequency'),
  fluxes: eachCase('transformer.flux'),
  frequencies: eachCase('motor.frequency'),
  currents: eachCase('motor.current'),
  intakes: eachCaseText('intake'),
  rated: entry(RATED),
  minimum: optionalEntry(LOWEST_SET),
};
type SaturationSeen = Seen<typeof SATURATION_INPUTS>;

export const SATURATES: Check = check({
  id: SATURATES_ID,
  severity: 'error',
  title: 'transformer that cannot follow at low frequency',
  compares:
    'the frequency of each case, and as a note the minimum frequency of the drive, with the least at which the core ' +
    'carries the voltage that the case’s current needs',
  why:
    'The drop in winding and cable does not shrink with frequency, and what a core can carry does. A linear motor runs ' +
    'through zero speed at full current twice a stroke.',
  mend: 'Take a transformer that is made for such a frequency, a higher tap, or a thicker cable.',
  source: `circuit of motor, cable and transformer, any machines text; ${IEC}`,
  example: { lift: 'linear', fails: { [RATED]: '50 Hz' }, at: RATED },
  when: [WITH_TRANSFORMER],
  needs: SATURATION_INPUTS,
  run: (seen, context) => {
    const caseIndex = furthestBelow(seen);
    return caseIndex === undefined ? minimumTooLow(context, seen) : cannotFollow(context, seen, caseIndex);
  },
});

/** The least frequency that the core follows in a case; infinite where it has its flux and follows at none. */
function lowestIn({ lowest, fluxes }: SaturationSeen, at: number): number {
  const known = lowest[at] ?? Number.NaN;
  return Number.isFinite(known) || Number.isNaN(fluxes[at]) ? known : Number.POSITIVE_INFINITY;
}

/** The case that is furthest below what its core follows. */
function furthestBelow(seen: SaturationSeen): number | undefined {
  const ratios = seen.frequencies.map((frequency, at) => frequency / lowestIn(seen, at));
  const worst = Math.min(...ratios.filter(Number.isFinite));
  return worst < 1 ? ratios.indexOf(worst) : undefined;
}

function cannotFollow(context: CheckContext, seen: SaturationSeen, caseIndex: number): Verdict {
  const frequency = seen.frequencies[caseIndex] ?? Number.NaN;
  const lowest = lowestIn(seen, caseIndex);
  const show = (number: number) => context.show(number, 'frequency', RATED);
  const reach = Number.isFinite(lowest)
    ? `the core follows down to ${show(lowest)} only`
    : 'the core follows at no frequency';
  const judgement: Judgement = {
    key: RATED,
    caseIndex,
    message: `The case '${context.evaluation.caseName(caseIndex)}' runs at ${show(frequency)}, and at its current ${reach}. ${SATURATES.mend}`,
    value: { number: frequency, kind: 'frequency' },
    ...(Number.isFinite(lowest) ? { limit: { number: lowest, kind: 'frequency' } } : {}),
    related: [{ key: 'setpoints.transformer.tap', message: 'the tap' }],
  };
  if (mendedByHigherTap(seen)) return { ...judgement, follows: BELOW_WINDOW };
  return following(judgement, !isLow(frequency, seen.rated), FLUX_ID);
}

function minimumTooLow(context: CheckContext, seen: SaturationSeen): Verdict {
  const { lowest, currents, intakes, minimum } = seen;
  const running = currents.map((current, at) => (intakes[at] === 'static' ? Number.NaN : current));
  const caseIndex = running.indexOf(Math.max(...running.filter(Number.isFinite)));
  const least = lowest[caseIndex];
  if (minimum === undefined || least === undefined || minimum >= least) return undefined;
  const show = (number: number) => context.show(number, 'frequency', LOWEST_SET);
  return {
    key: LOWEST_SET,
    caseIndex,
    severity: 'note',
    message: `The minimum frequency of ${show(minimum)} is below ${show(least)}, down to which the core follows at the current of the case '${context.evaluation.caseName(caseIndex)}'. Raise it, or keep to the frequencies of the cases.`,
    value: { number: minimum, kind: 'frequency' },
    limit: { number: least, kind: 'frequency' },
  };
}
