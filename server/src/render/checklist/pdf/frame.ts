import type { Checklist } from '../../../engine/index.ts';
import { revisionText } from '../words.ts';
import { drawLines, type Setter, STYLES } from './blocks.ts';
import type { Canvas } from './canvas.ts';
import type { Picture } from './qr.ts';

/** Points at the foot of each page for its number, the fingerprint and the code. */
export const FOOT = 62;
const CODE = 50;
export const BAND = 26;

export interface Framed {
  readonly checklist: Checklist;
  readonly code: Picture;
}

/** Head and foot of a page: the band of an installation with errors, what the sheet is, and its number. */
export function drawFrame(setter: Setter, canvas: Canvas, { checklist, code }: Framed, page: string): void {
  const { left, right, width } = setter.sheet;
  const wide = width - left - right;
  drawBand(setter, canvas, checklist.band);
  const foot = FOOT + 2;
  canvas.rule(left, foot, wide, 0.6);
  let at = foot - 4;
  for (const text of footTexts(checklist)) {
    const lines = setter.lines(text, STYLES.small, wide - CODE - 66);
    drawLines(canvas, lines, left, at);
    at -= lines.height;
  }
  const number = setter.lines(page, STYLES.smallStrong, 60);
  drawLines(canvas, number, left + wide - CODE - 58, foot - 4);
  canvas.picture(code, left + wide - CODE, foot - CODE - 3, CODE);
}

const SHORT = 12;
const LONGEST_NAME = 60;

function footTexts({ well, revision, fingerprint, deferral }: Checklist): readonly string[] {
  const name = well.length > LONGEST_NAME ? `${well.slice(0, LONGEST_NAME - 1)}…` : well;
  const short = fingerprint.replace(/^sha256:/, '').slice(0, SHORT);
  return [`Well ${name}. ${revisionText(revision)}. Fingerprint ${short}…, whole in the code.`, deferral];
}

function drawBand(setter: Setter, canvas: Canvas, band: string | undefined): void {
  if (band === undefined) return;
  const { left, right, width, height } = setter.sheet;
  const lines = setter.lines(band, STYLES.strong, width - left - right - 12);
  const box = { x: left, y: height - 22 - lines.height, width: width - left - right, height: lines.height + 8 };
  canvas.frame(box, 1.5);
  drawLines(canvas, lines, left + 6, height - 18);
}
