import { visible } from '../escape.ts';

/** Markup that was made here and may be put into a page as it is. */
export class Markup {
  readonly text: string;

  constructor(text: string) {
    this.text = text;
  }

  toString(): string {
    return this.text;
  }
}

type Insert = string | number | boolean | undefined | Markup | readonly Insert[];

// Line breaks are set by us; those of a document would be control characters in an attribute.
const BLANKS = /[\t\r\n]+/g;
const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};
/** Text from a document, fit for the content of an element and for a quoted attribute. */
export function escapeHtml(text: string): string {
  return visible(text.replace(BLANKS, ' ')).replace(/[&<>"']/g, (character) => ENTITIES[character] ?? '');
}

/**
 * A template whose inserts are escaped, whatever they hold; lists are joined, `undefined` and `false` are nothing. Only
 * what this tag made itself goes in as markup.
 */
export function html(strings: TemplateStringsArray, ...inserts: readonly Insert[]): Markup {
  return new Markup(strings.map((string, index) => string + render(inserts[index])).join(''));
}

function render(insert: Insert): string {
  if (insert === undefined || insert === false || insert === true) return '';
  if (insert instanceof Markup) return insert.text;
  if (typeof insert === 'object') return insert.map(render).join('');
  return escapeHtml(String(insert));
}

/** Markup from a source that is trusted as a whole, such as a style sheet of ours. */
export function trusted(text: string): Markup {
  return new Markup(text);
}

/** A text as a quoted CSS string: everything but plain letters, digits and blanks by its code point. */
export function cssString(text: string): string {
  const safe = visible(text.replace(BLANKS, ' ')).replace(/[^A-Za-z0-9 ]/gu, (character) => {
    return `\\${(character.codePointAt(0) ?? 0xfffd).toString(16)} `;
  });
  return `"${safe}"`;
}
