import { capitalise } from '../../text/words.ts';
import type { CheckContext } from '../context.ts';
import { type Check, check, type Judgement, type Offer } from '../declare.ts';
import { allRuns, LEAD_RUN, MAIN_KEY, MAIN_RUNS, type Run } from './runs.ts';

/** Highest conductor temperature that insulation is sold for, degC, with something to spare (common practice, no source). */
const MOST_OF: Readonly<Record<string, number>> = { polypropylene: 125, epdm: 240 };
const MOST_OF_ANY = 300;
const KEY = 'conductor_temperature_max';

function judge(context: CheckContext, run: Run): readonly Judgement[] {
  const most = MOST_OF[(run.insulation ?? '').toLowerCase()] ?? MOST_OF_ANY;
  const rating = run[KEY];
  if (rating === undefined || rating <= most) return [];
  const key = `${run.key}.${KEY}`;
  const show = (temperature: number) => context.show(temperature, 'temperature', key);
  const insulation = run.insulation === undefined ? 'Cable' : `Cable insulated with ${run.insulation}`;
  return [
    {
      key,
      message: `${capitalise(run.title)} is rated for a conductor at ${show(rating)}. ${insulation} is not made for more than ${show(most)}; look for degF entered as degC.`,
      value: { number: rating, kind: 'temperature' },
      limit: { number: most, kind: 'temperature' },
      related: [{ key: `${run.key}.insulation`, message: 'the insulation' }],
      fixes: inFahrenheit(context, key),
    },
  ];
}

function inFahrenheit(context: CheckContext, key: string): readonly Offer[] {
  const written = context.quantity(key);
  if (written?.unit !== 'degC') return [];
  const newText = `${written.number} degF`;
  return [{ title: `Write ${newText}: the cable is then rated that much cooler`, kind: 'offer', key, newText }];
}

export const CABLE_RATING_UNLIKELY: Check = check({
  id: 'cable.rating-unlikely',
  severity: 'warning',
  title: 'cable rated hotter than its insulation can be',
  compares:
    'the conductor temperature on the sheet of each run with what its insulation is sold for: polypropylene 125 degC, ' +
    'EPDM 240 degC, any 300 degC',
  why: 'A limit in Fahrenheit that is called Celsius lets the insulation melt without a word.',
  mend: 'Look at the unit on the cable’s data sheet.',
  source: 'common practice, no source',
  example: { lift: 'linear', fails: { [`${MAIN_KEY}.${KEY}`]: '302 degC' }, at: `${MAIN_KEY}.${KEY}` },
  needs: { main: MAIN_RUNS, lead: LEAD_RUN },
  run: (runs, context) => allRuns(context, runs).flatMap((run) => judge(context, run)),
});
