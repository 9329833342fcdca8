import { type Evaluation, GRAVITY } from '../../engine/index.ts';
import { drawDepthPlot, type PlotLevel, type PlotLine, type PlotMark } from './depth-plot.ts';
import type { PictureWidth, Point } from './drawing.ts';
import { type Picture, pictureOf, Reader } from './picture.ts';

const TRIP = 'setpoints.protection.intake_pressure_low.trip';
/** Two pressures that print alike are one mark. */
const SAME = 1e-3;

/** What the picture stands on: Pa absolute, m vertically, kg/m3. */
interface Facts {
  readonly intake: number;
  readonly perforations: number;
  readonly casing: number;
  readonly tubing: number;
  readonly pressure: number;
  readonly atRest: number;
  readonly discharge: number;
  readonly density: number;
  /** Of what stands above the intake while the well flows: oil, the water goes with the stream. */
  readonly aboveIntake: number;
  readonly trip: number | undefined;
  readonly bubblePoint: number | undefined;
}

/** Pressure against vertical depth in one case: annulus at rest and in the case, tubing, and the marks at the intake. */
export function pressurePicture(evaluation: Evaluation, caseIndex: number, width: PictureWidth): Picture {
  const reader = new Reader(evaluation, caseIndex);
  const title = `Pressure against depth, ${evaluation.caseName(caseIndex)}`;
  const facts = readFacts(reader);
  return pictureOf({ id: 'pressure', title, caseIndex }, reader, () => draw(title, facts, reader, width));
}

function readFacts(reader: Reader): Facts {
  const tubing = reader.inCase('tubing_pressure', 'well.wellhead.tubing_pressure');
  if (tubing === undefined) reader.noteMissing(['well.wellhead.tubing_pressure']);
  const density = reader.value('fluid.liquid_density');
  return {
    intake: reader.value('well.intake_tvd'),
    perforations: reader.value('well.perforation_tvd'),
    casing: reader.entry('well.wellhead.casing_pressure'),
    tubing: tubing ?? Number.NaN,
    pressure: reader.value('intake.pressure'),
    atRest: reader.value('intake.static_pressure'),
    discharge: reader.value('lift.discharge_pressure'),
    density,
    aboveIntake: reader.known('fluid.oil_density') ?? density,
    trip: reader.knownEntry(TRIP),
    bubblePoint: reader.known('fluid.bubble_point'),
  };
}

function draw(title: string, facts: Facts, reader: Reader, width: PictureWidth): string {
  const rests = isSame(facts.pressure, facts.atRest);
  const resting = annulusLine(facts, facts.atRest, facts.density);
  const running = annulusLine(facts, facts.pressure, facts.aboveIntake);
  const lines = [
    named(resting, reader, { name: 'at rest', pattern: 'dashed', nameAt: 0.35 }),
    ...(rests ? [] : [named(running, reader, { name: 'in the case', pattern: 'heavy', nameAt: -0.12 })]),
    tubingLine(facts, reader),
  ];
  const levels = [
    level('intake', facts.intake, reader),
    level('perforations', facts.perforations, reader),
    level('liquid at rest', levelOf(resting), reader),
    ...(rests ? [] : [level('liquid', levelOf(running), reader)]),
  ];
  const marks = marksOf(facts, rests, reader);
  return drawDepthPlot({
    title,
    width,
    description: describe(levels, marks),
    unit: reader.unit('pressure'),
    depthUnit: reader.unit('depth'),
    lines,
    levels,
    marks,
    fromZero: true,
  });
}

function level(name: string, depth: number, reader: Reader): PlotLevel {
  return { depth: reader.drawn(depth, 'depth'), text: `${name} ${reader.shown(depth, 'depth')}` };
}

/** Depth at which the liquid begins. */
function levelOf(line: readonly Point[]): number {
  return line.at(-3)?.[1] ?? 0;
}

function isSame(a: number, b: number): boolean {
  return Math.abs(a - b) <= SAME * Math.abs(b);
}

/** Casing pressure down to the level, then the liquid above the intake, then that below it. */
function annulusLine(facts: Facts, atIntake: number, above: number): readonly Point[] {
  const { intake, perforations, casing, density } = facts;
  const level = Math.min(intake, Math.max(0, intake - (atIntake - casing) / (above * GRAVITY)));
  const atLevel = atIntake - above * GRAVITY * (intake - level);
  const gas: readonly Point[] = level > 0 ? [[casing, 0]] : [];
  const atPerforations = atIntake + density * GRAVITY * (perforations - intake);
  return [...gas, [atLevel, level], [atIntake, intake], [atPerforations, perforations]];
}

/** A line in the author's units, its name at a share of the liquid downwards. */
function named(
  points: readonly Point[],
  reader: Reader,
  { name, pattern, nameAt }: Pick<PlotLine, 'name' | 'pattern' | 'nameAt'>,
): PlotLine {
  const bottom = points.at(-1)?.[1] ?? 1;
  const top = points.length > 2 ? levelOf(points) : 0;
  return {
    points: points.map(([pressure, depth]) => [reader.drawn(pressure, 'pressure'), reader.drawn(depth, 'depth')]),
    pattern,
    name,
    nameAt: Math.max(0.04, (top + nameAt * (bottom - top)) / bottom),
  };
}

function tubingLine({ tubing, discharge, intake }: Facts, reader: Reader): PlotLine {
  const points: readonly Point[] = [
    [tubing, 0],
    [discharge, intake],
  ];
  return named(points, reader, { name: 'tubing', pattern: 'solid', nameAt: 0.4 });
}

function marksOf(facts: Facts, rests: boolean, reader: Reader): readonly PlotMark[] {
  const { intake, pressure, atRest, discharge, trip, bubblePoint } = facts;
  const mark = (name: string, number: number | undefined, isLimit = false): readonly PlotMark[] =>
    number === undefined
      ? []
      : [
          {
            number: reader.drawn(number, 'pressure'),
            depth: reader.drawn(intake, 'depth'),
            text: `${name} ${reader.shown(number, 'pressure')}`,
            limitFrom: isLimit ? reader.drawn(0.94 * intake, 'depth') : undefined,
          },
        ];
  const trips = trip !== undefined && isSame(pressure, trip);
  return [
    ...(rests ? [] : mark(trips ? 'intake at the trip' : 'intake', pressure)),
    ...(trips ? [] : mark('trip', trip, true)),
    ...mark('bubble point', bubblePoint, true),
    ...mark(rests ? 'intake at rest' : 'at rest', atRest),
    ...mark('discharge', discharge),
  ];
}

function describe(levels: readonly PlotLevel[], marks: readonly PlotMark[]): string {
  return `Depth runs down. ${[...levels, ...marks].map(({ text }) => text).join('; ')}.`;
}
