import { COLD_CABLE } from '../conditions.ts';
import { entry, method, optionalRows, type Seen, type ValueDeclaration, value, valueBy } from '../declare.ts';
import { temperatureFactor } from '../electrical/conductor.ts';
import { SURVEY_COLUMNS } from '../well/depths.ts';
import { meanDepthFraction, tvdAt } from '../well/survey.ts';
import { conductorRise, RATED_SECTIONS, resistance20, SECTIONS, type Section, totalLength } from './inputs.ts';

const HOLE = {
  bottom: value('intake.temperature'),
  md: entry('well.intake.md'),
  survey: optionalRows('well.survey', SURVEY_COLUMNS),
  lead: value('cable.lead_length'),
};
const COLD = { ...HOLE, sections: SECTIONS, top: entry('well.surface_temperature') };
const WARM = {
  ...HOLE,
  sections: RATED_SECTIONS,
  top: value('well.top_temperature'),
  current: value('motor.current_rms'),
};
type Hole = Seen<typeof HOLE> & { readonly top: number };

/** A section where it hangs: its conductor's mean temperature and that at its lower end, degC. */
interface Placed {
  readonly section: Section;
  readonly mean: number;
  readonly lowerEnd: number;
}

/** ∫ of tvd(s)/tvd(intake) from the wellhead down to a measured depth, m; what lies above the wellhead adds nothing. */
function depthIntegral({ survey, md }: Hole, to: number): number {
  if (to <= 0) return 0;
  if (survey === undefined) return to ** 2 / (2 * md);
  return (meanDepthFraction(survey, to) * to * tvdAt(survey, to)) / tvdAt(survey, md);
}

function depthShare({ survey, md }: Hole, at: number): number {
  const along = Math.max(0, at);
  return survey === undefined ? along / md : tvdAt(survey, along) / tvdAt(survey, md);
}

/** Sections from the top down, their lower end on the lead; what is too long lies at the surface. */
function placed<S extends Section>(hole: Hole, sections: readonly S[], rise: (section: S) => number): Placed[] {
  let from = hole.md - hole.lead - totalLength(sections);
  return sections.map((section) => {
    const to = from + section.length;
    const share = (depthIntegral(hole, to) - depthIntegral(hole, from)) / section.length;
    const warm = (depth: number) => hole.top + (hole.bottom - hole.top) * depth + rise(section);
    from = to;
    return { section, mean: warm(share), lowerEnd: warm(depthShare(hole, to)) };
  });
}

const PROFILE = 'linear profile in vertical depth, each section with its own rise (common practice, no source)';

/** The same quantity of the placed sections for a cold and for a running cable. */
function bySection(
  id: string,
  title: string,
  kind: string,
  formula: string,
  of: (placed: readonly Placed[]) => number,
): ValueDeclaration {
  return valueBy(id, title, kind, [
    method({
      when: [COLD_CABLE],
      formula: `${formula}, no rise`,
      source: PROFILE,
      inputs: COLD,
      compute: ({ sections, ...hole }) => of(placed(hole, sections, () => 0)),
    }),
    method({
      formula: `${formula}, rise·(I_rms/I_ampacity)² of each section`,
      source: PROFILE,
      inputs: WARM,
      compute: ({ sections, current, ...hole }) =>
        of(placed(hole, sections, (section) => conductorRise(section, current))),
    }),
  ]);
}

/** Better founded than one mean temperature where the cable has several sections or the hole builds angle. */
export const CABLE_BY_SECTION: readonly ValueDeclaration[] = [
  bySection(
    'cable.temperature_by_section',
    'mean temperature of the conductor, section by section',
    'temperature',
    'Σ length·T/Σ length',
    (sections) =>
      sections.reduce((sum, { section, mean }) => sum + section.length * mean, 0) /
      totalLength(sections.map(({ section }) => section)),
  ),
  bySection(
    'cable.hottest_by_section',
    'hottest place of the conductor in any section',
    'temperature',
    'greatest of T at the lower end of each section',
    (sections) => Math.max(...sections.map(({ lowerEnd }) => lowerEnd)),
  ),
  bySection(
    'cable.main_resistance_by_section',
    'resistance of the main cable per phase, section by section',
    'resistance',
    'Σ length·r_20·[1 + 0.00393·(T − 20)]',
    (sections) =>
      sections.reduce(
        (sum, { section, mean }) => sum + section.length * resistance20(section) * temperatureFactor(mean),
        0,
      ),
  ),
  bySection(
    'cable.tightest_section',
    'section whose conductor is nearest to what its insulation stands, counted from the top',
    'count',
    'the section with the least of rating − T at its lower end',
    (sections) => tightest(sections) + 1,
  ),
  bySection(
    'cable.section_margin',
    'least distance of the conductor from what the insulation of its section stands',
    'temperature_difference',
    'least of rating − T at the lower end of each section',
    (sections) => marginOf(sections[tightest(sections)]),
  ),
];

/** How far a section is from what its insulation stands, K; infinite if its sheet does not say. */
function marginOf(placed: Placed | undefined): number {
  const rating = placed?.section.conductor_temperature_max;
  return placed === undefined || rating === undefined ? Number.POSITIVE_INFINITY : rating - placed.lowerEnd;
}

function tightest(sections: readonly Placed[]): number {
  const margins = sections.map(marginOf);
  return margins.indexOf(Math.min(...margins));
}
