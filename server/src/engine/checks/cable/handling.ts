import { capitalise } from '../../text/words.ts';
import { present } from '../../values/conditions.ts';
import { entry, limit } from '../../values/declare.ts';
import type { CheckContext } from '../context.ts';
import { type Check, check, type Judgement } from '../declare.ts';
import { reaches } from '../reaches.ts';
import { allRuns, LEAD_RUN, MAIN_KEY, MAIN_RUNS, mainRuns, type Run } from './runs.ts';

const COLDEST = 'site.ambient.min';
const BRITTLE = 'polypropylene';
/** Below it polypropylene cracks when bent, degC. */
const BRITTLE_BELOW = -10;

function coldestHandling({ handling_temperature_min: stated, insulation }: Run): number | undefined {
  return stated ?? (insulation === BRITTLE ? BRITTLE_BELOW : undefined);
}

function tooCold(context: CheckContext, run: Run, ambient: number): readonly Judgement[] {
  const least = coldestHandling(run);
  if (least === undefined || reaches(ambient, least)) return [];
  const show = (temperature: number) => context.show(temperature, 'temperature', COLDEST);
  return [
    {
      key: COLDEST,
      message: `It gets as cold as ${show(ambient)}, and ${run.title} must not be bent below ${show(least)}. Run it in milder weather, or warm the reel before and during the work.`,
      value: { number: ambient, kind: 'temperature' },
      limit: { number: least, kind: 'temperature' },
      related: [{ key: `${run.key}.handling_temperature_min`, message: 'the lowest handling temperature' }],
    },
  ];
}

export const CABLE_COLD_HANDLING: Check = check({
  id: 'cable.cold-handling',
  severity: 'warning',
  title: 'too cold to handle the cable',
  compares:
    'the lowest ambient temperature with the lowest handling temperature of each run; of polypropylene without ' +
    'one with −10 degC',
  why: 'Cold insulation cracks over the sheave, and fails weeks later.',
  mend: 'Run the cable in milder weather, or warm the reel before and during the work.',
  source: 'API RP 11S5 as publicly reproduced, for polypropylene; else the data sheet',
  example: { lift: 'linear', fails: { [COLDEST]: '-40 degC' }, at: COLDEST },
  when: [present(COLDEST)],
  needs: { ambient: entry(COLDEST), main: MAIN_RUNS, lead: LEAD_RUN },
  run: ({ ambient, main, lead }, context) =>
    allRuns(context, { main, lead }).flatMap((run) => tooCold(context, run, ambient)),
});

export const CABLE_FLAT_UNTRANSPOSED: Check = check({
  id: 'cable.flat-untransposed',
  severity: 'note',
  title: 'long flat cable',
  compares: 'the length of the flat sections with 2 km',
  why:
    'The middle phase of a flat cable has another inductance than the outer two: the motor runs with a natural ' +
    'unbalance.',
  mend: 'Expect it in the readings, and set the unbalance trips above it; or transpose the phases at a splice.',
  source: 'any text on power lines; the limit is common practice, no source',
  example: {
    lift: 'rotary',
    fails: { [`${MAIN_KEY}.length`]: '2100 m', 'well.intake.md': '2050 m', 'well.survey': null },
    at: MAIN_KEY,
  },
  needs: { main: MAIN_RUNS, most: limit('cable.flat-untransposed') },
  run: ({ main, most }, context) => {
    const flat = mainRuns(context, main).reduce(
      (sum, { shape, length }) => sum + (shape === 'flat' ? (length ?? 0) : 0),
      0,
    );
    if (reaches(most, flat)) return undefined;
    const show = (length: number) => context.show(length, 'depth', 'well.intake.md');
    return {
      key: MAIN_KEY,
      message: `${show(flat)} of flat cable, more than ${show(most)}: its middle phase differs from the outer two. Expect a natural unbalance in the readings, and set the trips above it.`,
      value: { number: flat, kind: 'depth' },
      limit: { number: most, kind: 'depth' },
    };
  },
});

const CARBON_DIOXIDE = 'fluid.co2';

export const CABLE_INSULATION_AND_GAS: Check = check({
  id: 'cable.insulation-and-gas',
  severity: 'warning',
  title: 'insulation that carbon dioxide attacks',
  compares: 'the carbon dioxide of the well with the insulation of each run',
  why: 'Polypropylene takes up the gas and cracks when the pressure is let off, and the copper below it corrodes.',
  mend: 'Use another insulation, or have the maker confirm this one for the well.',
  source: 'API RP 11S5 as publicly reproduced',
  example: { lift: 'linear', fails: { [`${MAIN_KEY}.insulation`]: BRITTLE }, at: `${MAIN_KEY}.insulation` },
  when: [present(CARBON_DIOXIDE)],
  needs: { gas: entry(CARBON_DIOXIDE), main: MAIN_RUNS, lead: LEAD_RUN },
  run: ({ gas, main, lead }, context) => {
    if (gas <= 0) return undefined;
    return allRuns(context, { main, lead })
      .filter(({ insulation }) => insulation === BRITTLE)
      .map(({ key, title }) => ({
        key: `${key}.insulation`,
        message: `${capitalise(title)} is insulated with polypropylene, and the well has ${context.show(gas, 'ratio', CARBON_DIOXIDE)} of carbon dioxide, which cracks it. Use another insulation, or have the maker confirm it.`,
        related: [{ key: CARBON_DIOXIDE, message: 'the gas' }],
      }));
  },
});
