/**
 * Characters that nobody sees, or that steer what shows them: a document must do neither. Beside control characters those
 * that turn the direction of writing, blanks without width, tags, and halves of surrogate pairs. What joins letters in
 * some scripts (U+200C, U+200D) stays.
 */
const UNSEEN =
  /[\x00-\x1F\x7F-\x9F\xAD\u061C\u180E\u200B\u200E\u200F\u2028-\u202E\u2060-\u206F\uFEFF\uFFF9-\uFFFB\u{D800}-\u{DFFF}\u{E0000}-\u{E007F}]/gu;
/** Line breaks of the layout stay, and JSON has its own way with control characters. */
const UNSEEN_IN_JSON = new RegExp(UNSEEN.source.replace('\\x00-\\x1F', ''), 'gu');

/** A text in which characters that are not seen are, as `\u001b`, and do nothing. */
export function visible(text: string): string {
  return text.replace(UNSEEN, escaped);
}

/** A value as JSON that does nothing to a terminal either; `indent` in spaces. */
export function jsonText(value: unknown, indent?: number): string {
  return JSON.stringify(value, undefined, indent).replace(UNSEEN_IN_JSON, escaped);
}

function escaped(character: string): string {
  const units = character.split('').map((unit) => unit.charCodeAt(0).toString(16).padStart(4, '0'));
  return units.map((unit) => `\\u${unit}`).join('');
}
