import type { Evaluation } from '../../engine/index.ts';
import { drawDepthPlot, type PlotLine, type PlotMark } from './depth-plot.ts';
import type { PictureWidth } from './drawing.ts';
import { type Picture, pictureOf, Reader } from './picture.ts';

/** degC, m vertically. */
interface Facts {
  readonly intake: number;
  readonly perforations: number;
  readonly top: number;
  readonly reservoir: number;
  readonly atIntake: number;
  readonly conductor: number;
  readonly winding: number;
  readonly ratings: readonly { readonly name: string; readonly number: number; readonly from: number }[];
}

/** Temperature against vertical depth in one case: well, conductor and winding, and what cable, motor and gauge stand. */
export function temperaturePicture(evaluation: Evaluation, caseIndex: number, width: PictureWidth): Picture {
  const reader = new Reader(evaluation, caseIndex);
  const title = `Temperature against depth, ${evaluation.caseName(caseIndex)}`;
  const facts = readFacts(reader);
  return pictureOf({ id: 'temperature', title, caseIndex }, reader, () => draw(title, facts, reader, width));
}

function readFacts(reader: Reader): Facts {
  const { evaluation, caseIndex } = reader;
  const isCold = evaluation.caseText(caseIndex, 'cable') === 'cold';
  return {
    intake: reader.value('well.intake_tvd'),
    perforations: reader.value('well.perforation_tvd'),
    top: isCold ? reader.entry('well.surface_temperature') : reader.value('well.top_temperature'),
    reservoir: reader.entry('reservoir.temperature'),
    atIntake: reader.value('intake.temperature'),
    conductor: reader.value('cable.hottest_temperature'),
    winding: reader.value('motor.winding_temperature'),
    ratings: ratingsOf(reader),
  };
}

/** The ratings on the data sheets; what a sheet leaves out has no line. `from` is the depth at which its part begins. */
function ratingsOf(reader: Reader): Facts['ratings'] {
  const near = 0.85 * (reader.known('well.intake_tvd') ?? 0);
  const sections = reader.evaluation.rowNodes('equipment.cable.main')?.length ?? 0;
  const cable = sections === 1 ? 'equipment.cable.main' : 'equipment.cable.main[0]';
  const rated = [
    { name: 'cable rated', path: `${cable}.conductor_temperature_max`, from: 0 },
    { name: 'motor insulation', path: 'equipment.motor.insulation_temperature', from: near },
    { name: 'fluid limit of motor', path: 'equipment.motor.fluid_temperature_max', from: near },
    { name: 'gauge rated', path: 'equipment.gauge.temperature_max', from: near },
  ];
  return rated.flatMap(({ name, path, from }) => {
    const number = reader.knownEntry(path);
    return number === undefined ? [] : [{ name, number, from }];
  });
}

function draw(title: string, facts: Facts, reader: Reader, width: PictureWidth): string {
  const lines = linesOf(facts, reader);
  const marks = marksOf(facts, reader);
  const levels = [
    { depth: facts.intake, name: 'intake' },
    { depth: facts.perforations, name: 'perforations' },
  ];
  return drawDepthPlot({
    title,
    width,
    description: `Depth runs down. ${marks.map(({ text }) => text).join('; ')}.`,
    unit: reader.unit('temperature'),
    depthUnit: reader.unit('depth'),
    lines,
    levels: levels.map(({ depth, name }) => ({
      depth: reader.drawn(depth, 'depth'),
      text: `${name} ${reader.shown(depth, 'depth')}`,
    })),
    marks,
    fromZero: false,
  });
}

/** A conductor that does not warm what is around it has no line of its own. */
function isCold(rise: number): boolean {
  return Math.abs(rise) < 0.05;
}

function linesOf(facts: Facts, reader: Reader): readonly PlotLine[] {
  const { top, atIntake, conductor, intake, perforations, reservoir } = facts;
  const point = (temperature: number, depth: number) =>
    [reader.drawn(temperature, 'temperature'), reader.drawn(depth, 'depth')] as const;
  const rise = conductor - atIntake;
  const well = [point(top, 0), point(atIntake, intake), point(reservoir, perforations)];
  if (isCold(rise)) return [{ points: well, pattern: 'solid', name: 'well and conductor', nameAt: 0.3 }];
  return [
    { points: well, pattern: 'solid', name: 'well', nameAt: 0.4, side: 'left' },
    { points: [point(top + rise, 0), point(conductor, intake)], pattern: 'dashed', name: 'conductor', nameAt: 0.55 },
  ];
}

function marksOf({ intake, atIntake, conductor, winding, ratings }: Facts, reader: Reader): readonly PlotMark[] {
  const mark = (name: string, number: number, from?: number): PlotMark => ({
    number: reader.drawn(number, 'temperature'),
    depth: reader.drawn(intake, 'depth'),
    text: `${name} ${reader.shown(number, 'temperature')}`,
    limitFrom: from === undefined ? undefined : reader.drawn(from, 'depth'),
  });
  return [
    ...(isCold(conductor - atIntake)
      ? [mark('well and conductor', atIntake)]
      : [mark('well at intake', atIntake), mark('conductor', conductor)]),
    mark('winding', winding),
    ...ratings.map(({ name, number, from }) => mark(name, number, from)),
  ];
}
