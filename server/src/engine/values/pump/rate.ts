import { FLOWING_CASE, LINEAR, ROTARY } from '../conditions.ts';
import { declareValue, entry, type Method, method, type ValueDeclaration, value, valueBy } from '../declare.ts';
import { liquidVolume, OIL_IF_KNOWN } from '../fluid/oil-model.ts';
import { flowFromPerforations, INFLOW_CURVE, INFLOW_SOURCE } from '../inflow/performance.ts';
import { pointAtPressure, pumpHead, pumpPower, ratioAtRate } from './operating-point.ts';
import { stageCurve } from './rotary-curve.ts';
import { ROTARY_PUMP, rotaryPump } from './rotary-inputs.ts';

const CURVE_SOURCE = 'data-sheet points joined by a monotone cubic (PCHIP), affinity laws';
const NO_POINT = 'the pump’s head and the system’s do not meet on the curve';

const plungerRate: Method = method({
  when: [LINEAR],
  formula: 'displacement × volumetric efficiency, at intake conditions',
  source: 'definition',
  inputs: {
    displacement: value('pump.displacement'),
    efficiency: entry('equipment.pump.volumetric_efficiency'),
  },
  compute: ({ displacement, efficiency }) => displacement * efficiency,
});

const flowingRate: Method = method({
  when: [ROTARY, FLOWING_CASE],
  formula: 'what the well gives at the intake pressure, at intake conditions',
  source: INFLOW_SOURCE,
  inputs: {
    ...OIL_IF_KNOWN,
    ...INFLOW_CURVE,
    waterCut: entry('fluid.water_cut', 'water_cut'),
    pressure: value('intake.running_pressure'),
    liquidDensity: value('fluid.liquid_density'),
    below: value('well.perforations_below_intake'),
  },
  without: NO_POINT,
  compute: ({ pressure, waterCut, liquidDensity, below, ...seen }) =>
    flowFromPerforations(seen, pressure, liquidDensity, below) * liquidVolume(seen, waterCut, pressure),
});

const curveRate: Method = method({
  when: [ROTARY],
  formula: 'where the pump’s head meets the system’s',
  source: CURVE_SOURCE,
  inputs: { ...ROTARY_PUMP, pressure: value('intake.pressure') },
  without: NO_POINT,
  compute: ({ pressure, ...seen }) => pointAtPressure(rotaryPump(seen), pressure).rate,
});

export const RATES: readonly ValueDeclaration[] = [
  valueBy('pump.rate', 'rate of the pump at intake conditions', 'volume_rate', [plungerRate, flowingRate, curveRate]),
  declareValue({
    id: 'pump.surface_rate',
    title: 'rate of the pump at surface conditions',
    kind: 'volume_rate',
    formula: 'pump rate/B',
    source: 'volume balance',
    inputs: { rate: value('pump.rate'), volume: value('fluid.volume_factor') },
    compute: ({ rate, volume }) => rate / volume,
  }),
  declareValue({
    id: 'pump.speed_ratio',
    title: 'shaft speed over that of the curve',
    kind: 'plain',
    when: [ROTARY],
    formula: 'synchronous ratio × (1 − slip in proportion to load)',
    source: 'any machines text',
    inputs: { ...ROTARY_PUMP, rate: value('pump.rate') },
    without: 'slip and load do not settle',
    compute: ({ rate, ...seen }) => ratioAtRate(rotaryPump(seen), rate),
  }),
  declareValue({
    id: 'pump.head',
    title: 'head of the pump',
    kind: 'length',
    when: [ROTARY],
    formula: 'stages × head of a stage at the rate and speed',
    source: CURVE_SOURCE,
    inputs: { ...ROTARY_PUMP, rate: value('pump.rate'), ratio: value('pump.speed_ratio') },
    without: NO_POINT,
    compute: ({ rate, ratio, ...seen }) => pumpHead(rotaryPump(seen), rate, ratio),
  }),
  declareValue({
    id: 'pump.power',
    title: 'shaft power of the pump',
    kind: 'power',
    when: [ROTARY],
    formula: 'stages × power of a stage at the rate and speed × ρ/ρ_curve',
    source: CURVE_SOURCE,
    inputs: { ...ROTARY_PUMP, rate: value('pump.rate'), ratio: value('pump.speed_ratio') },
    without: NO_POINT,
    compute: ({ rate, ratio, ...seen }) => pumpPower(rotaryPump(seen), rate, ratio),
  }),
  declareValue({
    id: 'pump.rate_ratio',
    title: 'rate over the best-efficiency rate at that speed',
    kind: 'ratio',
    when: [ROTARY],
    formula: 'q/q_best(n)',
    source: CURVE_SOURCE,
    inputs: {
      points: ROTARY_PUMP.points,
      density: ROTARY_PUMP.curveDensity,
      rate: value('pump.rate'),
      ratio: value('pump.speed_ratio'),
    },
    compute: ({ points, density, rate, ratio }) => rate / stageCurve(points, density).bestEfficiencyRate(ratio),
  }),
];
