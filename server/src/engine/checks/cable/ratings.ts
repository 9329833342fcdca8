import { capitalise } from '../../text/words.ts';
import { present } from '../../values/conditions.ts';
import { entry, value } from '../../values/declare.ts';
import { type Check, check, checkOfParts, type Part, part } from '../declare.ts';
import { overloaded } from '../loading.ts';
import { atMost, worstOf } from '../within.ts';
import { LEAD_KEY, LEAD_RUN, leadRuns, MAIN_KEY, MAIN_RUNS, mainRuns, type Run } from './runs.ts';

const SHEET = 'the cable’s data sheet';

/** The run with the smallest number of a kind among those whose sheets state it. */
function weakest(runs: readonly Run[], column: 'ampacity.current' | 'voltage_class') {
  const stated = runs.flatMap((run) => (run[column] === undefined ? [] : [{ ...run, rating: run[column] }]));
  return worstOf(stated, ({ rating }) => -rating);
}

export const CABLE_AMPACITY: Check = check({
  id: 'cable.ampacity',
  severity: 'error',
  title: 'current above the ampacity of the cable',
  compares:
    'the current of each case, of a linear motor over its cycle, with the ampacity of each section of the main cable',
  why: 'The conductor overheats and its insulation softens, first where the well is hottest.',
  mend: 'Use a thicker conductor.',
  source: SHEET,
  example: {
    lift: 'linear',
    fails: { [`${MAIN_KEY}.ampacity`]: '{ current: 8 A, conductor_rise: 35 K }' },
    at: `${MAIN_KEY}.ampacity.current`,
  },
  needs: { current: value('motor.current_rms'), main: MAIN_RUNS },
  run: ({ current, main }, context) => {
    const run = weakest(mainRuns(context, main), 'ampacity.current');
    if (run === undefined) return { lacks: [`${MAIN_KEY}.ampacity.current`] };
    return overloaded(
      context,
      {
        key: `${run.key}.ampacity.current`,
        does: `${capitalise(run.title)} carries`,
        demand: { number: current, kind: 'current' },
        rating: { number: run.rating, kind: 'current' },
        ratingIs: 'that it is made for',
        mend: 'Use a thicker conductor.',
      },
      1,
    );
  },
});

export const CABLE_VOLTAGE_CLASS: Check = check({
  id: 'cable.voltage-class',
  severity: 'error',
  title: 'voltage above the class of the cable',
  compares: 'the voltage at the top of the cable in each case with the voltage class of each section of the main cable',
  why: 'The insulation breaks down, at the latest when a first earth fault puts the full voltage on two phases.',
  mend: 'Use a cable of a higher class, or a motor for a lower voltage.',
  source: SHEET,
  example: { lift: 'rotary', fails: { [`${MAIN_KEY}.voltage_class`]: '1 kV' }, at: `${MAIN_KEY}.voltage_class` },
  needs: { voltage: value('surface.required_voltage'), main: MAIN_RUNS },
  run: ({ voltage, main }, context) => {
    const run = weakest(mainRuns(context, main), 'voltage_class');
    if (run === undefined) return { lacks: [`${MAIN_KEY}.voltage_class`] };
    return atMost(context, {
      key: `${run.key}.voltage_class`,
      kind: 'voltage',
      number: voltage,
      limit: run.rating,
      says: (own, most) =>
        `In the case '${context.caseName}' the cable is at ${own}, above the class of ${run.title}, ${most}. Use a cable of a higher class, or a motor for a lower voltage.`,
    });
  },
});

export const CABLE_LEAD_IS_WEAKER: Check = checkOfParts(
  {
    id: 'cable.lead-is-weaker',
    severity: 'warning',
    title: 'the motor lead stands less than the main cable is used at',
    compares: 'voltage class and ampacity of the motor lead with the voltage and current of each case',
    why: 'The lead is the thinnest piece of the run and lies where it is hottest.',
    mend: 'Use a stronger lead.',
    source: SHEET,
    example: { lift: 'rotary', fails: { [`${LEAD_KEY}.voltage_class`]: '1 kV' }, at: `${LEAD_KEY}.voltage_class` },
  },
  [
    part({
      when: [present(`${LEAD_KEY}.voltage_class`)],
      needs: { voltage: value('surface.required_voltage'), lead: LEAD_RUN },
      run: ({ voltage, lead }, context) => {
        const run = weakest(leadRuns(context, lead), 'voltage_class');
        if (run === undefined) return undefined;
        return atMost(context, {
          key: `${run.key}.voltage_class`,
          kind: 'voltage',
          number: voltage,
          limit: run.rating,
          says: (own, most) =>
            `In the case '${context.caseName}' the cable is at ${own}, above the class of its motor lead, ${most}. Use a lead of a higher class.`,
        });
      },
    }),
    part({
      when: [present(`${LEAD_KEY}.ampacity.current`)],
      needs: { current: value('motor.current_rms'), lead: LEAD_RUN },
      run: ({ current, lead }, context) => {
        const run = weakest(leadRuns(context, lead), 'ampacity.current');
        if (run === undefined) return undefined;
        return atMost(context, {
          key: `${run.key}.ampacity.current`,
          kind: 'current',
          number: current,
          limit: run.rating,
          says: (own, most) =>
            `In the case '${context.caseName}' the cable carries ${own}, above the ampacity of its motor lead, ${most}. Use a thicker lead.`,
        });
      },
    }),
  ],
);

/** Conductor temperature of a run against what its insulation stands. */
function heated(path: string, temperature: string, words: string): Part {
  const key = `${path}.conductor_temperature_max`;
  return part({
    when: [present(key)],
    needs: { conductor: value(temperature), most: entry(key) },
    run: ({ conductor, most }, context) =>
      atMost(context, {
        key,
        kind: 'temperature',
        number: conductor,
        limit: most,
        says: (own, allowed, apart) =>
          `In the case '${context.caseName}' the conductor of ${words} comes to ${own}, ${apart} above what its insulation stands, ${allowed}. Use a cable for a higher temperature, or a thicker conductor.`,
        related: [{ key: 'reservoir.temperature', message: 'the heat of the well' }],
        follows: ['cable.ampacity'],
      }),
  });
}

/** Of several sections the one that is nearest to its own rating, or furthest beyond it. */
const hottestSection: Part = part({
  when: [present(`${MAIN_KEY}[1]`)],
  needs: { margin: value('cable.section_margin'), at: value('cable.tightest_section'), main: MAIN_RUNS },
  run: ({ margin, at, main }, context) => {
    const run = mainRuns(context, main)[at - 1];
    const most = run?.conductor_temperature_max;
    if (run === undefined || most === undefined) return { lacks: [`${MAIN_KEY}[].conductor_temperature_max`] };
    return atMost(context, {
      key: `${run.key}.conductor_temperature_max`,
      kind: 'temperature',
      number: most - margin,
      limit: most,
      says: (own, allowed, apart) =>
        `In the case '${context.caseName}' the conductor of ${run.title} comes to ${own} at its lower end, ${apart} above what its insulation stands, ${allowed}. Use a cable for a higher temperature there, or end the section higher up.`,
      related: [{ key: 'reservoir.temperature', message: 'the heat of the well' }],
      follows: ['cable.ampacity'],
    });
  },
});

export const CABLE_TEMPERATURE: Check = checkOfParts(
  {
    id: 'cable.temperature',
    severity: 'error',
    title: 'conductor hotter than its insulation stands',
    compares:
      'the conductor temperature at the intake in each case with what the insulation of main cable and motor lead ' +
      'stands; of a cable in several sections, at the lower end of each',
    why: 'Soft insulation lets the conductor wander and fail.',
    mend: 'Use a cable for a higher temperature, or a thicker conductor.',
    source: `IEC 60287 in principle: temperature of the place and rise of the conductor; ${SHEET}`,
    example: {
      lift: 'linear',
      fails: { [`${MAIN_KEY}.conductor_temperature_max`]: '50 degC' },
      at: `${MAIN_KEY}.conductor_temperature_max`,
    },
  },
  [
    heated(MAIN_KEY, 'cable.hottest_temperature', 'the main cable'),
    hottestSection,
    heated(LEAD_KEY, 'cable.lead_temperature', 'the motor lead'),
  ],
);
