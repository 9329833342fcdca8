import { declareValue, entry, method, text, type ValueDeclaration, value, valueBy } from '../declare.ts';
import { bracketedRoot } from '../numeric/roots.ts';
import { ROOT3 } from '../physics.ts';
import {
  emfAt,
  FLUX,
  FLUX_SOURCE,
  LOAD,
  type Load,
  neededDriveVoltage,
  saturationVoltage,
  TRANSFORMER,
  TRANSFORMER_SOURCE,
  type Transformer,
} from './core.ts';
import { TAPS } from './tap-window.ts';

const SET_TAP = value('transformer.tap_voltage');

/** Inputs of the circuit at the current of the case and any frequency. */
export const AT_OTHER_FREQUENCIES = {
  ...TRANSFORMER,
  ...LOAD,
  ...FLUX,
  tap: SET_TAP,
  standstillVoltage: value('motor.standstill_voltage'),
  standstillFactor: value('motor.standstill_power_factor'),
};

export const TRANSFORMER_OPERATION: readonly ValueDeclaration[] = [
  valueBy('transformer.tap_voltage', 'voltage of the tap that is set', 'voltage', [
    method({
      formula: 'as the plate lists that tap',
      source: 'data sheet',
      inputs: { taps: TAPS, tap: text('setpoints.transformer.tap') },
      without: 'the plate does not list that tap',
      compute: ({ taps, tap }) => taps.find((each) => each.tap === tap)?.voltage ?? Number.NaN,
    }),
    method({
      formula: 'as entered',
      source: 'the entry itself',
      inputs: { voltage: entry('setpoints.transformer.voltage') },
      compute: ({ voltage }) => voltage,
    }),
  ]),
  declareValue({
    id: 'transformer.emf',
    title: 'emf of the transformer at the tap set',
    kind: 'voltage',
    formula: '|V_m + √3·I·(cos φ − j·sin φ)·(R_c + R_t + j·(X_c + X_t))|',
    source: TRANSFORMER_SOURCE,
    inputs: { ...TRANSFORMER, ...LOAD, tap: SET_TAP },
    without: 'the load loss exceeds the impedance',
    compute: ({ tap, ...seen }) => emfAt(seen, seen, tap),
  }),
  declareValue({
    id: 'transformer.apparent_power',
    title: 'apparent power drawn at the surface',
    kind: 'apparent_power',
    formula: '√3·V_surface·I',
    source: 'definition',
    inputs: { voltage: value('surface.required_voltage'), current: value('motor.current') },
    compute: ({ voltage, current }) => ROOT3 * voltage * current,
  }),
  declareValue({
    id: 'transformer.winding_loading',
    title: 'current over the rated current of the tap set',
    kind: 'ratio',
    formula: 'I/(S_r/(√3·V_t))',
    source: 'rated current of a tapping, IEC 60076-1 (from memory)',
    inputs: { current: value('motor.current'), power: TRANSFORMER.power, tap: SET_TAP },
    compute: ({ current, power, tap }) => current / (power / (ROOT3 * tap)),
  }),
  declareValue({
    id: 'transformer.loading',
    title: 'apparent power over the rating at that frequency',
    kind: 'ratio',
    formula: 'S/(S_r·min(1, f/f_t))',
    source: 'rated flux at rated frequency: the rating goes with frequency below it',
    inputs: {
      apparent: value('transformer.apparent_power'),
      rating: TRANSFORMER.power,
      frequency: value('motor.frequency'),
      ratedFrequency: TRANSFORMER.ratedFrequency,
    },
    compute: ({ apparent, rating, frequency, ratedFrequency }) =>
      apparent / (rating * Math.min(1, frequency / ratedFrequency)),
  }),
  declareValue({
    id: 'transformer.lowest_frequency',
    title: 'least frequency that the core follows at this current',
    kind: 'frequency',
    formula: 'least f with emf(f)·V_1/V_t ≤ (1.10 − 0.05·K)·V_1·f/f_t, V_m and X taken at f',
    source: `${TRANSFORMER_SOURCE}; ${FLUX_SOURCE}`,
    inputs: AT_OTHER_FREQUENCIES,
    without: 'no frequency up to twice the transformer’s own: the core cannot follow at this tap',
    compute: (seen) => lowestFrequency(seen, seen, seen),
  }),
  declareValue({
    id: 'transformer.flux',
    title: 'volts per hertz on the core over rated',
    kind: 'plain',
    formula: '(V_d/f)/(V_1/f_t)',
    source: 'transformer equation, flux in proportion to V/f, any machines text',
    inputs: {
      output: value('drive.output_voltage'),
      frequency: value('motor.frequency'),
      primary: TRANSFORMER.primary,
      ratedFrequency: TRANSFORMER.ratedFrequency,
    },
    compute: ({ output, frequency, primary, ratedFrequency }) => output / frequency / (primary / ratedFrequency),
  }),
  declareValue({
    id: 'drive.output_voltage',
    title: 'voltage that the drive must give',
    kind: 'voltage',
    formula: 'emf·V_1/V_t',
    source: 'turns ratio',
    inputs: { emf: value('transformer.emf'), primary: TRANSFORMER.primary, tap: SET_TAP },
    compute: ({ emf, primary, tap }) => (emf * primary) / tap,
  }),
  declareValue({
    id: 'drive.output_current',
    title: 'current that the drive must give',
    kind: 'current',
    formula: 'I·V_t/V_1',
    source: 'turns ratio; magnetising current left out',
    inputs: { current: value('motor.current'), tap: SET_TAP, primary: TRANSFORMER.primary },
    compute: ({ current, tap, primary }) => (current * tap) / primary,
  }),
  declareValue({
    id: 'drive.loading',
    title: 'current over the drive’s rating after derating',
    kind: 'ratio',
    formula: 'I_d/(I_drive × derating)',
    source: 'data sheet',
    inputs: { current: value('drive.output_current'), rating: value('drive.current_rating') },
    compute: ({ current, rating }) => current / rating,
  }),
  declareValue({
    id: 'drive.core_voltage',
    title: 'voltage at which the core of the transformer is at its limit',
    kind: 'voltage',
    formula: '(1.10 − 0.05·K)·V_1·f/f_t',
    source: FLUX_SOURCE,
    inputs: {
      ...TRANSFORMER,
      ...FLUX,
      tap: SET_TAP,
      current: value('motor.current'),
      frequency: value('motor.frequency'),
    },
    compute: ({ fluxNoLoad, tap, current, frequency, ...seen }) =>
      saturationVoltage(seen, fluxNoLoad, { tap, current, frequency }),
  }),
  declareValue({
    id: 'drive.available_voltage',
    title: 'voltage that drive, supply and core can give',
    kind: 'voltage',
    formula: 'min(V_supply·(1 − tolerance)·ratio, rated output, volts-per-hertz line, (1.10 − 0.05·K)·V_1·f/f_t)',
    source: FLUX_SOURCE,
    inputs: { supplied: value('drive.supply_voltage'), core: value('drive.core_voltage') },
    compute: ({ supplied, core }) => ({ number: Math.min(supplied, core), supply: 'low' }),
  }),
];

interface Setting {
  readonly tap: number;
  readonly fluxNoLoad: number;
  /** Voltage that the motor needs at standstill at this current, V, and its power factor there. */
  readonly standstillVoltage: number;
  readonly standstillFactor: number;
}

/** How much more voltage the load needs at a frequency than the core stands, V; negative where there is room. */
function excessOf(transformer: Transformer, load: Load, setting: Setting) {
  return (frequency: number) => {
    const at = loadAt(load, setting, frequency);
    const core = saturationVoltage(transformer, setting.fluxNoLoad, { ...at, tap: setting.tap });
    return neededDriveVoltage(transformer, at, setting.tap) - core;
  };
}

/** The least frequency at which the drive voltage that the load needs stays within what the core stands. */
function lowestFrequency(transformer: Transformer, load: Load, setting: Setting): number {
  const excess = excessOf(transformer, load, setting);
  const lowest = transformer.ratedFrequency * 1e-6;
  if (excess(lowest) <= 0) return 0;
  return bracketedRoot(excess, lowest, 2 * transformer.ratedFrequency);
}

/**
 * The same current at another frequency. Whatever the motor's model, its voltage in phase with the current and across
 * it goes in a straight line from standstill, where only the winding's drop is left, through the working point.
 */
export function loadAt(load: Load, { standstillVoltage, standstillFactor }: Setting, frequency: number): Load {
  const share = frequency / load.frequency;
  const between = (standstill: number, working: number) => standstill + (working - standstill) * share;
  const inPhase = between(standstillVoltage * standstillFactor, load.voltage * load.powerFactor);
  const across = between(standstillVoltage * sine(standstillFactor), load.voltage * sine(load.powerFactor));
  const voltage = Math.hypot(inPhase, across);
  return { ...load, frequency, reactance: load.reactance * share, voltage, powerFactor: inPhase / voltage };
}

function sine(cosine: number): number {
  return Math.sqrt(Math.max(0, 1 - cosine ** 2));
}
