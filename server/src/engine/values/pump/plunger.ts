import { absent, LINEAR, present } from '../conditions.ts';
import { declareValue, entry, entryOr, method, text, type ValueDeclaration, value, valueBy } from '../declare.ts';
import { circleArea, GRAVITY } from '../physics.ts';

const CYLINDER = 'geometry of a plunger pump, any text';
/** kg/m3 (common practice, no source). */
export const STEEL_DENSITY = 7_850;
const ACTING = 'equipment.pump.acting';
const NO_ROD = 'no rod through the working chamber where none is entered';

export const STROKE_RATE = entry('operation.stroke.rate', 'stroke_rate');

const STROKE_LENGTH = entry('operation.stroke.length');
export const DWELL = entryOr('operation.stroke.dwell', 0, 'no dwell where none is entered');
const UP_FRACTION = 'operation.stroke.up_fraction';

export const PLUNGER: readonly ValueDeclaration[] = [
  declareValue({
    id: 'pump.plunger_area',
    title: 'plunger area',
    kind: 'area',
    when: [LINEAR],
    formula: 'π/4·d²',
    source: CYLINDER,
    inputs: { diameter: entry('equipment.pump.plunger_diameter') },
    compute: ({ diameter }) => circleArea(diameter),
  }),
  valueBy('pump.swept_area', 'area that sweeps in one cycle', 'area', [
    method({
      when: [LINEAR, { path: ACTING, isNot: ['double'] }],
      formula: 'A',
      source: CYLINDER,
      inputs: { area: value('pump.plunger_area'), acting: text(ACTING, 'single') },
      compute: ({ area: plunger }) => plunger,
    }),
    method({
      when: [LINEAR, { path: ACTING, is: ['double'] }],
      formula: '2·A − A_rod',
      source: CYLINDER,
      inputs: {
        area: value('pump.plunger_area'),
        rod: entryOr('equipment.pump.rod_diameter', 0, NO_ROD),
      },
      compute: ({ area: plunger, rod }) => 2 * plunger - circleArea(rod),
    }),
  ]),
  declareValue({
    id: 'pump.displacement',
    title: 'volume that the plunger sweeps',
    kind: 'volume_rate',
    formula: 'A·S·N; S·N·(2·A − A_rod) if double acting',
    source: CYLINDER,
    inputs: { swept: value('pump.swept_area'), length: STROKE_LENGTH, rate: STROKE_RATE },
    compute: ({ swept, length, rate }) => swept * length * rate,
  }),
  valueBy('pump.loaded_share', 'share of the cycle under load', 'ratio', [
    method({
      when: [LINEAR, present(UP_FRACTION)],
      formula: 'up_fraction',
      source: 'the entry itself',
      inputs: { upFraction: entry(UP_FRACTION) },
      compute: ({ upFraction }) => upFraction,
    }),
    method({
      when: [LINEAR, absent(UP_FRACTION)],
      formula: '(1 − dwell·N)/2',
      source: 'kinematics',
      inputs: { rate: STROKE_RATE, dwell: DWELL },
      assumes: 'equal strokes up and down: no share of the loaded stroke is entered',
      without: 'the dwell is longer than the cycle',
      compute: ({ rate, dwell }) => (dwell * rate < 1 ? (1 - dwell * rate) / 2 : Number.NaN),
    }),
  ]),
  declareValue({
    id: 'pump.loaded_speed',
    title: 'mean speed of the loaded stroke',
    kind: 'speed',
    when: [LINEAR],
    formula: 'S·N/up_fraction',
    source: 'kinematics',
    inputs: { rate: STROKE_RATE, length: STROKE_LENGTH, share: value('pump.loaded_share') },
    compute: ({ rate, length, share }) => (length * rate) / share,
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
  valueBy('pump.return_load', 'force on the plunger in the return stroke', 'force', [
    method({
      when: [LINEAR, { path: ACTING, is: ['double'] }],
      formula: '(A − A_rod)·Δp + friction force',
      source: CYLINDER,
      inputs: {
        area: value('pump.plunger_area'),
        rod: entryOr('equipment.pump.rod_diameter', 0, NO_ROD),
        difference: value('lift.differential_pressure'),
        friction: entry('equipment.pump.friction_force'),
      },
      compute: ({ area: plunger, rod, difference, friction }) => (plunger - circleArea(rod)) * difference + friction,
    }),
    method({
      when: [LINEAR, { path: ACTING, isNot: ['double'] }],
      formula: 'friction force',
      source: 'an empty stroke',
      inputs: { friction: entry('equipment.pump.friction_force') },
      compute: ({ friction }) => friction,
    }),
  ]),
];
