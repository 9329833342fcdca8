import { encode } from 'uqr';

/** A picture of whole units, drawn once and placed on every page. */
export interface Picture {
  readonly operators: string;
  /** Units along a side. */
  readonly size: number;
}

/** A code that a camera reads, its quiet zone included. */
export function qrPicture(text: string): Picture {
  const { data, size } = encode(text, { ecc: 'M', border: 4 });
  const squares = data.flatMap((row, line) =>
    row.flatMap((isDark, place) => (isDark ? [`${place} ${size - line - 1} 1 1 re`] : [])),
  );
  return { operators: `${squares.join(' ')} f`, size };
}
