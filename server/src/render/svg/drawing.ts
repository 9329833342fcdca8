import { shortened } from '../../engine/index.ts';
import { escapeHtml } from '../html/escape.ts';

/** Width of a picture in its own units: on paper, and in a panel beside the editor, where letters must not shrink with it. */
export const [WIDE, NARROW] = [600, 420] as const;
export type PictureWidth = typeof WIDE | typeof NARROW;
/** Height of the letters: 8 points where a wide picture is printed 16 cm wide. */
export const LETTER = 11;
export const LINE_HEIGHT = 13;
/** Letters of a wide sans serif; most are narrower. */
const LETTER_WIDTH = 0.6 * LETTER;

export type Point = readonly [x: number, y: number];
export type Anchor = 'start' | 'middle' | 'end';

/** Lines are told apart by their pattern, never by a colour. */
export const PATTERNS = {
  solid: '',
  heavy: ' stroke-width="2"',
  fine: ' stroke-width=".5"',
  dashed: ' stroke-dasharray="6 3"',
  dotted: ' stroke-dasharray="1 3"',
  mixed: ' stroke-dasharray="9 3 2 3"',
} as const;
export type Pattern = keyof typeof PATTERNS;

/** How wide a text may be at most. */
export function widthOf(text: string): number {
  return LETTER_WIDTH * text.length;
}

/** A text cut off where it would be wider than there is room. */
export function fitted(text: string, room: number): string {
  return shortened(text, Math.max(1, Math.floor(room / LETTER_WIDTH)));
}

/**
 * Collects the lines and texts of one picture. Everything is in the colour of the text around it. What shares a pattern
 * or an anchor is written together, which halves the size.
 */
export class Drawing {
  readonly #width: PictureWidth;
  readonly #lines = new Map<Pattern, string>();
  readonly #marks: string[] = [];
  readonly #texts = new Map<Anchor, string>();

  constructor(width: PictureWidth) {
    this.#width = width;
  }

  line(points: readonly Point[], pattern: Pattern = 'solid'): void {
    this.#lines.set(pattern, (this.#lines.get(pattern) ?? '') + pathOf(points));
  }

  /** A tinted area; it tells nothing that a line does not tell as well. */
  area([x1, y1]: Point, [x2, y2]: Point): void {
    const corners = pathOf([
      [x1, y1],
      [x2, y1],
      [x2, y2],
      [x1, y2],
    ]);
    this.#marks.push(`<path d="${corners}Z" fill="currentColor" fill-opacity=".12" stroke="none"/>`);
  }

  /** A mark, filled for what is and open for what could be. */
  mark(points: readonly Point[], filled = true): void {
    this.#marks.push(`<path d="${pathOf(points)}Z"${filled ? ' fill="currentColor"' : ''}/>`);
  }

  dot([x, y]: Point, filled = true): void {
    this.#marks.push(`<circle cx="${short(x)}" cy="${short(y)}" r="3"${filled ? ' fill="currentColor"' : ''}/>`);
  }

  /** A text; one that would run out of the picture, as a name of any length may, is cut off. */
  text([x, y]: Point, text: string, anchor: Anchor = 'start'): void {
    const room = this.#roomAt(x, anchor);
    const written = `<text x="${Math.round(x)}" y="${Math.round(y)}">${escapeXml(fitted(text, room))}</text>`;
    this.#texts.set(anchor, (this.#texts.get(anchor) ?? '') + written);
  }

  #roomAt(x: number, anchor: Anchor): number {
    const behind = this.#width - x;
    return anchor === 'start' ? behind : anchor === 'end' ? x : 2 * Math.min(x, behind);
  }

  /** The picture, with its name and what it shows in words for those who cannot see it. */
  toSvg(title: string, description: string, height: number): string {
    const lines = [...this.#lines].map(([pattern, path]) => `<path d="${path}"${PATTERNS[pattern]}/>`);
    const texts = [...this.#texts].map(([anchor, written]) => `<g text-anchor="${anchor}">${written}</g>`);
    return [
      `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${this.#width} ${Math.ceil(height)}" role="img"`,
      ` font-family="sans-serif" font-size="${LETTER}" fill="none" stroke="currentColor">`,
      `<title>${escapeXml(title)}</title><desc>${escapeXml(description)}</desc>`,
      ...lines,
      ...this.#marks,
      `<g fill="currentColor" stroke="none">${texts.join('')}</g></svg>`,
    ].join('');
  }
}

function pathOf(points: readonly Point[]): string {
  return points.map(([x, y], at) => `${at === 0 ? 'M' : at === 1 ? 'L' : ' '}${short(x)} ${short(y)}`).join('');
}

/** A tenth of a unit is finer than any printer. */
function short(number: number): string {
  return String(Math.round(number * 10) / 10);
}

// Halves of a surrogate pair and the two non-characters may not stand in XML at all, not even escaped.
const NO_XML = /[\uD800-\uDBFF](?![\uDC00-\uDFFF])|(?<![\uD800-\uDBFF])[\uDC00-\uDFFF]|[\uFFFE\uFFFF]/g;

/** A text for XML, which takes fewer characters than HTML does. */
function escapeXml(text: string): string {
  return escapeHtml(text).replace(NO_XML, '\uFFFD');
}
