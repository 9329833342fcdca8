/** What a YAML text may not hold as it is, or what steers whoever reads it. */
const UNSEEN =
  /[\x7F-\x9F\xAD\u061C\u180E\u200B\u200E\u200F\u2028-\u202E\u2060-\u206F\uFEFF\uFFF9-\uFFFB\uFFFE\uFFFF]/g;

/** A text in double quotes, which YAML reads as JSON does; nothing in it can be taken for anything else. */
export function quoted(text: string): string {
  return JSON.stringify(text).replace(UNSEEN, (mark) => `\\u${mark.charCodeAt(0).toString(16).padStart(4, '0')}`);
}

/** A text for a comment: a line break in it would end the comment. */
export function commented(text: string): string {
  return text.replace(/[\x00-\x1F\u{D800}-\u{DFFF}]+/gu, ' ').replace(UNSEEN, ' ');
}
