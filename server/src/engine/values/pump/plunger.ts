import { LINEAR } from '../conditions.ts';
import {
  declareValue,
  entry,
  entryOr,
  optionalEntry,
  text,
  type ValueDeclaration,
  value,
} from '../declare.ts';
import { GRAVITY } from '../physics.ts';

const CYLINDER = 'geometry of a plunger pump, any text';
const STEEL_DENSITY = 7_850;

function area(diameter: number): number {
  return (Math.PI / 4) * diameter ** 2;
}

export const STROKE_RATE = entry('operation.stroke.rate', 'stroke_rate');

/** Share of the cycle in which the plunger goes up loaded: as entered, else equal strokes around the dwell. */
function upShare(stated: number | undefined, dwell: number, rate: number): number {
  return stated ?? (1 - dwell * rate) / 2;
}

const CYCLE = {
  rate: STROKE_RATE,
  length: entry('operation.stroke.length'),
  upFraction: optionalEntry('operation.stroke.up_fraction'),
  dwell: entryOr('operation.stroke.dwell', 0, 'no dwell where none is entered'),
};

export const PLUNGER: readonly ValueDeclaration[] = [
  declareValue({
    id: 'pump.plunger_area',
    title: 'plunger area',
    kind: 'area',
    when: [LINEAR],
    formula: 'π/4·d²',
    source: CYLINDER,
    inputs: { diameter: entry('equipment.pump.plunger_diameter') },
    compute: ({ diameter }) => area(diameter),
  }),
  declareValue({
    id: 'pump.displacement',
    title: 'volume that the plunger sweeps',
    kind: 'volume_rate',
    when: [LINEAR],
    formula: 'A·S·N; S·N·(2·A − A_rod) if double acting',
    source: CYLINDER,
    inputs: {
      area: value('pump.plunger_area'),
      acting: text('equipment.pump.acting', 'single'),
      rod: entryOr('equipment.pump.rod_diameter', 0, 'no rod through the working chamber where none is entered'),
      length: CYCLE.length,
      rate: CYCLE.rate,
    },
    compute: ({ area: plunger, acting, rod, length, rate }) =>
      length * rate * (acting === 'double' ? 2 * plunger - area(rod) : plunger),
  }),
  declareValue({
    id: 'pump.loaded_speed',
    title: 'mean speed of the loaded stroke',
    kind: 'speed',
    when: [LINEAR],
    formula: 'S·N/up_fraction',
    source: 'kinematics',
    inputs: CYCLE,
    compute: ({ rate, length, upFraction, dwell }) => (length * rate) / upShare(upFraction, dwell, rate),
  }),
  declareValue({
    id: 'pump.loaded_share',
    title: 'share of the cycle under load',
    kind: 'ratio',
    when: [LINEAR],
    formula: 'up_fraction, else (1 − dwell·N)/2',
    source: 'kinematics',
    inputs: CYCLE,
    compute: ({ rate, upFraction, dwell }) => upShare(upFraction, dwell, rate),
  }),
  declareValue({
    id: 'pump.load',
    title: 'force on the plunger in the loaded stroke',
    kind: 'force',
    when: [LINEAR],
    formula: 'A·Δp + friction force (+ buoyant weight of the moving mass, if entered)',
    source: CYLINDER,
    inputs: {
      area: value('pump.plunger_area'),
      difference: value('lift.differential_pressure'),
      friction: entry('equipment.pump.friction_force'),
      mass: entryOr('equipment.pump.moving_mass', 0, 'the friction force includes the weight of moving parts'),
      density: value('fluid.liquid_density'),
    },
    compute: ({ area: plunger, difference, friction, mass, density }) =>
      plunger * difference + friction + mass * GRAVITY * (1 - density / STEEL_DENSITY),
  }),
];
