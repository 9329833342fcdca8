import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import '../support/chance.ts';
import { standardResistance, temperatureFactor } from '../../server/src/engine/values/electrical/conductor.ts';
import { approximateDrop, receivingVoltage, sendingVoltage } from '../../server/src/engine/values/electrical/phasor.ts';
import {
  apiOf,
  oilVolumeFactor,
  solutionGas,
  standingBubblePoint,
} from '../../server/src/engine/values/fluid/black-oil.ts';
import { freeGasRatio, turpin } from '../../server/src/engine/values/fluid/free-gas.ts';
import { compressibility, gasVolumeFactor, reducedCompressibility } from '../../server/src/engine/values/fluid/gas.ts';
import { flowingPressure, indexFromTest, inflowRate, maxRate } from '../../server/src/engine/values/inflow/curve.ts';
import { frictionDrop, frictionFactor } from '../../server/src/engine/values/lift/friction.ts';
import { integrate } from '../../server/src/engine/values/numeric/integrate.ts';
import { maximizer } from '../../server/src/engine/values/numeric/maximum.ts';
import { pchip } from '../../server/src/engine/values/numeric/pchip.ts';
import { bracketedRoot } from '../../server/src/engine/values/numeric/roots.ts';
import { stageCurve } from '../../server/src/engine/values/pump/rotary-curve.ts';
import { insulationAt40 } from '../../server/src/engine/values/readings/insulation.ts';
import { unbalance } from '../../server/src/engine/values/readings/unbalance.ts';
import { mdAt, meanDepthFraction, tvdAt } from '../../server/src/engine/values/well/survey.ts';

type Numbers = readonly number[];

interface Subject {
  readonly name: string;
  readonly call: (...inputs: number[]) => number;
  /** Range of each input in which the result must be finite. */
  readonly ranges: readonly (readonly [low: number, high: number])[];
}

const PRESSURE = [1e5, 6e7] as const;
const TEMPERATURE = [0, 200] as const;
const API = [8, 60] as const;
const GAS = [0.56, 1.0] as const;
const SHARE = [0, 1] as const;

const subjects: readonly Subject[] = [
  { name: 'apiOf', call: apiOf, ranges: [[650, 1080]] },
  { name: 'solutionGas', call: solutionGas, ranges: [[0, 6e7], TEMPERATURE, API, GAS] },
  { name: 'standingBubblePoint', call: standingBubblePoint, ranges: [[0, 1000], TEMPERATURE, API, GAS] },
  { name: 'oilVolumeFactor', call: oilVolumeFactor, ranges: [[0, 1000], TEMPERATURE, [0.65, 1.05], GAS] },
  { name: 'compressibility', call: compressibility, ranges: [[0, 6e7], TEMPERATURE, GAS] },
  {
    name: 'reducedCompressibility',
    call: reducedCompressibility,
    ranges: [
      [0, 30],
      [1, 3],
    ],
  },
  { name: 'gasVolumeFactor', call: gasVolumeFactor, ranges: [PRESSURE, TEMPERATURE, GAS] },
  {
    name: 'freeGasRatio',
    call: (waterCut, gasOilRatio, solution, oil, gas, natural, fitted) => {
      const volumes = { oilVolumeFactor: oil!, gasVolumeFactor: gas!, solutionGas: solution! };
      const stream = { waterCut: waterCut!, gasOilRatio: gasOilRatio!, separations: [natural!, fitted!], ...volumes };
      return freeGasRatio(stream).perLiquid + freeGasRatio(stream).fraction;
    },
    ranges: [SHARE, [0, 5000], [0, 500], [0.9, 3], [1e-3, 2], SHARE, SHARE],
  },
  { name: 'turpin', call: turpin, ranges: [[0, 100], PRESSURE] },
  {
    name: 'inflowRate',
    call: (reservoirPressure, bubblePoint, index, p) =>
      inflowRate({ reservoirPressure, bubblePoint, index } as never, p!),
    ranges: [PRESSURE, [0, 6e7], [1e-12, 1e-7], [0, 7e7]],
  },
  {
    name: 'flowingPressure of a share of the greatest rate',
    call: (reservoirPressure, bubblePoint, index, share) => {
      const curve = { reservoirPressure, bubblePoint, index } as never;
      return flowingPressure(curve, share! * maxRate(curve));
    },
    ranges: [PRESSURE, [0, 6e7], [1e-12, 1e-7], SHARE],
  },
  {
    name: 'indexFromTest',
    call: (rate, share, reservoir, bubblePoint) => indexFromTest(rate!, share! * reservoir!, reservoir!, bubblePoint!),
    ranges: [[1e-7, 0.1], [0, 0.99], PRESSURE, [0, 6e7]],
  },
  {
    name: 'frictionFactor',
    call: frictionFactor,
    ranges: [
      [1e-12, 1e9],
      [0, 0.05],
    ],
  },
  {
    name: 'frictionDrop',
    call: frictionDrop,
    ranges: [
      [-0.1, 0.1],
      [0, 5000],
      [0.02, 0.3],
      [0, 1e-3],
      [500, 1500],
      [1e-4, 10],
    ],
  },
  {
    name: 'stageCurve',
    call: (share, ratio, density) => {
      const stage = stageCurve(
        [0, 1, 2, 3].map((q) => ({ rate: q, head: 10 - q * q, power: 50 + q })),
        1000,
      );
      return stage.powerAt(share! * stage.maxRate(ratio!) * 0.999, ratio!, density!) + stage.bestEfficiencyRate(ratio!);
    },
    ranges: [SHARE, [0.01, 3], [500, 1500]],
  },
  { name: 'standardResistance', call: (area) => standardResistance(area!, true), ranges: [[1e-8, 1e-2]] },
  { name: 'temperatureFactor', call: temperatureFactor, ranges: [[-50, 250]] },
  { name: 'sendingVoltage', call: sendingVoltage, ranges: [[0, 1e4], [0, 500], SHARE, [0, 10], [-10, 10]] },
  { name: 'approximateDrop', call: approximateDrop, ranges: [[0, 500], SHARE, [0, 10], [-10, 10]] },
  {
    name: 'receivingVoltage of a sending voltage',
    call: (v, i, pf, r, x) => receivingVoltage(sendingVoltage(v!, i!, pf!, r!, x!), i!, pf!, r!, x!),
    ranges: [[1, 1e4], [0, 500], SHARE, [0, 10], [0, 10]],
  },
  {
    name: 'insulationAt40',
    call: insulationAt40,
    ranges: [
      [1, 1e12],
      [-40, 200],
    ],
  },
  {
    name: 'unbalance',
    call: (...phases) => unbalance(phases),
    ranges: [
      [0.1, 1e4],
      [0.1, 1e4],
      [0.1, 1e4],
    ],
  },
  {
    name: 'survey',
    call: (first, second, turn, share) => {
      const survey = [
        { md: 0, inclination: first, azimuth: 350 },
        { md: 100, inclination: second, azimuth: turn },
      ];
      const md = share! * 99.9;
      return tvdAt(survey, md) + meanDepthFraction(survey, md) + mdAt(survey, tvdAt(survey, md));
    },
    ranges: [
      [0, 80],
      [0, 80],
      [0, 360],
      [0.01, 1],
    ],
  },
  {
    name: 'bracketedRoot',
    call: (low, high, at) => bracketedRoot((x) => x ** 3 - at!, low!, high!),
    ranges: [
      [-9, -3],
      [3, 9],
      [-27, 27],
    ],
  },
  {
    name: 'integrate',
    call: (from, to) => integrate(Math.exp, from!, to!),
    ranges: [
      [-50, 50],
      [-50, 50],
    ],
  },
  {
    name: 'maximizer',
    call: (low, high) => maximizer(Math.sin, low!, high!),
    ranges: [
      [-50, 50],
      [-50, 50],
    ],
  },
  {
    name: 'pchip',
    call: (y0, y1, y2, x) => pchip([0, 1, 3], [y0!, y1!, y2!])(x!),
    ranges: [
      [-1e6, 1e6],
      [-1e6, 1e6],
      [-1e6, 1e6],
      [0, 3],
    ],
  },
];

const within = (ranges: Subject['ranges']): fc.Arbitrary<Numbers> =>
  fc.tuple(...ranges.map(([min, max]) => fc.double({ min, max, noNaN: true })));

describe('every function', () => {
  it.each(subjects)('$name is finite throughout its range', ({ call, ranges }) => {
    fc.assert(
      fc.property(within(ranges), (inputs) => Number.isFinite(call(...inputs))),
      { seed: 7, numRuns: 300 },
    );
  });

  it.each(subjects)('$name answers anything with a number, and NaN with NaN', ({ call, ranges }) => {
    const anything = fc.array(fc.double(), { minLength: ranges.length, maxLength: ranges.length });
    fc.assert(
      fc.property(anything, (inputs) => typeof call(...inputs) === 'number'),
      { seed: 11, numRuns: 300 },
    );
    expect(call(...ranges.map(() => Number.NaN))).toBeNaN();
  });
});
