/** Control characters, and those that turn the direction of writing: a document must not steer what shows its text. */
const UNSEEN = /[\x00-\x1F\x7F-\x9F\u2028\u2029\u200E\u200F\u202A-\u202E\u2066-\u2069]/g;
const UNSEEN_IN_JSON = /[\x7F-\x9F\u2028\u2029\u200E\u200F\u202A-\u202E\u2066-\u2069]/g;

/** A text in which control characters are seen, as `\u001b`, and do nothing. */
export function visible(text: string): string {
  return text.replace(UNSEEN, escaped);
}

/** A value as JSON that does nothing to a terminal either; `indent` in spaces. */
export function jsonText(value: unknown, indent?: number): string {
  return JSON.stringify(value, undefined, indent).replace(UNSEEN_IN_JSON, escaped);
}

function escaped(character: string): string {
  return `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`;
}
