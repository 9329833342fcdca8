import { present } from '../../values/conditions.ts';
import type { CheckContext } from '../context.ts';
import { type Check, check, type Judgement, type Offer } from '../declare.ts';
import { MAIN_KEY, MAIN_RUNS, mainRuns, type Run } from './runs.ts';

/** Less is a difference of how two sheets round. */
const TELLING = 1.02;

const SWAPPED = ['datasheet', 'serial', 'length'] as const;

/** What is the wrong way round between a section and the one below it. */
function upsideDown(context: CheckContext, upper: Run, lower: Run): string | undefined {
  const [cool, hot] = [lower.conductor_temperature_max, upper.conductor_temperature_max];
  if (cool !== undefined && hot !== undefined && hot !== cool) {
    if (hot < cool) return undefined;
    const show = (point: number) => context.show(point, 'temperature', `${upper.key}.conductor_temperature_max`);
    return `the upper one stands ${show(hot)} and the lower one, where the well is hotter, ${show(cool)}`;
  }
  const [thin, thick] = [upper.conductor, lower.conductor];
  if (thin === undefined || thick === undefined || thick < thin * TELLING) return undefined;
  const text = (run: Run) => context.text(`${run.key}.conductor`);
  return `the upper one, which bears the weight of the rest, has ${text(upper)} and the lower one ${text(lower)}`;
}

/** The offer to let the two sections change places, as far as their entries are texts of their own. */
function exchange({ evaluation }: CheckContext, upper: Run, lower: Run): readonly Offer[] {
  const edits = SWAPPED.flatMap((name) => {
    const keys = [upper, lower].map((run) => `${run.key}.${name}`);
    const texts = keys.map((key) => evaluation.entryText(key));
    return keys.map((key, at) => ({ key, newText: texts[1 - at] }));
  });
  const complete = edits.flatMap(({ key, newText }) => (newText === undefined ? [] : [{ key, newText }]));
  const [first, ...also] = complete;
  if (first === undefined || complete.length < edits.length) return [];
  return [{ title: 'Exchange the two sections, lengths and serial numbers with them', kind: 'offer', ...first, also }];
}

export const CABLE_SECTIONS_ORDER: Check = check({
  id: 'cable.sections-order',
  severity: 'warning',
  title: 'sections of the main cable the wrong way round',
  compares:
    'each section of the main cable with the next one below it: by what temperature its insulation stands, and where ' +
    'that is the same by its conductor',
  why:
    'Sections are entered from the top down. The better insulation belongs where the well is hot, and the thicker ' +
    'conductor where the cable hangs; entered in reverse, temperatures, voltage drop and the joint’s depth are wrong.',
  mend: 'Enter the sections from the top down.',
  source: 'common practice, no source',
  example: {
    lift: 'rotary',
    fails: {
      [MAIN_KEY]:
        '[ { conductor: 25 mm2, conductor_temperature_max: 204 degC, length: 900 m }, { conductor: 35 mm2, conductor_temperature_max: 150 degC, length: 1000 m } ]',
    },
    passes: {
      [MAIN_KEY]:
        '[ { conductor: 35 mm2, conductor_temperature_max: 150 degC, length: 1000 m }, { conductor: 25 mm2, conductor_temperature_max: 204 degC, length: 900 m } ]',
    },
    at: MAIN_KEY,
  },
  when: [present(`${MAIN_KEY}[1]`)],
  needs: { main: MAIN_RUNS },
  run: ({ main }, context) => {
    const runs = mainRuns(context, main);
    return runs.slice(1).flatMap((lower, at): Judgement[] => {
      const upper = runs[at];
      const wrong = upper === undefined ? undefined : upsideDown(context, upper, lower);
      if (upper === undefined || wrong === undefined) return [];
      return [
        {
          key: MAIN_KEY,
          message: `Sections ${at + 1} and ${at + 2} of the main cable seem to have changed places: ${wrong}. Enter the sections from the top down.`,
          related: [
            { key: upper.key, message: 'the upper section' },
            { key: lower.key, message: 'the lower section' },
          ],
          fixes: exchange(context, upper, lower),
        },
      ];
    });
  },
});
