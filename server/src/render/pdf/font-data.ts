/** A font to be embedded whole, with its measures in thousandths of the type size. */
export interface FontData {
  readonly name: string;
  /** The TrueType file, deflated, in base64. */
  readonly deflated: string;
  /** Bytes of the file before it was deflated. */
  readonly length: number;
  readonly box: readonly number[];
  readonly ascent: number;
  readonly descent: number;
  readonly capHeight: number;
  /** Advance widths by glyph. */
  readonly widths: readonly number[];
  /** Code points that the font has, ascending, and the glyph of each. */
  readonly points: readonly number[];
  readonly glyphs: readonly number[];
  /** The table that leads from glyphs back to characters, deflated, in base64. */
  readonly toUnicode: string;
}
