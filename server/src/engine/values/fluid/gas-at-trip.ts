import { declareValue, entry, type Seen, type ValueDeclaration } from '../declare.ts';
import { bracketedRoot } from '../numeric/roots.ts';
import { freeGasRatio } from './free-gas.ts';
import { gasVolumeFactor } from './gas.ts';
import { dissolvedGas, OIL_AT_INTAKE, oilVolume, SEPARATIONS } from './oil-model.ts';

const SOURCE = 'volume balance at the intake; Standing 1947, Dranchuk and Abou-Kassem 1975';
/** Pa absolute; below it no intake is run. */
const LOWEST_PRESSURE = 1e4;
/** Pa; far below what any gauge reads. */
const CLOSE = 10;

const PRODUCED = {
  ...OIL_AT_INTAKE,
  waterCut: entry('fluid.water_cut'),
  ...SEPARATIONS,
};

/** Share of free gas in what enters the pump at an intake pressure, Pa absolute. */
function freeGasAt(produced: Seen<typeof PRODUCED>, pressure: number): number {
  return freeGasRatio({
    ...produced,
    solutionGas: dissolvedGas(produced, pressure),
    oilVolumeFactor: oilVolume(produced, pressure),
    gasVolumeFactor: gasVolumeFactor(pressure, produced.temperature, produced.gasGravity),
    separations: [produced.naturalSeparation, produced.fittedSeparation],
  }).fraction;
}

export const GAS_AT_TRIP: readonly ValueDeclaration[] = [
  declareValue({
    id: 'fluid.free_gas_at_trip',
    title: 'free gas in what enters the pump when the low intake-pressure trip acts',
    kind: 'ratio',
    formula: 'q_g/(q_g + q_l) at the trip, on produced liquid',
    source: SOURCE,
    inputs: { ...PRODUCED, trip: entry('setpoints.protection.intake_pressure_low.trip') },
    without: 'the compressibility does not converge there',
    compute: ({ trip, ...produced }) => freeGasAt(produced, trip),
  }),
  declareValue({
    id: 'intake.free_gas_limit_pressure',
    title: 'intake pressure at which the free gas is at the pump’s limit',
    kind: 'pressure',
    formula: 'p with q_g/(q_g + q_l) = the pump’s limit, on produced liquid',
    source: SOURCE,
    inputs: { ...PRODUCED, limit: entry('equipment.pump.free_gas_max'), reservoir: entry('reservoir.pressure') },
    without: 'the free gas is above the limit at any pressure up to that of the reservoir',
    compute: ({ limit, reservoir, ...produced }) => {
      const excess = (pressure: number) => freeGasAt(produced, pressure) - limit;
      return excess(LOWEST_PRESSURE) <= 0 ? LOWEST_PRESSURE : bracketedRoot(excess, LOWEST_PRESSURE, reservoir, CLOSE);
    },
  }),
];
