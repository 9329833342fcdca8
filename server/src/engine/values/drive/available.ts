import { absent, DIRECT_ON_LINE, present, TRIMMED, VOLTS_PER_HERTZ, WITH_DRIVE } from '../conditions.ts';
import {
  declareValue,
  entry,
  entryOr,
  method,
  optionalEntry,
  type Seen,
  type ValueDeclaration,
  value,
  valueBy,
} from '../declare.ts';

/** Ends of the supply's tolerance band, V. */
const SUPPLY = { supply: entry('supply.voltage'), tolerance: entry('supply.tolerance') };

const OUTPUT = {
  ...SUPPLY,
  outputRating: entry('equipment.drive.output_voltage'),
  inputRating: optionalEntry('equipment.drive.input_voltage'),
};

/** Output over input of the drive; 1 if the sheet states no input rating. */
function outputRatio({ outputRating, inputRating }: Seen<typeof OUTPUT>): number {
  return inputRating === undefined ? 1 : outputRating / inputRating;
}

function lowEnd(seen: Seen<typeof OUTPUT>): number {
  return Math.min(seen.outputRating, seen.supply * (1 - seen.tolerance) * outputRatio(seen));
}

/** Share of the rated output that the volts-per-hertz line gives at a frequency, at most 1. */
export function lineShare(frequency: number, baseFrequency: number): number {
  return Math.min(1, frequency / baseFrequency);
}

const HOTTEST = 'site.ambient.max';
const DERATING_SOURCE = 'data sheet (altitude and ambient derating, common practice of catalogues)';
const ALTITUDE = {
  elevation: entryOr('site.elevation', 0, 'sea level where no elevation is entered'),
  perMetre: entryOr('equipment.drive.derating.altitude', 0, 'no derating where the sheet gives none'),
  above: entryOr('equipment.drive.derating.above', 1_000, 'ratings hold up to 1000 m (from memory)'),
};

function leftByAltitude({ elevation, perMetre, above }: Seen<typeof ALTITUDE>): number {
  return Math.max(0, 1 - perMetre * Math.max(0, elevation - above));
}

const LEAST = 'the least of what supply and drive give';

export const DRIVE_OUTPUT: readonly ValueDeclaration[] = [
  valueBy('drive.lowest_output', 'output that is left at the low end of the supply', 'voltage', [
    method({
      when: [WITH_DRIVE],
      formula: 'min(rated output, V_supply·(1 − tolerance)·output/input rating)',
      source: LEAST,
      inputs: OUTPUT,
      compute: (seen) => ({ number: lowEnd(seen), supply: 'low' }),
    }),
    method({
      when: [DIRECT_ON_LINE],
      formula: 'V_supply·(1 − tolerance)',
      source: 'started direct on line',
      inputs: SUPPLY,
      compute: ({ supply, tolerance }) => ({ number: supply * (1 - tolerance), supply: 'low' }),
    }),
  ]),
  valueBy('drive.highest_output', 'highest output of the drive', 'voltage', [
    method({
      when: [WITH_DRIVE],
      formula: 'min(rated output, V_supply·(1 + tolerance))',
      source: 'a drive does not give more than it gets, nor more than its rating',
      inputs: OUTPUT,
      compute: (seen) => ({
        number: Math.min(seen.outputRating, seen.supply * (1 + seen.tolerance)),
        supply: 'high',
      }),
    }),
    method({
      when: [DIRECT_ON_LINE],
      formula: 'V_supply·(1 + tolerance)',
      source: 'started direct on line',
      inputs: SUPPLY,
      compute: ({ supply, tolerance }) => ({ number: supply * (1 + tolerance), supply: 'high' }),
    }),
  ]),
  valueBy('drive.supply_voltage', 'voltage that supply and drive can give at the case’s frequency', 'voltage', [
    method({
      when: [WITH_DRIVE, TRIMMED],
      formula: 'lowest output',
      source: LEAST,
      inputs: { lowest: value('drive.lowest_output') },
      compute: ({ lowest }) => ({ number: lowest, supply: 'low' }),
    }),
    method({
      when: [WITH_DRIVE, VOLTS_PER_HERTZ],
      formula: 'min(lowest output, rated output·f/base frequency)',
      source: 'volts-per-hertz line of the drive',
      inputs: {
        lowest: value('drive.lowest_output'),
        rating: entry('equipment.drive.output_voltage'),
        frequency: value('motor.frequency'),
        base: entry('setpoints.drive.base_frequency'),
      },
      compute: ({ lowest, rating, frequency, base }) => ({
        number: Math.min(lowest, rating * lineShare(frequency, base)),
        supply: 'low',
      }),
    }),
    method({
      when: [DIRECT_ON_LINE],
      formula: 'lowest output',
      source: LEAST,
      inputs: { lowest: value('drive.lowest_output') },
      compute: ({ lowest }) => ({ number: lowest, supply: 'low' }),
    }),
  ]),
  valueBy('drive.derating', 'share of the rated current left by heat and altitude', 'ratio', [
    method({
      when: [WITH_DRIVE, present(HOTTEST)],
      formula: '[1 − k_T·(T − T_max)]·[1 − k_h·(h − h_0)], each only above its limit',
      source: DERATING_SOURCE,
      inputs: {
        ...ALTITUDE,
        hottest: entry(HOTTEST),
        ambientMax: optionalEntry('equipment.drive.ambient_max'),
        perKelvin: entryOr('equipment.drive.derating.ambient', 0, 'no derating where the sheet gives none'),
      },
      compute: ({ hottest, ambientMax, perKelvin, ...altitude }) => {
        const excess = ambientMax === undefined ? 0 : Math.max(0, hottest - ambientMax);
        return Math.max(0, 1 - perKelvin * excess) * leftByAltitude(altitude);
      },
    }),
    method({
      when: [WITH_DRIVE, absent(HOTTEST)],
      formula: '1 − k_h·(h − h_0), only above its limit',
      source: DERATING_SOURCE,
      inputs: ALTITUDE,
      assumes: 'no derating for heat: no highest ambient temperature of the site is entered',
      compute: leftByAltitude,
    }),
  ]),
  declareValue({
    id: 'drive.current_rating',
    title: 'rated current of the drive after derating',
    kind: 'current',
    when: [WITH_DRIVE],
    formula: 'I_drive × derating',
    source: 'data sheet',
    inputs: { rating: entry('equipment.drive.output_current'), derating: value('drive.derating') },
    compute: ({ rating, derating }) => rating * derating,
  }),
];
