/** Longest word that is worth comparing: keys are short, and hostile ones are not. */
const LONGEST = 64;
/** Fewer letters begin too many words. */
const SHORTEST = 3;

/** Of a mistake that is made again and again so many are listed, and the rest are counted. */
const MOST_GUESSED = 100;

/** Guesses at misspelt words, for as many as are listed: a hostile text has tens of thousands of them. */
export function guesser(candidates: readonly string[]): (word: string) => string | undefined {
  let left = MOST_GUESSED;
  return (word) => (left-- > 0 ? nearest(word, candidates) : undefined);
}

/** The candidate closest to a misspelt word, if it is close enough to be meant. */
export function nearest(word: string, candidates: readonly string[]): string | undefined {
  if (word.length > LONGEST) return undefined;
  let best: string | undefined;
  let least = Math.max(1, Math.floor(word.length / 3)) + 1;
  for (const candidate of candidates) {
    const apart = distance(word.toLowerCase(), candidate.toLowerCase(), least);
    if (apart < least) {
      least = apart;
      best = candidate;
    }
  }
  return best;
}

/** The only candidate that a word cut short can be the beginning of. */
export function beginning(word: string, candidates: readonly string[]): string | undefined {
  if (word.length < SHORTEST) return undefined;
  const [only, ...others] = candidates.filter((each) => each.startsWith(word.toLowerCase()));
  return others.length === 0 ? only : undefined;
}

/** Edit distance with swapped neighbours counted as one slip; anything at or beyond `limit` may come out as `limit`. */
function distance(a: string, b: string, limit: number): number {
  if (Math.abs(a.length - b.length) >= limit) return limit;
  let before: number[] = [];
  let previous = Array.from({ length: b.length + 1 }, (_, index) => index);
  for (let row = 1; row <= a.length; row++) {
    const current = [row];
    for (let column = 1; column <= b.length; column++) {
      const same = a[row - 1] === b[column - 1];
      const swapped = row > 1 && column > 1 && a[row - 1] === b[column - 2] && a[row - 2] === b[column - 1];
      const plain = Math.min(
        (previous[column] ?? 0) + 1,
        (current[column - 1] ?? 0) + 1,
        (previous[column - 1] ?? 0) + (same ? 0 : 1),
      );
      current.push(swapped ? Math.min(plain, (before[column - 2] ?? 0) + 1) : plain);
    }
    before = previous;
    previous = current;
  }
  return previous[b.length] ?? limit;
}
