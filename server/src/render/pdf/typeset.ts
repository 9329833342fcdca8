import type { Paper } from '../html/print-css.ts';
import { openFaces } from './canvas.ts';
import { type About, writeDocument } from './document.ts';
import { type Block, flow } from './flow.ts';
import { drawFrame, type PageFrame, sheetOf } from './frame.ts';
import { Setter } from './setter.ts';

/** A document before it is set: what it says of itself, what frames its pages, and what stands on them. */
export interface Layout {
  readonly about: About;
  readonly frame: PageFrame;
  readonly blocks: (setter: Setter) => readonly Block[];
}

/** Sets a layout on a paper, with its number on each page. The same layout gives the same bytes; fonts are embedded. */
export function typeset(paper: Paper, { about, frame, blocks }: Layout): Promise<Uint8Array> {
  const faces = openFaces();
  const setter = new Setter(faces, sheetOf(paper, frame));
  const { sheet } = setter;
  const canvases = flow(blocks(setter), sheet, faces);
  canvases.forEach((canvas, index) => {
    drawFrame(setter, canvas, frame, `Page ${index + 1} of ${canvases.length}`);
  });
  return writeDocument({ about, canvases, sheet, faces, code: frame.code });
}
