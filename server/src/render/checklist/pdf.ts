import type { Checklist, Stage } from '../../engine/index.ts';
import type { Paper } from '../html/print-css.ts';
import { Setter, STYLES } from './pdf/blocks.ts';
import { openFaces } from './pdf/canvas.ts';
import { coverBlocks } from './pdf/cover.ts';
import { writeDocument } from './pdf/document.ts';
import { type Block, flow, type Sheet } from './pdf/flow.ts';
import { BAND, drawFrame, FOOT } from './pdf/frame.ts';
import { type Picture, qrPicture } from './pdf/qr.ts';
import { stepRows, tableHead } from './pdf/rows.ts';
import { groupsOf, type StepGroup } from './words.ts';

export interface PdfOptions {
  readonly paper: Paper;
}

/** Points; ISO 216 and ANSI Y14.1. */
const SIZES: Readonly<Record<Paper, readonly [number, number]>> = { a4: [595.28, 841.89], letter: [612, 792] };

/**
 * The checklist as a PDF form: a field for each thing that is ticked, read, set or signed, named by the step.
 * The same checklist gives the same bytes. Nothing is loaded; fonts are embedded.
 */
export function renderChecklistPdf(checklist: Checklist, { paper }: PdfOptions): Promise<Uint8Array> {
  const faces = openFaces();
  const setter = new Setter(faces, sheetOf(paper, checklist.band));
  const code = qrPicture(checklist.fingerprint);
  const canvases = flow(blocksOf(setter, checklist, code), setter.sheet, faces);
  canvases.forEach((canvas, index) => {
    drawFrame(setter, canvas, { checklist, code }, `Page ${index + 1} of ${canvases.length}`);
  });
  return writeDocument({ checklist, canvases, sheet: setter.sheet, faces, code });
}

function sheetOf(paper: Paper, band: string | undefined): Sheet {
  const [width, height] = SIZES[paper];
  return { width, height, left: 40, right: 34, top: 26 + (band === undefined ? 0 : BAND), bottom: FOOT + 8 };
}

function blocksOf(setter: Setter, checklist: Checklist, code: Picture): readonly Block[] {
  return checklist.stages.flatMap((stage, index) => [
    ...(index === 0 ? coverTitle(setter, checklist, code) : [stageTitle(setter, stage, index)]),
    ...groupsOf(stage.steps).flatMap((group) => groupBlocks(setter, group)),
  ]);
}

function coverTitle(setter: Setter, checklist: Checklist, code: Picture): readonly Block[] {
  const title = setter.paragraph(checklist.title, STYLES.title, { after: 6, tag: 'H1', staysWithNext: true });
  return [title, ...coverBlocks(setter, checklist, code)];
}

function stageTitle(setter: Setter, { title }: Stage, index: number): Block {
  const options = { after: 4, tag: 'H2', staysWithNext: true, startsPage: true } as const;
  return setter.paragraph(`${index}. ${title}`, STYLES.stage, options);
}

function groupBlocks(setter: Setter, { title, steps }: StepGroup): readonly Block[] {
  const head = tableHead(
    setter,
    steps.every(({ kind }) => kind === 'set'),
  );
  const options = { before: 7, after: 2, tag: 'H3', staysWithNext: true } as const;
  const heading = title === undefined ? [] : [setter.paragraph(title, STYLES.group, options)];
  return [...heading, ...steps.flatMap((step) => stepRows(setter, step, head))];
}
