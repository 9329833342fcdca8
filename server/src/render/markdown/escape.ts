import { visible } from '../escape.ts';

/** Text from a document on one line of Markdown, also within a table's cell: nothing in it is markup, HTML or a link. */
export function escapeMarkdown(text: string): string {
  return visible(text.replace(/\s+/g, ' '))
    .replace(/&/g, '&amp;')
    .replace(/</g, '&lt;')
    .replace(/>/g, '&gt;')
    .replace(/[\\`*_{}[\]#|~!@]/g, (character) => `\\${character}`)
    .replace(/:\/\//g, ':\u200b//');
}
