/** A half-open range of UTF-16 code units in a source text. */
export interface Span {
  readonly start: number;
  readonly end: number;
}

/** Line and character, both counted from zero, in UTF-16 code units (as the Language Server Protocol counts). */
export interface Position {
  readonly line: number;
  readonly character: number;
}

export interface Range {
  readonly start: Position;
  readonly end: Position;
}
