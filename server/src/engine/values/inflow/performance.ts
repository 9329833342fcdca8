import { absent } from '../conditions.ts';
import { declareValue, entry, type Input, method, type ValueDeclaration, value, valueBy } from '../declare.ts';
import { GRAVITY } from '../physics.ts';
import { type InflowCurve, inflowRate, maxRate } from './curve.ts';

export const INFLOW_SOURCE = 'straight line above the bubble point, Vogel 1968 below, joined';

/** Inputs of the inflow curve: reservoir pressure and bubble point Pa absolute, index m3/s/Pa. */
export const INFLOW_CURVE: {
  readonly reservoirPressure: Input<number>;
  readonly bubblePoint: Input<number>;
  readonly index: Input<number>;
} = {
  reservoirPressure: entry('reservoir.pressure'),
  bubblePoint: value('inflow.bubble_point'),
  index: value('inflow.index'),
};

/**
 * What the well gives, m3/s at the surface, at a pressure at the intake (Pa absolute).
 * @param below height from the intake down to the perforations, m, filled with liquid of `density`, kg/m3
 */
export function flowFromPerforations(curve: InflowCurve, pressure: number, density: number, below: number): number {
  return inflowRate(curve, pressure + density * GRAVITY * below);
}

export const INFLOW: readonly ValueDeclaration[] = [
  valueBy('inflow.bubble_point', 'bubble point for the inflow', 'pressure', [
    method({
      formula: 'bubble point',
      source: INFLOW_SOURCE,
      inputs: { bubblePoint: value('fluid.bubble_point') },
      compute: ({ bubblePoint }) => bubblePoint,
    }),
    method({
      when: [absent('reservoir.bubble_point')],
      formula: 'reservoir pressure',
      source: 'the safe side: Vogel over the whole range gives the least inflow',
      inputs: { pressure: entry('reservoir.pressure') },
      assumes: 'a reservoir at its bubble point: neither a bubble point nor the gas is described',
      compute: ({ pressure }) => pressure,
    }),
  ]),
  valueBy('inflow.index', 'productivity index above the bubble point', 'productivity_index', [
    method({
      formula: 'as entered',
      source: 'the entry itself',
      inputs: { index: entry('reservoir.productivity_index') },
      compute: ({ index }) => index,
    }),
    method({
      when: [absent('reservoir.productivity_index')],
      formula: 'from the test',
      source: INFLOW_SOURCE,
      inputs: { index: value('inflow.index_from_test') },
      compute: ({ index }) => index,
    }),
  ]),
  declareValue({
    id: 'inflow.max_rate',
    title: 'most that the well gives',
    kind: 'volume_rate',
    formula: 'J·(p_r − p_b) + J·p_b/1.8',
    source: INFLOW_SOURCE,
    inputs: INFLOW_CURVE,
    compute: maxRate,
  }),
];
