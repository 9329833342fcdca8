import {
  declareValue,
  eachCaseText,
  entry,
  knownCases,
  optionalRows,
  type ValueDeclaration,
  value,
} from '../declare.ts';
import { flowFromPerforations, INFLOW_CURVE, INFLOW_SOURCE } from '../inflow/performance.ts';
import { integrate } from '../numeric/integrate.ts';
import { circleArea, GRAVITY } from '../physics.ts';
import { SURVEY_COLUMNS } from '../well/depths.ts';
import { mdAt } from '../well/survey.ts';

export const TIMES: readonly ValueDeclaration[] = [
  declareValue({
    id: 'start.fill_time',
    title: 'time to fill the tubing at the first start',
    kind: 'duration',
    formula:
      'length along hole down to the level × tubing area/pump rate; level tvd_intake − (p_static − p_casing)/(ρ·g)',
    source: 'volume balance, first case with the well at rest',
    inputs: {
      intakes: eachCaseText('intake'),
      pressures: knownCases('intake.static_pressure'),
      densities: knownCases('fluid.liquid_density'),
      rates: knownCases('pump.rate'),
      casing: entry('well.wellhead.casing_pressure'),
      tvd: value('well.intake_tvd'),
      md: entry('well.intake.md'),
      survey: optionalRows('well.survey', SURVEY_COLUMNS),
      tubing: entry('well.tubing.inner_diameter'),
    },
    without: 'no case has the well at rest, or the pump moves nothing in it',
    compute: ({ intakes, pressures, densities, rates, casing, tvd, md, survey, tubing }) => {
      const at = intakes.indexOf('static');
      const column = ((pressures[at] ?? Number.NaN) - casing) / ((densities[at] ?? Number.NaN) * GRAVITY);
      const level = Math.max(0, Math.min(tvd, tvd - column));
      const along = survey === undefined ? (level * md) / tvd : mdAt(survey, level);
      const time = (along * circleArea(tubing)) / (rates[at] ?? Number.NaN);
      return { number: time >= 0 ? time : Number.NaN, caseIndex: at };
    },
  }),
  declareValue({
    id: 'restart.refill_time',
    title: 'time for the annulus to refill from trip to reset',
    kind: 'duration',
    formula: '∫ A/(ρ·g)·dp/q(p + ρ·g·(tvd_perf − tvd_intake)) from trip to reset, A = casing − tubing area',
    source: INFLOW_SOURCE,
    inputs: {
      ...INFLOW_CURVE,
      density: value('fluid.produced_density'),
      below: value('well.perforations_below_intake'),
      trip: entry('setpoints.protection.intake_pressure_low.trip'),
      reset: entry('setpoints.protection.intake_pressure_low.reset'),
      casing: entry('well.casing.inner_diameter'),
      tubing: entry('well.tubing.outer_diameter'),
    },
    without: 'the well does not rise to the reset pressure',
    compute: ({ density, below, trip, reset, casing, tubing, ...curve }) => {
      const rate = (pressure: number) => flowFromPerforations(curve, pressure, density, below);
      if (!(rate(reset) > 0) || reset < trip) return Number.NaN;
      const annulus = circleArea(casing) - circleArea(tubing);
      return integrate((pressure) => annulus / (density * GRAVITY * rate(pressure)), trip, reset);
    },
  }),
];
