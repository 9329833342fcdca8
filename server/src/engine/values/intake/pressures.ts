import { FLOWING_CASE, LINEAR, ROTARY, STATED_CASE, STATIC_CASE, TRIP_CASE } from '../conditions.ts';
import {
  caseText,
  declareValue,
  entry,
  inCase,
  method,
  type Seen,
  type ValueDeclaration,
  value,
  valueBy,
} from '../declare.ts';
import { liquidVolume, OIL_IF_KNOWN } from '../fluid/oil-model.ts';
import { flowingPressure } from '../inflow/curve.ts';
import { INFLOW_CURVE, INFLOW_SOURCE } from '../inflow/performance.ts';
import { GRAVITY, GRAVITY_SOURCE } from '../physics.ts';
import { type Feed, flowingIntakePressure, pressureForRate } from '../pump/operating-point.ts';
import { ROTARY_PUMP, rotaryPump } from '../pump/rotary-inputs.ts';

const BELOW = value('well.perforations_below_intake');
const DENSITY = value('fluid.liquid_density');

/** Inputs of what well and liquid do at the intake. */
export const FEED = {
  ...OIL_IF_KNOWN,
  ...INFLOW_CURVE,
  waterCut: entry('fluid.water_cut', 'water_cut'),
  below: BELOW,
  density: DENSITY,
};

export function feed(seen: Seen<typeof FEED>): Feed {
  return {
    curve: seen,
    columnBelow: seen.density * GRAVITY * seen.below,
    volumeAt: (pressure) => liquidVolume(seen, seen.waterCut, pressure),
  };
}

const NO_EQUILIBRIUM = 'pump and well do not meet: the pump cannot lift the liquid, or draws more than the well gives';

export const INTAKE_PRESSURES: readonly ValueDeclaration[] = [
  declareValue({
    id: 'intake.static_pressure',
    title: 'pressure at the intake with the well at rest',
    kind: 'pressure',
    formula: 'p_r − ρ·g·(tvd_perf − tvd_intake)',
    source: GRAVITY_SOURCE,
    inputs: { reservoir: entry('reservoir.pressure'), density: DENSITY, below: BELOW },
    compute: ({ reservoir, density, below }) => reservoir - density * GRAVITY * below,
  }),
  declareValue({
    id: 'intake.flowing_pressure',
    title: 'pressure at the intake at the target rate',
    kind: 'pressure',
    formula: 'p_wf(target rate) − ρ·g·(tvd_perf − tvd_intake)',
    source: INFLOW_SOURCE,
    inputs: { ...INFLOW_CURVE, rate: entry('operation.target_rate'), density: DENSITY, below: BELOW },
    without: 'the well does not give the target rate',
    compute: ({ rate, density, below, ...curve }) => flowingPressure(curve, rate) - density * GRAVITY * below,
  }),
  valueBy('intake.running_pressure', 'pressure at the intake as the case sets it, trips apart', 'pressure', [
    method({
      when: [STATED_CASE],
      formula: 'as entered in the case',
      source: 'the entry itself',
      inputs: { stated: inCase('intake_pressure') },
      compute: ({ stated }) => stated,
    }),
    method({
      when: [STATIC_CASE],
      formula: 'static pressure',
      source: GRAVITY_SOURCE,
      inputs: { pressure: value('intake.static_pressure') },
      compute: ({ pressure }) => pressure,
    }),
    method({
      when: [FLOWING_CASE, LINEAR],
      formula: 'where the inflow, at intake volume, equals what the plunger displaces',
      source: INFLOW_SOURCE,
      inputs: {
        ...FEED,
        displacement: value('pump.displacement'),
        efficiency: entry('equipment.pump.volumetric_efficiency'),
      },
      without: NO_EQUILIBRIUM,
      compute: ({ displacement, efficiency, ...seen }) => pressureForRate(feed(seen), displacement * efficiency),
    }),
    method({
      when: [FLOWING_CASE, ROTARY],
      formula: 'where the pump’s head meets the system’s at the rate that the well gives',
      source: INFLOW_SOURCE,
      inputs: { ...ROTARY_PUMP, ...FEED },
      without: NO_EQUILIBRIUM,
      compute: (seen) => flowingIntakePressure(rotaryPump(seen), feed(seen)),
    }),
    method({
      when: [
        { caseKey: 'intake', present: false },
        { caseKey: 'intake_pressure', present: false },
      ],
      formula: 'none: the case says neither `intake` nor `intake_pressure`',
      source: 'the document format',
      inputs: { intake: caseText('intake') },
      compute: () => Number.NaN,
    }),
  ]),
  valueBy('intake.pressure', 'pressure at the intake in the case', 'pressure', [
    method({
      when: [TRIP_CASE],
      formula: 'the low intake-pressure trip',
      source: 'the entry itself',
      inputs: { trip: entry('setpoints.protection.intake_pressure_low.trip') },
      compute: ({ trip }) => trip,
    }),
    method({
      formula: 'as the case sets it',
      source: INFLOW_SOURCE,
      inputs: { pressure: value('intake.running_pressure') },
      without: NO_EQUILIBRIUM,
      compute: ({ pressure }) => pressure,
    }),
  ]),
  declareValue({
    id: 'intake.full_column_pressure',
    title: 'most that a full column of liquid puts on the intake',
    kind: 'pressure',
    formula: 'p_casing + ρ·g·tvd_intake',
    source: GRAVITY_SOURCE,
    inputs: {
      casing: entry('well.wellhead.casing_pressure'),
      density: DENSITY,
      depth: value('well.intake_tvd'),
    },
    compute: ({ casing, density, depth }) => casing + density * GRAVITY * depth,
  }),
  declareValue({
    id: 'intake.trip_submergence',
    title: 'height of liquid above the intake when the trip acts',
    kind: 'length',
    formula: '(p_trip − p_casing)/(ρ_o·g)',
    source: GRAVITY_SOURCE,
    inputs: {
      trip: entry('setpoints.protection.intake_pressure_low.trip'),
      casing: entry('well.wellhead.casing_pressure'),
      oil: value('fluid.oil_density'),
    },
    compute: ({ trip, casing, oil }) => (trip - casing) / (oil * GRAVITY),
  }),
];
