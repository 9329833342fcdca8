import type { Canvas, Faces, Tag, TextStyle } from './canvas.ts';
import { printable, wrap } from './face.ts';
import type { Block, Sheet } from './flow.ts';

export const STYLES = {
  title: { face: 'bold', size: 17, leading: 20 },
  stage: { face: 'bold', size: 14, leading: 17 },
  group: { face: 'bold', size: 10.5, leading: 13 },
  text: { face: 'regular', size: 9, leading: 11.2 },
  strong: { face: 'bold', size: 9, leading: 11.2 },
  note: { face: 'regular', size: 7.5, leading: 9.4 },
  small: { face: 'regular', size: 6.5, leading: 8 },
  smallStrong: { face: 'bold', size: 7.5, leading: 9.4 },
} as const satisfies Record<string, TextStyle>;

/** A text that is set in a column. */
export interface Column {
  readonly x: number;
  readonly width: number;
}

/** Lines of one style, measured. */
export interface Lines {
  readonly texts: readonly string[];
  readonly style: TextStyle;
  readonly height: number;
}

/** Makes blocks for one sheet. */
export class Setter {
  readonly faces: Faces;
  readonly sheet: Sheet;

  constructor(faces: Faces, sheet: Sheet) {
    this.faces = faces;
    this.sheet = sheet;
  }

  get column(): Column {
    const { left, right, width } = this.sheet;
    return { x: left, width: width - left - right };
  }

  /** A text in lines of a width; nothing for an empty one. */
  lines(text: string, style: TextStyle, width: number): Lines {
    const face = this.faces[style.face];
    const texts = text.trim() === '' ? [] : wrap(printable(text, face), face, style.size, width);
    return { texts, style, height: texts.length * style.leading };
  }

  paragraph(text: string, style: TextStyle, options: ParagraphOptions = {}): Block {
    const { before = 0, after = 2, tag = 'P', ...rest } = options;
    const { x, width } = this.column;
    const lines = this.lines(text, style, width);
    return {
      height: before + lines.height + after,
      draw: (canvas, top) => drawText(canvas, tag, lines, x, top - before),
      ...rest,
    };
  }
}

export interface ParagraphOptions {
  readonly before?: number;
  readonly after?: number;
  readonly tag?: Tag;
  readonly staysWithNext?: boolean;
  readonly startsPage?: boolean;
}

/** Part of the type size that stands above the baseline. */
const ASCENT = 0.8;

/** Draws lines whose upper edge is `top`. */
export function drawLines(canvas: Canvas, { texts, style }: Lines, x: number, top: number): void {
  const lead = (style.leading - style.size) / 2;
  if (texts.length > 0) canvas.lines(texts, style, x, top - lead - style.size * ASCENT);
}

/** The same as content of its own. */
export function drawText(canvas: Canvas, tag: Tag, lines: Lines, x: number, top: number): void {
  if (lines.texts.length > 0) canvas.tagged(tag, () => drawLines(canvas, lines, x, top));
}

/** Lines of one row; what is longer goes on in rows of its own, so that no row is longer than a page. */
const MOST_LINES = 40;

/** Lines in stretches that each fit on a page; one, empty, for no lines. */
export function inPieces(lines: Lines): readonly Lines[] {
  const { texts, style } = lines;
  return Array.from({ length: Math.max(1, Math.ceil(texts.length / MOST_LINES)) }, (_, index) => {
    const part = texts.slice(index * MOST_LINES, (index + 1) * MOST_LINES);
    return { texts: part, style, height: part.length * style.leading };
  });
}
