import { type Input, limit, value } from '../../values/declare.ts';
import type { CheckContext } from '../context.ts';
import { type Check, check, type Verdict } from '../declare.ts';
import { atLeast, atMost, type Limited } from '../within.ts';

interface Gradient {
  readonly kind: string;
  readonly key: string;
  /** "A reservoir pressure of". */
  readonly says: string;
  readonly mend: string;
}

const BOUNDS = (name: string): { readonly least: Input<number>; readonly most: Input<number> } => ({
  least: limit(name),
  most: limit(`${name}.highest`),
});

/** A gradient outside of what rock has: a number with the wrong unit. */
function believable(
  context: CheckContext,
  { kind, key, says, mend }: Gradient,
  { gradient, least, most }: { readonly gradient: number; readonly least: number; readonly most: number },
): Verdict {
  const isLow = gradient < least;
  const limited: Limited = {
    key,
    kind,
    number: gradient,
    limit: isLow ? least : most,
    says: (own, end) =>
      `${says} ${context.text(key)} means ${own}, ${isLow ? 'less' : 'more'} than the ${end} that is usual. ${mend}`,
    related: [{ key: 'well.perforations', message: 'the depth that it is spread over' }],
  };
  return isLow ? atLeast(context, limited) : atMost(context, limited);
}

const PRESSURE = 'reservoir.pressure';
const TEMPERATURE = 'reservoir.temperature';

export const RESERVOIR_PRESSURE_GRADIENT: Check = check({
  id: 'reservoir.pressure-gradient',
  severity: 'warning',
  title: 'reservoir pressure does not suit the depth',
  compares: 'the reservoir pressure over the vertical depth of the perforations with 2 to 20 kPa/m',
  why: 'No reservoir that takes a pump lies outside of that: the unit of the pressure or of the depth is wrong.',
  mend: 'Look whether psi is entered as bar, or feet as metres.',
  source: 'common practice, no source',
  example: { lift: 'linear', fails: { [PRESSURE]: '400 bar' }, at: PRESSURE },
  needs: { gradient: value('reservoir.pressure_gradient'), ...BOUNDS('reservoir.pressure-gradient') },
  run: (seen, context) =>
    believable(
      context,
      {
        kind: 'pressure_gradient',
        key: PRESSURE,
        says: 'A reservoir pressure of',
        mend: 'Look at its unit, bar or psi, and at that of the depth, metres or feet.',
      },
      seen,
    ),
});

export const RESERVOIR_TEMPERATURE_GRADIENT: Check = check({
  id: 'reservoir.temperature-gradient',
  severity: 'warning',
  title: 'reservoir temperature does not suit the depth',
  compares: 'the rise of temperature from the surface to the perforations with 10 to 60 K/km',
  why: 'Nearly all wells lie between these: the unit of the temperature or of the depth is wrong.',
  mend: 'Look whether degF is entered as degC, or feet as metres.',
  source: 'geothermal texts; the limits are common practice, no source',
  example: { lift: 'linear', fails: { [TEMPERATURE]: '136 degC' }, at: TEMPERATURE },
  needs: { gradient: value('reservoir.temperature_gradient'), ...BOUNDS('reservoir.temperature-gradient') },
  run: (seen, context) =>
    believable(
      context,
      {
        kind: 'temperature_gradient',
        key: TEMPERATURE,
        says: 'A reservoir temperature of',
        mend: 'Look at its unit, degC or degF, and at that of the depth, metres or feet.',
      },
      seen,
    ),
});
