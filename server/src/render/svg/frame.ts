import { type Range, rounded, Scale, type Tick, ticks } from './axis.ts';
import { type Drawing, LETTER } from './drawing.ts';

/** The rectangle in which a picture is plotted. */
export interface Frame {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

const TICK = 4;
/** Least distance of two numbers on an axis, up and across. */
const SPACE_UP = 24;
const SPACE_ACROSS = 46;

/** An axis that runs up along the left side, from tick to tick, with its unit above it. */
export function leftAxis(drawing: Drawing, frame: Frame, range: Range, title: string): Scale {
  const scale = new Scale(rounded(range, ticksUp(frame)), frame.bottom, frame.top);
  drawUpright(drawing, frame, scale);
  drawing.text([0, frame.top - LETTER], title);
  return scale;
}

/** An axis that runs down, for depths, as far as they go, with its unit below it. */
export function depthAxis(drawing: Drawing, frame: Frame, range: Range, title: string): Scale {
  const scale = new Scale(range, frame.top, frame.bottom);
  drawUpright(drawing, frame, scale);
  drawing.text([frame.left - TICK - 3, frame.bottom + LETTER], title, 'end');
  return scale;
}

/** An axis along the top, from tick to tick, with its unit behind the last number. */
export function topAxis(drawing: Drawing, frame: Frame, range: Range, title: string): Scale {
  const scale = new Scale(rounded(range, ticksAcross(frame)), frame.left, frame.right);
  drawLevel(drawing, frame, scale, { y: frame.top, tickTo: frame.top - TICK, baseline: frame.top - TICK - 3, title });
  return scale;
}

/** An axis along the bottom, over just the range given. */
export function bottomAxis(drawing: Drawing, frame: Frame, range: Range, title: string): Scale {
  const scale = new Scale(range, frame.left, frame.right);
  const tickTo = frame.bottom + TICK;
  drawLevel(drawing, frame, scale, { y: frame.bottom, tickTo, baseline: tickTo + LETTER, title });
  return scale;
}

export function ticksAcross({ left, right }: Frame): number {
  return Math.floor((right - left) / SPACE_ACROSS);
}

function ticksUp({ top, bottom }: Frame): number {
  return Math.floor((bottom - top) / SPACE_UP);
}

function drawUpright(drawing: Drawing, frame: Frame, scale: Scale): void {
  const { left, top, bottom } = frame;
  drawing.line([
    [left, top],
    [left, bottom],
  ]);
  for (const { number, text } of ticks(scale, ticksUp(frame))) {
    const y = scale.at(number);
    drawing.line([
      [left - TICK, y],
      [left, y],
    ]);
    drawing.text([left - TICK - 3, y + LETTER / 3], text, 'end');
  }
}

interface LevelPlace {
  readonly y: number;
  readonly tickTo: number;
  readonly baseline: number;
  readonly title: string;
}

function drawLevel(drawing: Drawing, frame: Frame, scale: Scale, { y, tickTo, baseline, title }: LevelPlace): void {
  drawing.line([
    [frame.left, y],
    [frame.right, y],
  ]);
  const marks: readonly Tick[] = ticks(scale, ticksAcross(frame));
  for (const { number, text } of marks) {
    drawing.line([
      [scale.at(number), y],
      [scale.at(number), tickTo],
    ]);
    drawing.text([scale.at(number), baseline], text, 'middle');
  }
  drawing.text([frame.right + 22, baseline], title);
}
