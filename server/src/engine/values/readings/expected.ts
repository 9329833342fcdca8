import { LEAD_IF_ANY, meanAlong, resistance20, SECTIONS, totalLength } from '../cable/inputs.ts';
import { declareValue, entry, entryOr, optionalRows, type ValueDeclaration, value } from '../declare.ts';
import { temperatureFactor } from '../electrical/conductor.ts';
import { GRAVITY, GRAVITY_SOURCE } from '../physics.ts';
import { SURVEY_COLUMNS } from '../well/depths.ts';
import { meanDepthFraction } from '../well/survey.ts';

const LINEAR_PROFILE = 'linear in vertical depth (common practice, no source)';

export const EXPECTED_READINGS: readonly ValueDeclaration[] = [
  declareValue({
    id: 'intake.static_temperature',
    title: 'temperature at the intake with the well at rest',
    kind: 'temperature',
    formula: 'T_surface + (T_res − T_surface)·tvd_intake/tvd_perf',
    source: LINEAR_PROFILE,
    inputs: {
      surface: entry('well.surface_temperature'),
      reservoir: entry('reservoir.temperature'),
      intake: value('well.intake_tvd'),
      perforations: value('well.perforation_tvd'),
    },
    compute: ({ surface, reservoir, intake, perforations }) =>
      surface + ((reservoir - surface) * intake) / perforations,
  }),
  declareValue({
    id: 'cable.static_resistance',
    title: 'resistance of cable and lead per phase, in the well at rest',
    kind: 'resistance',
    formula: 'Σ length·r_20·[1 + 0.00393·(T − 20)], T the well’s without current',
    source: LINEAR_PROFILE,
    inputs: {
      sections: SECTIONS,
      lead: LEAD_IF_ANY,
      surface: entry('well.surface_temperature'),
      bottom: value('intake.static_temperature'),
      md: entry('well.intake.md'),
      survey: optionalRows('well.survey', SURVEY_COLUMNS),
    },
    without: 'the conductor has neither a resistance on its sheet nor a standard size',
    compute: ({ sections, lead, surface, bottom, md, survey }) => {
      const share = survey === undefined ? 0.5 : meanDepthFraction(survey, md);
      const main = totalLength(sections) * meanAlong(sections, resistance20);
      const below = lead === undefined ? 0 : totalLength(lead) * meanAlong(lead, resistance20);
      return main * temperatureFactor(surface + (bottom - surface) * share) + below * temperatureFactor(bottom);
    },
  }),
  declareValue({
    id: 'reading.expected_resistance',
    title: 'resistance to expect line to line, through the cable',
    kind: 'resistance',
    formula: 'R_winding·[1 + 0.00393·(T_intake − 20)] + 2·R_cable, the well at rest',
    source: 'two phases in series',
    inputs: {
      winding: entry('equipment.motor.phase_resistance'),
      temperature: value('intake.static_temperature'),
      cable: value('cable.static_resistance'),
    },
    compute: ({ winding, temperature, cable }) => winding * temperatureFactor(temperature) + 2 * cable,
  }),
  declareValue({
    id: 'reading.expected_static_pressure',
    title: 'pressure that the gauge should read with the well at rest',
    kind: 'pressure',
    formula: 'p_static + ρ·g·(gauge below the intake)',
    source: GRAVITY_SOURCE,
    inputs: {
      pressure: value('intake.static_pressure'),
      density: value('fluid.liquid_density'),
      below: entryOr('equipment.gauge.below_intake', 0, 'a gauge at the intake where no distance is entered'),
    },
    compute: ({ pressure, density, below }) => pressure + density * GRAVITY * below,
  }),
];
