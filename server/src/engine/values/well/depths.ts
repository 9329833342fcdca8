import { absent } from '../conditions.ts';
import { declareValue, entry, method, rows, type ValueDeclaration, value, valueBy } from '../declare.ts';
import { tvdAt } from './survey.ts';

export const SURVEY_COLUMNS = { md: 'number', tvd: 'number?', inclination: 'number?', azimuth: 'number?' } as const;

const SURVEY_SOURCE = 'minimum curvature where inclination is given, linear between pairs of md and tvd';

function depthOf(id: string, title: string, path: string, surveyed: string): ValueDeclaration {
  return valueBy(id, title, 'depth', [
    method({
      formula: 'as entered',
      source: 'the entry itself',
      inputs: { tvd: entry(`${path}.tvd`) },
      compute: ({ tvd }) => tvd,
    }),
    method({
      when: [absent(`${path}.tvd`)],
      formula: 'survey at md',
      source: SURVEY_SOURCE,
      inputs: { surveyed: value(surveyed) },
      compute: ({ surveyed: tvd }) => tvd,
    }),
  ]);
}

/** The depth that the survey gives, also where one is entered beside it. */
function surveyedDepthOf(id: string, title: string, path: string): ValueDeclaration {
  return declareValue({
    id,
    title,
    kind: 'depth',
    formula: 'survey at md',
    source: SURVEY_SOURCE,
    inputs: { md: entry(`${path}.md`), survey: rows('well.survey', SURVEY_COLUMNS) },
    without: 'the survey does not reach that depth',
    compute: ({ md, survey }) => tvdAt(survey, md),
  });
}

const INTAKE_DEPTH = 'well.surveyed_intake_tvd';
const PERFORATION_DEPTH = 'well.surveyed_perforation_tvd';

export const DEPTHS: readonly ValueDeclaration[] = [
  surveyedDepthOf(INTAKE_DEPTH, 'vertical depth of the intake by the survey', 'well.intake'),
  surveyedDepthOf(PERFORATION_DEPTH, 'vertical depth of the perforations by the survey', 'well.perforations'),
  depthOf('well.intake_tvd', 'vertical depth of the intake', 'well.intake', INTAKE_DEPTH),
  depthOf('well.perforation_tvd', 'vertical depth of the perforations', 'well.perforations', PERFORATION_DEPTH),
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
