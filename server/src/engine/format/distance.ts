/** Longest word that is worth comparing: keys are short, and hostile ones are not. */
const LONGEST = 64;
/** Fewer letters begin too many words. */
const SHORTEST = 3;

/** Of a mistake that is made again and again so many are listed, and the rest are counted. */
const MOST_GUESSED = 100;

/** Guesses at misspelt ids, for as many as are listed: a hostile text has tens of thousands of them. */
export function guesser(candidates: readonly string[]): (id: string) => string | undefined {
  let left = MOST_GUESSED;
  return (id) => (left-- > 0 ? nearestId(id, candidates) : undefined);
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

/** A word of an id that is more than this share of it off is another word. */
const WORD_SHARE = 3;

/**
 * The id closest to a misspelt one, such as a check's: compared word by word and in any order, since who writes
 * `cable.drop-voltage` means `cable.voltage-drop`, and not the id that happens to share most letters.
 */
function nearestId(id: string, candidates: readonly string[]): string | undefined {
  if (id.length > LONGEST) return undefined;
  const words = wordsOf(id);
  let best: { readonly id: string; readonly cost: number } | undefined;
  for (const candidate of candidates) {
    const most = best?.cost ?? Math.floor(id.length / WORD_SHARE) + 1;
    const cost = Math.min(
      costOf(words, wordsOf(candidate), most),
      distance(id.toLowerCase(), candidate, Math.ceil(most)),
    );
    if (best === undefined ? cost <= id.length / WORD_SHARE : cost < best.cost) best = { id: candidate, cost };
  }
  return best?.id;
}

function wordsOf(id: string): readonly string[] {
  return id.toLowerCase().split(/[.\-_\s]+/);
}

/** Edits that turn some words into others, each pair of words taken once; a word too many or too few costs its length. */
function costOf(words: readonly string[], others: readonly string[], most: number): number {
  const left = [...others];
  let cost = 0;
  for (const word of words) {
    const costs = left.map((other) => wordCost(word, other));
    const at = costs.indexOf(Math.min(...costs));
    const own = costs[at];
    const isAnother = own === undefined || own > Math.max(1, word.length / WORD_SHARE);
    cost += isAnother ? word.length : own;
    if (!isAnother) left.splice(at, 1);
    if (cost > most) return cost;
  }
  return cost + left.reduce((sum, word) => sum + word.length / 2, 0);
}

/** Half a word, such as `flow` for `flowing`, is nearly the word. */
function wordCost(word: string, other: string): number {
  const isBegun = word.length > 2 && other.startsWith(word);
  return isBegun ? 1 : distance(word, other, Math.max(word.length, other.length));
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
