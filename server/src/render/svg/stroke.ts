import { type Evaluation, KINDS } from '../../engine/index.ts';
import { rangeOf } from './axis.ts';
import { Drawing, LETTER, type PictureWidth, type Point } from './drawing.ts';
import { bottomAxis, type Frame, leftAxis } from './frame.ts';
import { type Picture, pictureOf, Reader } from './picture.ts';

const SPEED = { left: 56, top: 26, bottom: 126 } as const;
const CURRENT = { left: 56, top: 166, bottom: 266 } as const;
/** Room for the name of the mean, at the right. */
const MEAN = 160;
const HEIGHT = 296;

/** s, m/s, A, N. */
interface Cycle {
  /** Ends of the loaded stroke, the dwell and the return stroke. */
  readonly times: readonly [number, number, number];
  readonly length: number;
  readonly loadedCurrent: number;
  readonly returnCurrent: number;
  readonly rms: number;
  readonly load: number;
  readonly returnLoad: number;
}

/** One stroke cycle of a linear unit: mean speed and current against time. */
export function strokePicture(evaluation: Evaluation, caseIndex: number, width: PictureWidth): Picture {
  const reader = new Reader(evaluation, caseIndex);
  const title = `Stroke cycle, ${evaluation.caseName(caseIndex)}`;
  const cycle = readCycle(reader);
  return pictureOf({ id: 'stroke', title, caseIndex }, reader, () => draw(title, cycle, reader, width));
}

function readCycle(reader: Reader): Cycle {
  const rate = reader.inCase('stroke_rate', 'operation.stroke.rate');
  if (rate === undefined) reader.noteMissing(['operation.stroke.rate']);
  const period = 1 / (rate ?? Number.NaN);
  const up = period * reader.value('pump.loaded_share');
  const returnLoad = reader.value('pump.return_load');
  const needed = (reader.entry('equipment.motor.current') * returnLoad) / reader.entry('equipment.motor.thrust');
  return {
    times: [up, up + (reader.knownEntry('operation.stroke.dwell') ?? 0), period],
    length: reader.entry('operation.stroke.length'),
    loadedCurrent: reader.value('motor.current'),
    returnCurrent: Math.max(needed, reader.knownEntry('equipment.motor.no_load_current') ?? 0),
    rms: reader.value('motor.current_rms'),
    load: reader.value('pump.load'),
    returnLoad,
  };
}

function draw(title: string, cycle: Cycle, reader: Reader, width: PictureWidth): string {
  const drawing = new Drawing(width);
  const right = width - MEAN;
  const [up, rest, end] = cycle.times;
  const loaded = cycle.length / up;
  const returning = end > rest ? cycle.length / (end - rest) : 0;
  drawSteps(drawing, { ...SPEED, right }, reader, {
    kind: 'speed',
    times: cycle.times,
    numbers: [loaded, 0, -returning],
    texts: [`up ${reader.shown(loaded, 'speed')}`, `down ${reader.shown(returning, 'speed')}`],
  });
  const y = drawSteps(drawing, { ...CURRENT, right }, reader, {
    kind: 'current',
    times: cycle.times,
    numbers: [cycle.loadedCurrent, 0, cycle.returnCurrent],
    texts: [
      `${reader.shown(cycle.loadedCurrent, 'current')}, ${reader.shown(cycle.load, 'force')}`,
      `${reader.shown(cycle.returnCurrent, 'current')}, ${reader.shown(cycle.returnLoad, 'force')}`,
    ],
  });
  const rms = y(cycle.rms);
  drawing.line(
    [
      [CURRENT.left, rms],
      [right + 6, rms],
    ],
    'dotted',
  );
  drawing.text([right + 9, rms + LETTER / 3], `rms ${reader.shown(cycle.rms, 'current')}`);
  return drawing.toSvg(title, describe(cycle, reader), HEIGHT);
}

interface Steps {
  readonly kind: 'speed' | 'current';
  readonly times: Cycle['times'];
  readonly numbers: readonly [number, number, number];
  /** Of the loaded and of the return stroke. */
  readonly texts: readonly [string, string];
}

/** Draws one quantity over the cycle, and returns where a number of it lies. */
function drawSteps(drawing: Drawing, frame: Frame, reader: Reader, steps: Steps): (number: number) => number {
  const { kind, times, numbers, texts } = steps;
  const drawn = (number: number) => reader.drawn(number, kind);
  const range = rangeOf([0, ...numbers.map(drawn)]);
  const scale = leftAxis(drawing, frame, range, `${kind}, ${reader.unit(kind)}`);
  const x = bottomAxis(drawing, frame, { from: 0, to: times[2] }, KINDS.duration.internal);
  const y = (number: number) => scale.at(drawn(number));
  if (range.from < 0)
    drawing.line(
      [
        [frame.left, y(0)],
        [frame.right, y(0)],
      ],
      'fine',
    );
  drawing.line(
    outline(times, numbers).map(([time, number]): Point => [x.at(time), y(number)]),
    'heavy',
  );
  drawing.text([x.at(times[0] / 2), y(numbers[0]) - 5], texts[0], 'middle');
  drawing.text([x.at((times[1] + times[2]) / 2), y(numbers[2]) - 5], texts[1], 'middle');
  return y;
}

/** The corners of three steps, from zero back to zero. */
function outline(times: Cycle['times'], numbers: Steps['numbers']): readonly Point[] {
  const points: Point[] = [[0, 0]];
  times.forEach((time, at) => {
    const number = numbers[at] ?? 0;
    points.push([times[at - 1] ?? 0, number], [time, number]);
  });
  return [...points, [times[2], 0]];
}

function describe({ times, rms, load, returnLoad }: Cycle, reader: Reader): string {
  const force = `Loaded stroke ${reader.shown(load, 'force')}, return stroke ${reader.shown(returnLoad, 'force')}`;
  const means =
    'Mean speeds over each stroke; starting and stopping are not drawn, and a dwell stands after the loaded stroke';
  return `${force}, rms current ${reader.shown(rms, 'current')}, cycle ${reader.shown(times[2], 'duration')}. ${means}.`;
}
