import type { Position, Range, Span } from './span.ts';

/** A text with its line table. Lines end at LF, CR or CR LF. */
export class SourceText {
  readonly text: string;
  #lineStarts: readonly number[] | undefined;

  constructor(text: string) {
    this.text = text;
  }

  get length(): number {
    return this.text.length;
  }

  /** Offsets at which the lines begin; built at the first request, since most texts of a large run never need it. */
  get lineStarts(): readonly number[] {
    this.#lineStarts ??= findLineStarts(this.text);
    return this.#lineStarts;
  }

  slice(span: Span): string {
    return this.text.slice(span.start, span.end);
  }

  positionAt(offset: number): Position {
    const bounded = Math.max(0, Math.min(offset, this.text.length));
    const line = lastAtOrBefore(this.lineStarts, bounded);
    return { line, character: bounded - (this.lineStarts[line] ?? 0) };
  }

  offsetAt(position: Position): number {
    const starts = this.lineStarts;
    if (position.line < 0) return 0;
    const start = starts[position.line];
    if (start === undefined) return this.text.length;
    const next = starts[position.line + 1] ?? this.text.length;
    return Math.max(start, Math.min(start + position.character, next));
  }

  rangeOf(span: Span): Range {
    return { start: this.positionAt(span.start), end: this.positionAt(span.end) };
  }
}

function findLineStarts(text: string): number[] {
  const starts = [0];
  for (let at = 0; at < text.length; at++) {
    const code = text.charCodeAt(at);
    const endsLine = code === 10 || (code === 13 && text.charCodeAt(at + 1) !== 10);
    if (endsLine) starts.push(at + 1);
  }
  return starts;
}

function lastAtOrBefore(starts: readonly number[], offset: number): number {
  let low = 0;
  let high = starts.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((starts[middle] ?? 0) <= offset) low = middle;
    else high = middle - 1;
  }
  return low;
}
