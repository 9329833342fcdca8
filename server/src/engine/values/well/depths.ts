import { declareValue, entry, method, rows, type ValueDeclaration, value, valueBy } from '../declare.ts';
import { tvdAt } from './survey.ts';

export const SURVEY_COLUMNS = { md: 'number', tvd: 'number?', inclination: 'number?', azimuth: 'number?' } as const;

const SURVEY_SOURCE = 'minimum curvature where inclination is given, linear between pairs of md and tvd';

function depthOf(id: string, title: string, path: string): ValueDeclaration {
  return valueBy(id, title, 'depth', [
    method({
      formula: 'as entered',
      source: 'the entry itself',
      inputs: { tvd: entry(`${path}.tvd`) },
      compute: ({ tvd }) => tvd,
    }),
    method({
      formula: 'survey at md',
      source: SURVEY_SOURCE,
      inputs: { md: entry(`${path}.md`), survey: rows('well.survey', SURVEY_COLUMNS) },
      without: 'the survey does not reach that depth',
      compute: ({ md, survey }) => tvdAt(survey, md),
    }),
  ]);
}

export const DEPTHS: readonly ValueDeclaration[] = [
  depthOf('well.intake_tvd', 'vertical depth of the intake', 'well.intake'),
  depthOf('well.perforation_tvd', 'vertical depth of the perforations', 'well.perforations'),
  declareValue({
    id: 'well.perforations_below_intake',
    title: 'height from the intake down to the perforations',
    kind: 'length',
    formula: 'tvd_perf − tvd_intake',
    source: 'geometry',
    inputs: { perforations: value('well.perforation_tvd'), intake: value('well.intake_tvd') },
    compute: ({ perforations, intake }) => perforations - intake,
  }),
];
