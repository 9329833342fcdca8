import { visible } from '../escape.ts';
import type { FontData } from './font-data.ts';

/** A font in which text is measured and set. */
export class Face {
  readonly data: FontData;
  readonly #glyphs: ReadonlyMap<number, number>;
  /** A sheet says the same words over and over. */
  readonly #widths = new Map<string, number>();

  constructor(data: FontData) {
    this.data = data;
    this.#glyphs = new Map(data.points.map((point, index) => [point, data.glyphs[index] ?? 0]));
  }

  has(character: string): boolean {
    return this.#glyphs.has(character.codePointAt(0) ?? 0);
  }

  /** Width of a printable text in points. */
  widthOf(text: string, size: number): number {
    const known = this.#widths.get(text);
    const width = known ?? this.#measure(text);
    if (known === undefined) this.#widths.set(text, width);
    return (width * size) / 1000;
  }

  /** The glyphs of a printable text as a string of PDF, two bytes each: half of what hexadecimal digits would take. */
  encode(text: string): string {
    const bytes = [...text].map((character) => {
      const glyph = this.#glyphOf(character);
      return String.fromCharCode(glyph >> 8, glyph & 0xff);
    });
    return `(${bytes.join('').replace(/[\\()\r]/g, (sign) => (sign === '\r' ? '\\r' : `\\${sign}`))})`;
  }

  #measure(text: string): number {
    let width = 0;
    for (const character of text) width += this.data.widths[this.#glyphOf(character)] ?? 0;
    return width;
  }

  #glyphOf(character: string): number {
    return this.#glyphs.get(character.codePointAt(0) ?? 0) ?? 0;
  }
}

/** A text as it can be set: a character without a glyph is written by its code, so that nothing is lost in silence. */
export function printable(text: string, face: Face): string {
  // The signs of ASCII are in every face, and most texts have no others.
  if (/^[ -~]*$/.test(text)) return text;
  const plain = visible(text.normalize('NFC').replace(/[\t\r\n]+/g, ' '));
  return [...plain].map((character) => (face.has(character) ? character : codeOf(character))).join('');
}

function codeOf(character: string): string {
  const code = (character.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0');
  return `[U+${code}]`;
}

/** A printable text in lines of a width; words that are longer than a line are cut. */
export function wrap(text: string, face: Face, size: number, width: number): readonly string[] {
  const lines: string[] = [];
  let line = '';
  let used = 0;
  for (const piece of piecesOf(text)) {
    if (used + face.widthOf(piece.trimEnd(), size) > width && line !== '') {
      lines.push(line.trimEnd());
      line = '';
      used = 0;
    }
    const parts = cut(piece, face, size, width);
    lines.push(...parts.slice(0, -1));
    line += parts.at(-1) ?? '';
    used += face.widthOf(parts.at(-1) ?? '', size);
  }
  return line.trim() === '' && lines.length > 0 ? lines : [...lines, line.trimEnd()];
}

/** Words with the blanks behind them; an id may also be broken behind its points. */
function piecesOf(text: string): readonly string[] {
  return text.match(/[^\s./_]*[\s./_]+|[^\s./_]+/g) ?? [];
}

function cut(piece: string, face: Face, size: number, width: number): readonly string[] {
  if (face.widthOf(piece.trimEnd(), size) <= width) return [piece];
  const parts: string[] = [];
  let part = '';
  for (const character of piece) {
    if (part !== '' && face.widthOf((part + character).trimEnd(), size) > width) {
      parts.push(part);
      part = '';
    }
    part += character;
  }
  return [...parts, part];
}
