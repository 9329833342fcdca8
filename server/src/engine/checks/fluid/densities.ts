import { STATIC_CASE } from '../../values/conditions.ts';
import { entry, inCase, value } from '../../values/declare.ts';
import { GRAVITY, GRAVITY_SOURCE } from '../../values/physics.ts';
import type { CheckContext } from '../context.ts';
import { type Check, check } from '../declare.ts';
import { atLeast } from '../within.ts';

const OIL = 'fluid.oil_gravity';
const WATER = 'fluid.water_density';
const DENSITY = 'fluid_density';
/** A case at rest with a liquid of its own: what the well is killed with. */
const KILLED = [STATIC_CASE, { caseKey: DENSITY, present: true }] as const;
const EXAMPLE_KEY = `operation.cases[0].${DENSITY}`;

function densityKey({ caseIndex }: CheckContext): string {
  return `operation.cases[${caseIndex}].${DENSITY}`;
}

export const FLUID_DENSITIES_INVERTED: Check = check({
  id: 'fluid.densities-inverted',
  severity: 'warning',
  title: 'oil not lighter than water',
  compares: 'the density of the oil with that of the water',
  why: 'Oil that is pumped floats on its water. The two are exchanged, or a unit is wrong, and all columns with them.',
  mend: 'Look at the units: degAPI, SG and kg/m3 are easily taken for each other.',
  source: 'common practice, no source',
  example: { lift: 'linear', fails: { [WATER]: '860 kg/m3' }, at: OIL },
  needs: { oil: entry(OIL), water: entry(WATER) },
  run: ({ oil, water }, context) => {
    if (oil < water) return { margin: { number: water - oil, kind: 'density' } };
    return {
      key: OIL,
      message: `An oil of ${context.text(OIL)}, ${context.show(oil, 'density', WATER)}, is not lighter than the water of ${context.show(water, 'density', WATER)}. Look at the units of both.`,
      value: { number: oil, kind: 'density' },
      limit: { number: water, kind: 'density' },
      related: [{ key: WATER, message: 'the water' }],
    };
  },
});

export const FLUID_CASE_LIGHTER_THAN_PRODUCED: Check = check({
  id: 'fluid.case-lighter-than-produced',
  severity: 'note',
  title: 'kill fluid lighter than the produced liquid',
  compares: 'the density that a case at rest states with that of the produced liquid',
  why:
    'Kill fluid is the heaviest liquid that the unit starts on. A lighter one makes the start look easier than it ' +
    'is.',
  mend: 'Look at the unit of the density.',
  source: 'common practice, no source',
  example: { lift: 'linear', fails: { [EXAMPLE_KEY]: '900 kg/m3' }, at: EXAMPLE_KEY },
  when: KILLED,
  needs: { density: inCase(DENSITY), produced: value('fluid.produced_density') },
  run: ({ density, produced }, context) =>
    atLeast(context, {
      key: densityKey(context),
      kind: 'density',
      number: density,
      limit: produced,
      says: (own, other) =>
        `In the case '${context.caseName}' the well stands on a liquid of ${own}, lighter than what it produces, ${other}. Look at the unit of the density.`,
    }),
});

export const FLUID_KILL_FLUID_TOO_LIGHT: Check = check({
  id: 'fluid.kill-fluid-too-light',
  severity: 'warning',
  title: 'kill fluid does not hold the well',
  compares: 'a column of the case’s liquid from the wellhead to the perforations with the reservoir pressure',
  why: 'A well that is not held back while the unit is run flows at those who run it.',
  mend:
    'Use a heavier kill fluid, or confirm how the well is held in another way. Look at the units of density and ' +
    'pressure.',
  source: GRAVITY_SOURCE,
  example: { lift: 'linear', fails: { 'reservoir.pressure': '176 bar' }, at: EXAMPLE_KEY },
  when: KILLED,
  needs: {
    density: inCase(DENSITY),
    depth: value('well.perforation_tvd'),
    reservoir: entry('reservoir.pressure'),
    air: value('site.atmosphere'),
  },
  run: ({ density, depth, reservoir, air }, context) => {
    const column = air + density * GRAVITY * depth;
    if (column >= reservoir) return { margin: { number: column - reservoir, kind: 'pressure_difference' } };
    const key = densityKey(context);
    const show = (pressure: number) => context.show(pressure, 'pressure', 'reservoir.pressure');
    return {
      key,
      message: `A full column of the liquid of ${context.show(density, 'density', key)} puts ${show(column)} on the perforations, less than the reservoir pressure of ${show(reservoir)}: it does not hold the well. Use a heavier one, or look at the units of both.`,
      value: { number: column, kind: 'pressure' },
      limit: { number: reservoir, kind: 'pressure' },
      related: [{ key: 'reservoir.pressure', message: 'the reservoir pressure' }],
      follows: ['reservoir.pressure-gradient'],
    };
  },
});
