import type { Paper } from '../html/print-css.ts';
import type { Canvas } from './canvas.ts';
import type { Sheet } from './flow.ts';
import type { Picture } from './qr.ts';
import { drawLines, type Setter, STYLES } from './setter.ts';

/** What stands at the head and the foot of each page, besides its number. */
export interface PageFrame {
  /** A warning at the head. */
  readonly band: string | undefined;
  readonly foot: readonly string[];
  readonly code: Picture | undefined;
}

/** Points; ISO 216 and ANSI Y14.1. */
const SIZES: Readonly<Record<Paper, readonly [number, number]>> = { a4: [595.28, 841.89], letter: [612, 792] };
/** Points at the foot of each page for its number, the fingerprint and the code. */
const FOOT = 62;
const CODE = 50;
const BAND = 26;

/** What head and foot leave of a paper. */
export function sheetOf(paper: Paper, { band }: PageFrame): Sheet {
  const [width, height] = SIZES[paper];
  return { width, height, left: 40, right: 34, top: 26 + (band === undefined ? 0 : BAND), bottom: FOOT + 8 };
}

/** Head and foot of a page that is told its number in words. */
export function drawFrame(setter: Setter, canvas: Canvas, { band, foot, code }: PageFrame, page: string): void {
  const { left, right, width } = setter.sheet;
  const wide = width - left - right;
  drawBand(setter, canvas, band);
  const top = FOOT + 2;
  canvas.rule(left, top, wide, 0.6);
  let at = top - 4;
  for (const text of foot) {
    const lines = setter.lines(text, STYLES.small, wide - CODE - 66);
    drawLines(canvas, lines, left, at);
    at -= lines.height;
  }
  const number = setter.lines(page, STYLES.smallStrong, 60);
  drawLines(canvas, number, left + wide - CODE - 58, top - 4);
  if (code !== undefined) canvas.picture(code, left + wide - CODE, top - CODE - 3, CODE);
}

const SHORT = 12;

/** A fingerprint as it is told where the code beside it has the whole. */
export function shortFingerprint(fingerprint: string): string {
  return `Fingerprint ${fingerprint.replace(/^sha256:/, '').slice(0, SHORT)}…, whole in the code.`;
}

function drawBand(setter: Setter, canvas: Canvas, band: string | undefined): void {
  if (band === undefined) return;
  const { left, right, width, height } = setter.sheet;
  const lines = setter.lines(band, STYLES.strong, width - left - right - 12);
  const box = { x: left, y: height - 22 - lines.height, width: width - left - right, height: lines.height + 8 };
  canvas.frame(box, 1.5);
  drawLines(canvas, lines, left + 6, height - 18);
}
