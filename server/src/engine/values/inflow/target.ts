import { LINEAR } from '../conditions.ts';
import { declareValue, entry, type Seen, type ValueDeclaration, value } from '../declare.ts';
import { liquidVolume, OIL_IF_KNOWN } from '../fluid/oil-model.ts';
import { GRAVITY } from '../physics.ts';
import { flowingPressure, indexFromTest } from './curve.ts';
import { flowFromPerforations, INFLOW_CURVE, INFLOW_SOURCE } from './performance.ts';

const PRODUCED = {
  ...OIL_IF_KNOWN,
  ...INFLOW_CURVE,
  density: value('fluid.produced_density'),
  below: value('well.perforations_below_intake'),
  waterCut: entry('fluid.water_cut'),
};

/** Volume of the produced liquid at an intake pressure (Pa absolute) over that at the surface. */
function volumeAt(produced: Seen<typeof PRODUCED>, pressure: number): number {
  return liquidVolume(produced, produced.waterCut, pressure);
}

export const TARGET: readonly ValueDeclaration[] = [
  declareValue({
    id: 'inflow.target_share',
    title: 'target rate over the most that the well gives',
    kind: 'ratio',
    formula: 'q_target/q_max',
    source: INFLOW_SOURCE,
    inputs: { target: entry('operation.target_rate'), most: value('inflow.max_rate') },
    compute: ({ target, most }) => target / most,
  }),
  declareValue({
    id: 'inflow.index_from_test',
    title: 'productivity index that the test gives',
    kind: 'productivity_index',
    formula: 'q_test/[(p_r − p_b) + p_b/1.8·(1 − 0.2·x − 0.8·x²)], x = p_wf/p_b; straight line above p_b',
    source: INFLOW_SOURCE,
    inputs: {
      rate: entry('reservoir.test.rate'),
      flowing: entry('reservoir.test.flowing_pressure'),
      reservoir: entry('reservoir.pressure'),
      bubblePoint: value('inflow.bubble_point'),
    },
    without: 'the test pressure is not below the reservoir pressure',
    compute: ({ rate, flowing, reservoir, bubblePoint }) => indexFromTest(rate, flowing, reservoir, bubblePoint),
  }),
  declareValue({
    id: 'inflow.rate_at_trip',
    title: 'what the well gives at the low intake-pressure trip, at the surface',
    kind: 'volume_rate',
    formula: 'q(p_trip + ρ·g·(tvd_perf − tvd_intake)) on produced liquid',
    source: INFLOW_SOURCE,
    inputs: {
      ...INFLOW_CURVE,
      density: PRODUCED.density,
      below: PRODUCED.below,
      trip: entry('setpoints.protection.intake_pressure_low.trip'),
    },
    compute: ({ trip, density, below, ...curve }) => flowFromPerforations(curve, trip, density, below),
  }),
  declareValue({
    id: 'inflow.intake_rate_at_trip',
    title: 'what the well gives at the low intake-pressure trip, at intake conditions',
    kind: 'volume_rate',
    formula: 'q·B at the trip',
    source: 'volume balance',
    inputs: {
      ...PRODUCED,
      rate: value('inflow.rate_at_trip'),
      trip: entry('setpoints.protection.intake_pressure_low.trip'),
    },
    compute: ({ rate, trip, ...produced }) => rate * volumeAt(produced, trip),
  }),
  declareValue({
    id: 'pump.rate_needed',
    title: 'rate at intake conditions that the target needs',
    kind: 'volume_rate',
    formula: 'q_target·B at the flowing intake pressure, on produced liquid',
    source: INFLOW_SOURCE,
    inputs: { ...PRODUCED, target: entry('operation.target_rate') },
    without: 'the well does not give the target rate',
    compute: ({ target, ...produced }) => {
      const flowing = flowingPressure(produced, target) - produced.density * GRAVITY * produced.below;
      return target * volumeAt(produced, flowing);
    },
  }),
  declareValue({
    id: 'pump.effective_area',
    title: 'area that a plunger without slip would need for the same rate',
    kind: 'area',
    when: [LINEAR],
    formula: 'rate/(S·N)',
    source: 'geometry of a plunger pump, any text',
    inputs: { area: value('pump.swept_area'), efficiency: entry('equipment.pump.volumetric_efficiency') },
    compute: ({ area, efficiency }) => area * efficiency,
  }),
];
