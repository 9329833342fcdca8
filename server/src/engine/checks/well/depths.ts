import { stepsOf } from '../../syntax/tree.ts';
import { present } from '../../values/conditions.ts';
import { entry, limit, optionalEntry, optionalRows, rows, value } from '../../values/declare.ts';
import { SURVEY_COLUMNS } from '../../values/well/depths.ts';
import type { CheckContext } from '../context.ts';
import {
  type Check,
  check,
  checkOfParts,
  type Judgement,
  type Offer,
  type Part,
  part,
  type Verdict,
} from '../declare.ts';
import { swapOffer } from '../swap.ts';
import { atMost, near } from '../within.ts';

const SURVEY = 'well.survey';
const INTAKE = 'well.intake';
const PERFORATIONS = 'well.perforations';
const ENDS = [
  { path: INTAKE, title: 'the intake', surveyed: 'well.surveyed_intake_tvd' },
  { path: PERFORATIONS, title: 'the perforations', surveyed: 'well.surveyed_perforation_tvd' },
] as const;

function stationKey(at: number, column: string): string {
  return `${SURVEY}[${at}].${column}`;
}

function vertical(context: CheckContext, key: string, title: string, tvd: number, md: number): Verdict {
  const verdict = atMost(context, {
    key,
    kind: 'depth',
    number: tvd,
    limit: md,
    says: (own, along, apart) =>
      `The vertical depth of ${title}, ${own}, is ${apart} more than its depth along the hole, ${along}. Look whether the two have changed places, or their units differ.`,
  });
  if (verdict === undefined || !('message' in verdict)) return verdict;
  return { ...verdict, fixes: depthOffers(context, key, key.replace(/tvd$/, 'md')) };
}

/** Depths in two units are hardly in each other’s place: rather one of them has the wrong unit. */
function depthOffers(context: CheckContext, tvd: string, md: string): readonly Offer[] {
  const [own, along] = [tvd, md].map((key) => context.evaluation.entryText(key, stepsOf(key)));
  const [unit, other] = [own, along].map((text) => /[a-z]+\s*$/i.exec(text ?? '')?.[0]);
  if (unit === undefined || other === undefined || unit === other) return swapOffer(context, tvd, md);
  const meant = along?.replace(other, unit) ?? '';
  return [{ title: `Write ${meant} for the depth along the hole`, kind: 'offer', key: md, newText: meant }];
}

export const WELL_TVD_EXCEEDS_MD: Check = checkOfParts(
  {
    id: 'well.tvd-exceeds-md',
    severity: 'error',
    title: 'vertical depth beyond the depth along the hole',
    compares: 'vertical with measured depth of intake, perforations and each survey station',
    why: 'No hole goes deeper than it is long. Pressures go by the one depth, cable and tubing by the other.',
    mend: 'Look whether the two have changed places, or whether one is in feet and one in metres.',
    source: 'geometry',
    example: { lift: 'linear', fails: { [`${INTAKE}.tvd`]: '1425 m' }, at: `${INTAKE}.tvd` },
  },
  [
    ...ENDS.map(({ path, title }) =>
      part({
        when: [present(`${path}.tvd`)],
        needs: { tvd: entry(`${path}.tvd`), md: entry(`${path}.md`) },
        run: ({ tvd, md }, context) => vertical(context, `${path}.tvd`, title, tvd, md),
      }),
    ),
    part({
      when: [present(SURVEY)],
      needs: { survey: rows(SURVEY, SURVEY_COLUMNS) },
      run: ({ survey }, context) => {
        const at = survey.findIndex(({ md, tvd }) => tvd !== undefined && tvd > md);
        const { md = 0, tvd = 0 } = survey[at] ?? {};
        return at < 0 ? undefined : vertical(context, stationKey(at, 'tvd'), 'this station', tvd, md);
      },
    }),
  ],
);

export const WELL_SURVEY_ORDER: Check = check({
  id: 'well.survey-order',
  severity: 'error',
  title: 'survey stations out of order',
  compares: 'the measured depth of each survey station with the one before',
  why: 'A survey runs down the hole. Out of order it gives no vertical depth, and all pressures lack.',
  mend: 'Sort the stations by measured depth, and take out a station that is entered twice.',
  source: 'definition of a survey',
  example: {
    lift: 'linear',
    fails: { [SURVEY]: '[ { md: 0 m, tvd: 0 m }, { md: 1600 m, tvd: 1570 m }, { md: 1420 m, tvd: 1395 m } ]' },
    at: stationKey(2, 'md'),
  },
  when: [present(SURVEY)],
  needs: { survey: rows(SURVEY, SURVEY_COLUMNS) },
  run: ({ survey }, context) => {
    const at = survey.findIndex(({ md }, index) => index > 0 && md <= (survey[index - 1]?.md ?? 0));
    const [before, station] = [survey[at - 1], survey[at]];
    if (before === undefined || station === undefined) return undefined;
    const key = stationKey(at, 'md');
    return {
      key,
      message: `The survey goes from ${context.show(before.md, 'depth', stationKey(at - 1, 'md'))} to ${context.show(station.md, 'depth', key)}: each station must lie further down the hole than the one before. Sort them, and look for a slip of a digit.`,
    };
  },
});

const DEPTHS = { md: 'number?', tvd: 'number?' } as const;

/** Depths below zero among those given, each with its key. */
function negative(
  context: CheckContext,
  depths: readonly (readonly [key: string, depth: number | undefined])[],
): Judgement[] {
  return depths.flatMap(([key, depth]) => {
    if (depth === undefined || depth >= 0) return [];
    return [
      {
        key,
        message: `A depth of ${context.show(depth, 'depth', key)} lies above the reference at surface. Depths count downwards from zero: take the sign out.`,
        value: { number: depth, kind: 'depth' },
        fixes: withoutSign(context, key),
      },
    ];
  });
}

function withoutSign(context: CheckContext, key: string): readonly Offer[] {
  const newText = context
    .text(key)
    .trim()
    .replace(/^[-\u2212]\s*/, '');
  return [{ title: `Write ${newText}, that far below the reference at surface`, kind: 'offer', key, newText }];
}

export const WELL_NEGATIVE_DEPTH: Check = check({
  id: 'well.negative-depth',
  severity: 'error',
  title: 'negative depth',
  compares: 'all depths with zero',
  why:
    'Some systems count depths below sea level as negative elevations. Here they count downwards from the ' +
    'reference at surface.',
  mend: 'Enter depths as positive numbers, from the same reference.',
  source: 'the document format',
  example: { lift: 'linear', fails: { [`${PERFORATIONS}.tvd`]: '-1480 m' }, at: `${PERFORATIONS}.tvd` },
  when: [present('well')],
  needs: {
    intake: optionalEntry(`${INTAKE}.md`),
    intakeTvd: optionalEntry(`${INTAKE}.tvd`),
    perforations: optionalEntry(`${PERFORATIONS}.md`),
    perforationsTvd: optionalEntry(`${PERFORATIONS}.tvd`),
    survey: optionalRows(SURVEY, DEPTHS),
  },
  run: ({ intake, intakeTvd, perforations, perforationsTvd, survey = [] }, context) =>
    negative(context, [
      [`${INTAKE}.md`, intake],
      [`${INTAKE}.tvd`, intakeTvd],
      [`${PERFORATIONS}.md`, perforations],
      [`${PERFORATIONS}.tvd`, perforationsTvd],
      ...survey.flatMap(
        ({ md, tvd }, at) =>
          [
            [stationKey(at, 'md'), md],
            [stationKey(at, 'tvd'), tvd],
          ] as const,
      ),
    ]),
});

function surveyed({ path, title, surveyed: id }: (typeof ENDS)[number]): Part {
  const key = `${path}.tvd`;
  return part({
    when: [present(key), present(SURVEY)],
    needs: {
      tvd: entry(key),
      survey: value(id),
      most: limit('well.survey-disagrees'),
      share: limit('well.survey-disagrees.share'),
    },
    run: ({ tvd, survey, most, share }, context) => {
      const surveyedText = context.show(survey, 'depth', key);
      const verdict = near(
        context,
        {
          key,
          kind: 'depth',
          number: tvd,
          limit: survey,
          says: (own, due, apart) =>
            `The vertical depth of ${title} is entered as ${own}; the survey gives ${due}, ${apart} away. Correct the one that is wrong.`,
          related: [{ key: SURVEY, message: 'the survey' }],
          follows: ['well.tvd-exceeds-md'],
        },
        Math.max(most, share * survey),
      );
      if (verdict === undefined || !('message' in verdict)) return verdict;
      const offer = `Take the survey’s ${surveyedText}: pressures at that depth follow it`;
      return { ...verdict, fixes: [{ title: offer, kind: 'offer', key, newText: surveyedText }] };
    },
  });
}

export const WELL_SURVEY_DISAGREES: Check = checkOfParts(
  {
    id: 'well.survey-disagrees',
    severity: 'warning',
    title: 'vertical depth and survey disagree',
    compares:
      'the vertical depth that is entered for intake and perforations with that of the survey; they may differ by ' +
      '1 m or ' +
      '0.2 %, whichever is more',
    why: 'All pressures and temperatures go by the vertical depth: one of the two is wrong.',
    mend: 'Correct the depth, or take it out and let the survey give it.',
    source: 'common practice, no source',
    example: { lift: 'linear', fails: { [`${INTAKE}.tvd`]: '1380 m' }, at: `${INTAKE}.tvd` },
  },
  ENDS.map(surveyed),
);

export const WELL_INTAKE_BELOW_PERFORATIONS: Check = check({
  id: 'well.intake-below-perforations',
  severity: 'warning',
  title: 'intake below the perforations',
  compares: 'the measured depth of the intake with that of the perforations',
  why:
    'What flows in above the intake never passes the motor below it: without a shroud the motor stands in still ' +
    'liquid and burns.',
  mend: 'Hang the unit above the perforations, or run it in a shroud and accept this as a deviation.',
  source: 'common practice, no source',
  example: { lift: 'linear', fails: { [INTAKE]: '{ md: 1520 m, tvd: 1490 m }', [SURVEY]: null }, at: `${INTAKE}.md` },
  needs: { intake: entry(`${INTAKE}.md`), perforations: entry(`${PERFORATIONS}.md`) },
  run: ({ intake, perforations }, context) =>
    atMost(context, {
      key: `${INTAKE}.md`,
      kind: 'depth',
      number: intake,
      limit: perforations,
      says: (own, above, apart) =>
        `The intake hangs at ${own}, ${apart} below the perforations at ${above}: the inflow does not pass the motor and does not cool it. Hang the unit higher, or run it in a shroud.`,
      related: [{ key: `${PERFORATIONS}.md`, message: 'the perforations' }],
    }),
});
