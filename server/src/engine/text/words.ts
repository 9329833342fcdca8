/** A sentence begins with a capital. */
export function capitalise(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** `a pump/1`, `an installation/1`. */
export function withArticle(noun: string): string {
  return `${/^[aeiou]/i.test(noun) ? 'an' : 'a'} ${noun}`;
}

/** A text of so many letters at most, cut off with `…` where it is longer; no letter is cut in two. */
export function shortened(text: string, most: number): string {
  // A letter is two units at most; of a text of a megabyte no more needs to be looked at.
  const letters = Array.from(text.slice(0, 2 * most + 2));
  return letters.length <= most ? text : `${letters.slice(0, most - 1).join('')}…`;
}

/** `a`, `a and b`, `a, b and c`. */
export function listed(words: readonly string[]): string {
  if (words.length < 2) return words[0] ?? '';
  return `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
}
