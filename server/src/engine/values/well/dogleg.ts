import { declareValue, entry, optionalEntry, rows, type Seen, type ValueDeclaration } from '../declare.ts';
import { doglegSeverity } from './survey.ts';

const STRING = {
  survey: rows('well.survey', { md: 'number', inclination: 'number', azimuth: 'number?' }),
  md: entry('well.intake.md'),
  pump: optionalEntry('equipment.pump.length'),
  motor: optionalEntry('equipment.motor.length'),
};

/** Severest interval that a stretch of the hole touches, deg/m; NaN if the survey has none there. */
function severest({ survey }: Seen<typeof STRING>, from: number, to: number): number {
  const touched = doglegSeverity(survey).filter((each) => each.to > from && each.from < to);
  return touched.length === 0 ? Number.NaN : Math.max(...touched.map(({ severity }) => severity));
}

/** The ends of the stretch in which pump and motor hang, m; without their lengths the place of the intake alone. */
function setting({ md, pump, motor }: Seen<typeof STRING>): readonly [from: number, to: number] {
  const above = md - Math.max(0, pump ?? 0);
  const below = md + Math.max(0, motor ?? 0);
  return above < below ? [above, below] : [md - 1e-6, md + 1e-6];
}

const SOURCE = 'minimum curvature between survey stations';
const NOT_REACHED = 'the survey has no two stations around that depth';

export const DOGLEGS: readonly ValueDeclaration[] = [
  declareValue({
    id: 'well.setting_dogleg',
    title: 'greatest dogleg where pump and motor hang',
    kind: 'dogleg',
    formula: 'max of the intervals from md_intake − pump length to md_intake + motor length',
    source: SOURCE,
    inputs: STRING,
    without: NOT_REACHED,
    compute: (seen) => severest(seen, ...setting(seen)),
  }),
  declareValue({
    id: 'well.passed_dogleg',
    title: 'greatest dogleg that the string is run through',
    kind: 'dogleg',
    formula: 'max of the intervals from the top to md_intake + motor length',
    source: SOURCE,
    inputs: STRING,
    without: NOT_REACHED,
    compute: (seen) => severest(seen, 0, setting(seen)[1]),
  }),
];
