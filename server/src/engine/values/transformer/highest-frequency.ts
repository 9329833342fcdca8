import { FLOWING_CASE, INDUCTION, LINEAR, PERMANENT_MAGNET, ROTARY, WITH_DRIVE } from '../conditions.ts';
import {
  entry,
  type Method,
  method,
  optionalEntry,
  type Seen,
  text,
  type ValueDeclaration,
  value,
  valueBy,
} from '../declare.ts';
import { lineShare } from '../drive/available.ts';
import { inductionCurrent } from '../motor/operation.ts';
import { bracketedRoot } from '../numeric/roots.ts';
import { ROOT3 } from '../physics.ts';
import { FLUX, FLUX_SOURCE, type Load, neededDriveVoltage, saturationVoltage, TRANSFORMER_SOURCE } from './core.ts';
import { AT_OTHER_FREQUENCIES, loadAt } from './operation.ts';

/** How many times the frequency of the case is looked at. */
const FURTHEST = 4;
const AFFINITY = 'affinity laws: power ∝ f³, so load over the motor’s rating ∝ f²';

const DUTY = {
  ...AT_OTHER_FREQUENCIES,
  ...FLUX,
  lowest: value('drive.lowest_output'),
  output: entry('equipment.drive.output_voltage'),
  rating: value('drive.current_rating'),
  mode: text('setpoints.drive.voltage_mode'),
  base: optionalEntry('setpoints.drive.base_frequency'),
};
type Duty = Seen<typeof DUTY>;

/** How many times the current of the case is drawn at a multiple of its frequency. */
type Growth = (multiple: number) => number;

/** The load of the case at another frequency and with the current that goes with it: the winding's drop grows too. */
function dutyAt(duty: Duty, growth: Growth, frequency: number): Load {
  const grown = growth(frequency / duty.frequency);
  const more = (grown - 1) * duty.standstillVoltage;
  const inPhase = duty.voltage * duty.powerFactor + more * duty.standstillFactor;
  const across = duty.voltage * sine(duty.powerFactor) + more * sine(duty.standstillFactor);
  const voltage = Math.hypot(inPhase, across);
  const load: Load = { ...duty, current: duty.current * grown, voltage, powerFactor: inPhase / voltage };
  return loadAt(load, { ...duty, standstillVoltage: duty.standstillVoltage * grown }, frequency);
}

function sine(cosine: number): number {
  return Math.sqrt(Math.max(0, 1 - cosine ** 2));
}

/** By how much, as a share, voltage or current is missing at a frequency; negative where the tap serves. */
function shortfall(duty: Duty, growth: Growth, frequency: number): number {
  const load = dutyAt(duty, growth, frequency);
  const core = saturationVoltage(duty, duty.fluxNoLoad, { ...load, tap: duty.tap });
  const currentLeft = Math.min((duty.primary * duty.rating) / duty.tap, duty.power / (ROOT3 * duty.tap));
  const voltage = neededDriveVoltage(duty, load, duty.tap) / Math.min(suppliedAt(duty, frequency), core);
  return Math.max(voltage, load.current / currentLeft) - 1;
}

function suppliedAt({ lowest, output, mode, base }: Duty, frequency: number): number {
  if (mode === 'trimmed') return lowest;
  return base === undefined ? Number.NaN : Math.min(lowest, output * lineShare(frequency, base));
}

function highest(duty: Duty, growth: Growth) {
  const excess = (frequency: number) => shortfall(duty, growth, frequency);
  const furthest = FURTHEST * duty.frequency;
  if (!(excess(duty.frequency) <= 0)) return { number: Number.NaN, supply: 'low' as const };
  const number = excess(furthest) <= 0 ? furthest : bracketedRoot(excess, duty.frequency, furthest);
  return { number, supply: 'low' as const };
}

const COMMON = {
  formula:
    'greatest f, at most four times that of the case, at which emf(f)·V_1/V_t is available and drive and winding carry I(f)',
  without: 'the tap does not serve the case itself',
} as const;

const linear: Method = method({
  ...COMMON,
  when: [WITH_DRIVE, FLOWING_CASE, LINEAR],
  source: `${TRANSFORMER_SOURCE}; ${FLUX_SOURCE}; a plunger’s force does not depend on its speed`,
  inputs: DUTY,
  compute: (duty) => highest(duty, () => 1),
});

const magnet: Method = method({
  ...COMMON,
  when: [WITH_DRIVE, FLOWING_CASE, ROTARY, PERMANENT_MAGNET],
  source: `${TRANSFORMER_SOURCE}; ${FLUX_SOURCE}; ${AFFINITY}`,
  inputs: DUTY,
  compute: (duty) => highest(duty, (multiple) => multiple ** 2),
});

const induction: Method = method({
  ...COMMON,
  when: [WITH_DRIVE, FLOWING_CASE, ROTARY, INDUCTION],
  source: `${TRANSFORMER_SOURCE}; ${FLUX_SOURCE}; ${AFFINITY}`,
  inputs: { ...DUTY, share: value('motor.magnetising_share'), load: value('motor.load') },
  compute: ({ share, load, ...duty }) =>
    highest(duty, (multiple) => inductionCurrent(1, share, load * multiple ** 2) / inductionCurrent(1, share, load)),
});

export const HIGHEST_FREQUENCY: readonly ValueDeclaration[] = [
  valueBy('transformer.highest_frequency', 'highest frequency at which the tap serves the duty', 'frequency', [
    linear,
    magnet,
    induction,
  ]),
];
